import type { FedModes, GrowingMode, Stability, StationStability } from '@setwright/analysis';

/** A station at which tubes that should only amplify keep an oscillation going. */
export interface Squeal {
  /** Hertz to which the set is tuned. */
  readonly station: number;
  /** Whether it does so in tune with the station, or only with its dials apart. */
  readonly isInTune: boolean;
  /** The fastest oscillation of theirs. */
  readonly mode: GrowingMode;
  /** The tubes that feed it and should not, the strongest first. */
  readonly tubes: readonly string[];
}

/**
 * The stations at which a set squeals by tubes that should only amplify. An oscillation counts
 * where the tube that feeds it most is one of these.
 *
 * @param amplifiers names of the tubes that should only amplify
 */
export function squealsOf(
  { stations }: Stability,
  amplifiers: ReadonlySet<string>,
): readonly Squeal[] {
  return stations.flatMap(({ frequency, aligned, worst }): readonly Squeal[] => {
    const inTune = ofAmplifiers(aligned, amplifiers);
    const mode = inTune ?? ofAmplifiers(worst.modes, amplifiers);
    if (!mode) return [];
    const tubes = (mode.tubes ?? []).filter((tube) => amplifiers.has(tube));
    return [{ station: frequency, isInTune: inTune !== undefined, mode, tubes }];
  });
}

/** Whether it is known that no such tube keeps anything going at a station, dials apart or not. */
export function isQuietAt(
  { aligned, worst }: StationStability,
  amplifiers: ReadonlySet<string>,
): boolean {
  return [aligned, worst.modes].every(
    (found) =>
      found.unmeant === 0 ||
      (found.unmeant !== undefined &&
        found.modes.length > 0 &&
        ofAmplifiers(found, amplifiers) === undefined),
  );
}

function ofAmplifiers(
  { modes, unmeant }: FedModes,
  amplifiers: ReadonlySet<string>,
): GrowingMode | undefined {
  if (unmeant === undefined || unmeant === 0) return undefined;
  return modes.find(({ tubes, frequency }) => frequency > 0 && amplifiers.has(tubes?.[0] ?? ''));
}
