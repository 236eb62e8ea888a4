import {
  type CoilMatrix,
  singleInductor,
  type WindingValues,
  windingLoss,
} from '@setwright/analysis';
import type { Circuit, Part } from '@setwright/circuit';
import { audioBand, type Band, edgesOf } from './bands.ts';
import type { UnitStyle } from './quantities.ts';
import { reactanceRows } from './reactance-rows.ts';
import { rowOf, type ValueRow } from './rows.ts';

/** Whether a part is a winding on iron, which works at audio frequencies. */
function isOnIron(circuit: Circuit, part: Part): boolean {
  const owner = circuit.partNamed.get(part.owner ?? '');
  return owner?.kind === 'transformer' && !owner.words.has('air');
}

/** What is reckoned of one winding of a coil or transformer. */
export function windingRows(
  circuit: Circuit,
  values: WindingValues,
  band: Band | undefined,
  style: UnitStyle,
): readonly ValueRow[] {
  const part = values.part.name;
  const rows = [
    rowOf({ part, quantity: 'inductance' }, values.inductance),
    rowOf({ part, quantity: 'resistance' }, values.resistance),
  ];
  if (isOnIron(circuit, values.part))
    return [...rows, ...reactanceRows(part, 'inductance', values.inductance, audioBand, style)];
  const losses = band ? edgesOf(band).map((at) => ({ at, q: windingLoss(values, at).q })) : [];
  return [
    ...rows,
    rowOf({ part, quantity: 'self-capacitance' }, values.selfCapacitance),
    ...losses.map(({ at, q }) => rowOf({ part, quantity: 'q', at }, q)),
    ...reactanceRows(part, 'inductance', values.inductance, band, style),
  ];
}

/** How the windings of a coil work on one another. */
export function couplingRows({ couplings }: CoilMatrix): readonly ValueRow[] {
  return couplings.flatMap(({ first: part, second: to, mutual, coefficient }) => [
    rowOf({ part, to, quantity: 'mutual-inductance' }, mutual),
    rowOf({ part, to, quantity: 'coupling' }, coefficient),
  ]);
}

/** Chokes of more than this many henries are on iron and work at audio frequencies. */
const LEAST_AUDIO_CHOKE = 0.5;

/** What is reckoned of a choke, loop, variometer, phones, horn or speaker. */
export function singleInductorRows(
  part: Part,
  band: Band | undefined,
  style: UnitStyle,
): readonly ValueRow[] {
  const single = singleInductor(part);
  if (!single) return [];
  const isSound = part.kind === 'phones' || part.kind === 'horn' || part.kind === 'speaker';
  const isAudio = isSound || (single.inductance.value ?? 0) > LEAST_AUDIO_CHOKE;
  return [
    rowOf({ part: part.name, quantity: 'inductance' }, single.inductance),
    rowOf({ part: part.name, quantity: 'resistance' }, single.resistance),
    ...reactanceRows(part.name, 'inductance', single.inductance, isAudio ? audioBand : band, style),
  ];
}
