import type { WindingsTurned } from '../coil-matrix.ts';
import { alignedAt, type TunedSet } from '../small-signal/aligned-at.ts';
import { exactModes } from '../small-signal/modes-off.ts';
import type { Tuning } from '../small-signal/signal-system.ts';
import type { SmallSignal } from '../small-signal/small-signal.ts';
import { tunedSystem } from '../small-signal/tuned-system.ts';
import { isGrowing } from './growth-heard.ts';
import type { Listening, Regeneration, TurnedUp } from './listening.ts';

/** A set that its listener has turned back from oscillation. */
interface TurnedBack {
  readonly set: SmallSignal;
  readonly fixed: Tuning;
  readonly turned: WindingsTurned;
}

/** Of the damping with no regeneration at all a listener leaves this share. Common practice. */
const LEFT = 0.2;

const HALVINGS = 7;

/** A set that oscillates as drawn is turned back until it just does not, as one listens to it. */
export function turnedBack(
  drawn: SmallSignal,
  station: number,
  balanced: Tuning,
  tuned: TunedSet,
  regeneration: Regeneration | undefined,
  turnedUp: TurnedUp,
): TurnedBack {
  const asDrawn: TurnedBack = { set: drawn, fixed: balanced, turned: new Map() };
  const growth = ({ set, fixed }: TurnedBack): number | undefined => {
    const alignment = alignedAt(set, station, fixed, tuned);
    return exactModes({ tuned, shafts: [], alignment }, () =>
      tunedSystem(set.system, alignment.tuning),
    )([])?.growth;
  };
  if (!regeneration || !isGrowing(growth(asDrawn))) return asDrawn;
  const { part, turned, back, kind } = regeneration;
  const at = (value: number): TurnedBack =>
    kind === 'winding'
      ? {
          set: turnedUp(new Map([[part, value]])),
          fixed: balanced,
          turned: new Map([[part, value]]),
        }
      : { ...asDrawn, fixed: new Map([...balanced, [part, value]]) };
  const least = growth(at(back));
  if (least === undefined || least >= 0) return asDrawn;
  let [low, high] = [back, turned];
  for (let halving = 0; halving < HALVINGS; halving++) {
    const middle = (low + high) / 2;
    if ((growth(at(middle)) ?? 0) < LEFT * least) low = middle;
    else high = middle;
  }
  return at(low);
}

/** A winding that turns or a condenser that tunes nothing, in a detector's stage or in none. */
export function regenerationOf(set: SmallSignal, tuned: TunedSet): Regeneration | undefined {
  const { circuit, system } = set;
  for (const part of circuit.parts) {
    const isDriven = circuit.dials.some(({ drives }) => drives.includes(part.name));
    const isWinding = part.kind === 'winding' || part.kind === 'variometer';
    if (isWinding && (part.setting !== undefined || isDriven))
      return { part: part.name, turned: 1, back: 0, kind: 'winding' };
    const most = part.ranges.capacitance?.high.value;
    const least = part.ranges.capacitance?.low.value ?? 0;
    if (part.kind !== 'condenser' || !part.words.has('variable') || most === undefined) continue;
    if (tuned.condensers.includes(part.name) || !system.turned.has(part.name)) continue;
    const roles = circuit.stages.find(({ name }) => name === part.stage)?.roles ?? ['detector'];
    if (roles.includes('detector') && !roles.includes('mixer'))
      return { part: part.name, turned: most, back: least, kind: 'condenser' };
  }
  return undefined;
}

/** Whether a mode near the station grows once the control is turned right up. */
export function regeneratesOf(
  set: SmallSignal,
  { regeneration, station, shortAlignment }: Listening,
  present: TunedSet,
  at: Tuning,
  turnedUp: TurnedUp,
): boolean | undefined {
  if (!regeneration) return undefined;
  const { part, turned, kind } = regeneration;
  const isWinding = kind === 'winding';
  const system = isWinding ? turnedUp(new Map([[part, turned]])).system : set.system;
  const tuning = isWinding ? at : new Map([...at, [part, turned] as const]);
  const mode = exactModes(
    { tuned: present, shafts: [], alignment: { ...shortAlignment, frequency: station } },
    () => tunedSystem(system, tuning),
  )([]);
  return mode !== undefined && mode.growth > 0;
}
