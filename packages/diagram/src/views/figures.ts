import { coilMatrix, operatingPoint, singleInductor, tunedCircuits } from '@setwright/analysis';
import { asOn, type Circuit } from '@setwright/circuit';
import { type Dimension, formatQuantity } from '@setwright/units';

/** A reckoned number that belongs on the drawing. */
export interface Figure {
  /** The part or terminal it belongs to. */
  readonly at: string;
  /** As it is lettered, `−4.5 V bias`, and shorter where there is little room. */
  readonly texts: readonly string[];
  /** What it is, in words: `volts at V1.plate`. */
  readonly meaning: string;
  /** What a tuned circuit covers. */
  readonly isBand?: boolean;
}

/** What may be chosen of the figures. */
export interface FigureOptions {
  readonly units?: 'period' | 'si';
}

/**
 * The numbers that a restorer looks for on a drawing, with the set on and no signal: volts at
 * plates, screens and B taps, bias at grids, volts at filaments, what each tuned circuit covers,
 * the inductance of windings. Those that cannot be had are left out. Never throws.
 */
export function figuresOf(circuit: Circuit, options: FigureOptions = {}): readonly Figure[] {
  const style = options.units ?? 'period';
  const { settings } = asOn(circuit);
  const figures: Figure[] = [];
  const add = (
    at: string,
    value: number | undefined,
    dimension: Dimension,
    meaning: string,
    longer: string | undefined = undefined,
  ): void => {
    if (value === undefined || !Number.isFinite(value)) return;
    const text = formatQuantity(value, dimension, style).replaceAll('-', '−');
    figures.push({ at, texts: longer ? [`${text} ${longer}`, text] : [text], meaning });
  };
  const point = operatingPoint(circuit, settings);
  for (const tube of point.tubes) {
    const name = tube.tube;
    add(`${name}.plate`, tube.plateVolts?.value, 'voltage', `volts at ${name}.plate`);
    add(`${name}.screen`, tube.screenVolts?.value, 'voltage', `volts at ${name}.screen`);
    add(`${name}.grid`, tube.bias?.value, 'voltage', `bias of ${name}`, 'bias');
    const filament = `volts at the filament of ${name}`;
    add(`${name}.filament+`, tube.filamentVolts?.value, 'voltage', filament);
  }
  for (const { supply, taps } of point.supplies) {
    const said = circuit.partNamed.get(supply)?.supplyTaps ?? [];
    for (const { tap, volts } of taps) {
      const isPlus = (said.find(({ end }) => end === tap)?.volts ?? 0) > PLATE_VOLTS;
      if (isPlus) add(`${supply}.${tap}`, volts?.value, 'voltage', `volts at ${tap} under load`);
    }
  }
  for (const { tuner, windings, lowest, highest } of tunedCircuits(circuit, settings)) {
    const at = tuner ?? windings[0]?.edge.part;
    if (at === undefined || lowest.value === undefined || highest.value === undefined) continue;
    const [low, high] = [lowest.value, highest.value].map((hertz) =>
      formatQuantity(hertz, 'frequency', style),
    ) as [string, string];
    // The unit stands once where both have it.
    const unit = / .*$/.exec(high)?.[0] ?? '';
    const from = unit !== '' && low.endsWith(unit) ? low.slice(0, -unit.length) : low;
    const text = low === high ? low : `${from} to ${high}`;
    figures.push({ at, texts: [text], meaning: `what the circuit of ${at} covers`, isBand: true });
  }
  for (const part of circuit.parts) {
    if (part.kind === 'coil' || part.kind === 'transformer') {
      for (const winding of coilMatrix(circuit, part.name)?.windings ?? []) {
        // What the text states outright stands in its own words or is to be read there.
        if (winding.wound === undefined && part.kind === 'transformer') continue;
        const { name } = winding.part;
        add(name, winding.inductance.value, 'inductance', `inductance of ${name}`);
      }
    } else if (part.kind === 'variometer') {
      const henries = singleInductor(part)?.inductance.value;
      add(part.name, henries, 'inductance', `inductance of ${part.name} as it stands`);
    }
  }
  return figures;
}

/** Taps above this feed plates; those below light filaments and bias grids. */
const PLATE_VOLTS = 13;
