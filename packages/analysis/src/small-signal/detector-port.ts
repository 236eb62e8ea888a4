import type { Part } from '@setwright/circuit';
import { isOfRole, radioChain, type TubePoints, tubePoints } from './signal-chain.ts';
import type { Tuning } from './signal-system.ts';
import type { SmallSignal } from './small-signal.ts';

/** Where the radio signal ends: the two points that it is rectified or mixed between. */
export interface DetectorPort {
  readonly part: Part;
  readonly plus: number;
  readonly minus: number;
  /** The tube; undefined for a crystal. */
  readonly tube: TubePoints | undefined;
}

/** The tubes that carry radio signals in order, and where they end. */
export interface RadioWay {
  /** The detector's own tube is the last of them. */
  readonly tubes: readonly TubePoints[];
  readonly detector: DetectorPort | undefined;
}

/**
 * The way of the signal from the aerial to the detector at a frequency in hertz: to the tube of a
 * detector's or mixer's stage, to a crystal, else to the last tube that is reached.
 */
export function radioWay(set: SmallSignal, frequency: number, tuning: Tuning): RadioWay {
  const chain = radioChain(set, frequency, tuning);
  const crystal = set.circuit.parts.find(({ kind }) => kind === 'crystal');
  const last = chain.at(-1);
  const [first, second] = crystal?.ends ?? [];
  if (crystal && first && second) {
    const plus = set.pointOf(first.id);
    const minus = set.pointOf(second.id);
    const detector =
      plus === undefined || minus === undefined
        ? undefined
        : { part: crystal, plus, minus, tube: undefined };
    return { tubes: chain, detector };
  }
  const detector = last && {
    part: last.part,
    plus: last.grid,
    minus: last.reference,
    tube: last,
  };
  return { tubes: chain, detector };
}

/** The tube of the last detector's stage, of one that is no mixer: a mixer passes no audio on. */
export function lastDetector(set: SmallSignal): DetectorPort | undefined {
  const tube = tubePoints(set).findLast(
    ({ part }) => isOfRole(set, part, 'detector') && !isOfRole(set, part, 'mixer'),
  );
  return tube && { part: tube.part, plus: tube.grid, minus: tube.reference, tube };
}

/**
 * The currents that one volt of difference at a detector makes in what follows, if it amplified
 * it: through its plate, or through the crystal. Undefined where its slope is not known.
 */
export function plateDrive(
  set: SmallSignal,
  detector: DetectorPort,
): ReadonlyMap<number, readonly [number, number]> | undefined {
  const push = (out: number, into: number, amperes: number) =>
    new Map([
      [out, [0 - amperes, 0] as const],
      [into, [amperes, 0] as const],
    ]);
  const { tube, plus, minus } = detector;
  if (!tube) {
    const own = set.network.conductances.find(({ origin }) => origin?.part === detector.part.name);
    return own ? push(minus, plus, own.siemens) : undefined;
  }
  const known = set.point.tubes.find((each) => each.tube === detector.part.name);
  const gm = known?.transconductance?.value;
  return gm === undefined ? undefined : push(tube.plate, tube.reference, gm);
}
