import type { Study } from '../study.ts';
import { plateResistanceOf } from '../tubes/tube-data.ts';
import type { TubeAt } from '../tubes/tubes.ts';
import { amplifiesRadio } from './radio-use.ts';
import { coilOf } from './radio-wiring.ts';

/** A tube that carries radio current, with its place in the row of stages that it belongs to. */
export interface ChainPlace {
  readonly tube: TubeAt;
  /** Number of the row; tubes of different rows do not amplify one another's signal. */
  readonly chain: number;
  /** 0 for the first of the row. */
  readonly place: number;
}

/** A triode stage's gain against its amplification, its plate circuit against its resistance. */
const STAGE_OF_MU = 7 / 8;
const PLATE_CIRCUIT_OF_RP = 15 / 11;
/** A screen-grid stage of the time gives about 30. Common practice. */
const SCREEN_STAGE = 30;

/** Whether a tube handles radio or intermediate frequency, detectors at the end of it included. */
export function handlesRadio(study: Study, tube: TubeAt): boolean {
  return (
    amplifiesRadio(study.circuit, tube) ||
    tube.roles.includes('detector') ||
    tube.roles.includes('mixer')
  );
}

/**
 * The rows of radio stages: a tube follows another when the other's plate has a winding on the
 * coil that drives its grid. Linear in the set; oscillators are left out.
 */
export function radioChains(study: Study): ReadonlyMap<TubeAt, ChainPlace> {
  const { radio } = study;
  const byCoil = new Map<string, TubeAt>();
  for (const { tube, winding } of radio.gridCircuits)
    if (!byCoil.has(coilOf(winding))) byCoil.set(coilOf(winding), tube);
  const next = new Map<TubeAt, TubeAt>();
  const isLater = new Set<TubeAt>();
  for (const { tube, winding } of radio.plateCircuits) {
    const after = byCoil.get(coilOf(winding));
    if (!after || after === tube || next.has(tube) || isLater.has(after)) continue;
    next.set(tube, after);
    isLater.add(after);
  }
  const places = new Map<TubeAt, ChainPlace>();
  let chain = 0;
  for (const first of study.tubes) {
    if (isLater.has(first)) continue;
    let place = 0;
    for (
      let tube: TubeAt | undefined = first;
      tube && !places.has(tube) && !isOscillator(tube);
      tube = next.get(tube)
    ) {
      if (handlesRadio(study, tube)) places.set(tube, { tube, chain, place });
      place++;
    }
    chain++;
  }
  return places;
}

const isOscillator = ({ roles }: TubeAt): boolean =>
  roles.includes('oscillator') && !roles.includes('mixer');

/**
 * What a stage with this tube is about worth: its gain, and its plate circuit's ohms. A triode
 * gives seven eighths of its amplification, with fifteen elevenths of its plate resistance in the
 * circuit (the usual general-purpose tube: 7, and 15 kilohms); common practice, roughly computed.
 * Undefined for a tube whose type does not say.
 */
export function stageOf(
  tube: TubeAt,
): { readonly gain: number; readonly plateCircuit: number } | undefined {
  const type = tube.part.tubeType;
  const ohms = plateResistanceOf(tube);
  if (!type?.amplification || ohms === undefined) return undefined;
  return {
    gain: type.screen ? SCREEN_STAGE : STAGE_OF_MU * type.amplification,
    plateCircuit: type.screen ? ohms : PLATE_CIRCUIT_OF_RP * ohms,
  };
}
