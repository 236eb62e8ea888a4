import { tubePoints } from '../small-signal/signal-chain.ts';
import type { SmallSignal } from '../small-signal/small-signal.ts';
import type { TwoPoints } from './detector-ports.ts';

/** The two points of a part that detects or mixes: grid and cathode, or a crystal's two ends. */
export function portOf(set: SmallSignal, name: string | undefined): TwoPoints | undefined {
  const part = set.circuit.partNamed.get(name ?? '');
  if (part?.kind === 'tube') {
    const tube = tubePoints(set).find((each) => each.part.name === name);
    return tube && { plus: tube.grid, minus: tube.reference };
  }
  const [first, second] = part?.ends ?? [];
  const plus = set.pointOf(first?.id ?? '');
  const minus = set.pointOf(second?.id ?? '');
  return plus === undefined || minus === undefined ? undefined : { plus, minus };
}

/** Siemens from grid to plate of a tube; 0 for one that is out or dark. */
export function slopeOf(set: SmallSignal, name: string): number | undefined {
  return set.point.tubes.find(({ tube }) => tube === name)?.transconductance?.value ?? 0;
}
