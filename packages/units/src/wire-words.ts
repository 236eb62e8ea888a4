/** Insulation of magnet wire: S single, D double; S silk, C cotton; C covered. */
export type Covering = 'bare' | 'enamel' | 'SSC' | 'DSC' | 'SCC' | 'DCC';

/** Wire gauges: the American (B&S, also AWG) and the British standard (SWG). */
export type Gauge = 'B&S' | 'SWG';

const COVERINGS: ReadonlyMap<string, Covering> = new Map([
  ['bare', 'bare'],
  ['enamel', 'enamel'],
  ['enameled', 'enamel'],
  ['enamelled', 'enamel'],
  ['ssc', 'SSC'],
  ['dsc', 'DSC'],
  ['scc', 'SCC'],
  ['dcc', 'DCC'],
  ['singlesilkcovered', 'SSC'],
  ['doublesilkcovered', 'DSC'],
  ['singlecottoncovered', 'SCC'],
  ['doublecottoncovered', 'DCC'],
]);

const GAUGES: ReadonlyMap<string, Gauge> = new Map([
  ['b&s', 'B&S'],
  ['bands', 'B&S'],
  ['awg', 'B&S'],
  ['swg', 'SWG'],
]);

/** Reads a covering in any case, with or without dots: `DCC`, `d.c.c.`, `enamelled`. */
export function readCovering(text: string): Covering | undefined {
  return COVERINGS.get(wireKey(text));
}

/** Reads a wire gauge in any case: `B&S`, `B. & S.`, `B and S`, `AWG`, `S.W.G.`. */
export function readGauge(text: string): Gauge | undefined {
  return GAUGES.get(wireKey(text));
}

function wireKey(text: string): string {
  return text.length > 40 ? '' : text.replace(/[\s.-]/g, '').toLowerCase();
}
