import { type Circuit, emitterOf, type Part, type Settings } from '@setwright/circuit';
import type { Groups } from './islands.ts';
import { strongGroups } from './strong-groups.ts';
import { noTubeCurrents, type TubeCurrents } from './tube-currents.ts';
import { type TubeLaw, type TubeLaws, tubeLawOf } from './tube-law.ts';
import { wornLaw } from './tube-wear.ts';

/** The electrodes that take current, in the order of the currents' rows. */
export const ELECTRODES = ['grid', 'plate', 'screen'] as const;

/** A tube in its socket, with the junctions that it stands between. */
export interface DcTube {
  readonly part: Part;
  readonly law: TubeLaw;
  /** Junctions of grid, plate and screen; -1 for an electrode that it has not got. */
  readonly electrodes: readonly [number, number, number];
  /** Junction of the cathode, or of F−. */
  readonly reference: number;
  /** Junctions of the two ends of filament or heater. */
  readonly minus: number;
  readonly plus: number;
  /** Whether what each electrode takes can find its way home. */
  readonly closed: [boolean, boolean, boolean];
  /** Siemens across the base where only tubes tie one side to the other; 0 elsewhere. */
  readonly leakage: [number, number, number];
  readonly currents: TubeCurrents;
}

/** Insulation of a base and socket, siemens, counted only where nothing else ties a part down. */
const BASE_LEAKAGE = 1e-12;

/** The tubes in their sockets. Those without a filament are passed over. */
export function tubesInSockets(
  circuit: Circuit,
  settings: Settings,
  laws: TubeLaws,
): readonly DcTube[] {
  return circuit.parts.flatMap((part) => {
    if (part.kind !== 'tube' || settings.removed.has(part.name)) return [];
    const at = (name: string): number => part.ends.find((end) => end.name === name)?.junction ?? -1;
    const reference = emitterOf(part)?.junction ?? -1;
    const minus = at('filament-');
    const plus = at('filament+');
    if (reference < 0 || minus < 0 || plus < 0) return [];
    return {
      part,
      law: wornLaw(tubeLawOf(part.tubeType, laws), part),
      electrodes: [at('grid'), at('plate'), at('screen')],
      reference,
      minus,
      plus,
      closed: [false, false, false],
      leakage: [0, 0, 0],
      currents: noTubeCurrents(),
    };
  });
}

/** Whether a tube's electrode has a law by which it takes current. */
function hasLaw({ law, electrodes }: DcTube, electrode: number): boolean {
  if ((electrodes[electrode] ?? -1) < 0) return false;
  if (electrode === 0) return true;
  return electrode === 1 ? law.plate !== undefined : law.plate?.kind === 'screen-grid';
}

/**
 * Finds for every electrode whether its current can come home, and merges what tubes alone tie
 * together. Current leaves an island of wires through a tube only if some way leads back to it:
 * from island to island the electrodes are arrows, and an arrow that is on no round carries
 * nothing.
 *
 * @param islands what wires, parts and supplies join @param groups the same so far; merged here
 */
export function closeTubes(
  tubes: readonly DcTube[],
  junctions: number,
  islands: Groups,
  groups: Groups,
): void {
  const arrows: { tube: DcTube; electrode: number; from: number; to: number }[] = [];
  for (const tube of tubes) {
    for (const [electrode, junction] of tube.electrodes.entries()) {
      if (!hasLaw(tube, electrode)) continue;
      const from = islands.of(junction);
      const to = islands.of(tube.reference);
      if (from === to) tube.closed[electrode] = true;
      else arrows.push({ tube, electrode, from, to });
    }
  }
  if (arrows.length === 0) return;
  const strong = strongGroups(junctions, arrows);
  for (const { tube, electrode, from, to } of arrows) {
    if (strong[from] !== strong[to]) continue;
    tube.closed[electrode] = true;
    tube.leakage[electrode] = BASE_LEAKAGE;
    groups.merge(from, to);
  }
}

/** An electrode by which a group that hangs on nothing else is held near its tube's cathode. */
export interface Tie {
  readonly tube: DcTube;
  readonly electrode: number;
}

/**
 * For every group of junctions that is held by nothing but the electrodes in it: those electrodes,
 * grids where there are any.
 */
export function looseElectrodes(
  tubes: readonly DcTube[],
  groups: Groups,
): ReadonlyMap<number, readonly Tie[]> {
  const emitting = new Set(tubes.map(({ reference }) => groups.of(reference)));
  const loose = new Map<number, Tie[]>();
  for (const tube of tubes) {
    for (const [electrode, junction] of tube.electrodes.entries()) {
      if (junction < 0 || tube.closed[electrode]) continue;
      const group = groups.of(junction);
      if (emitting.has(group)) continue;
      const here = loose.get(group);
      if (here) here.push({ tube, electrode });
      else loose.set(group, [{ tube, electrode }]);
    }
  }
  for (const [group, ties] of loose) {
    const grids = ties.filter(({ electrode }) => electrode === 0);
    if (grids.length > 0) loose.set(group, grids);
  }
  return loose;
}
