import type { Finding } from '@setwright/circuit';

/** What the checks say of the new set and not of the old, and the other way about. */
export interface FindingsChanged {
  readonly fresh: readonly Finding[];
  readonly cured: readonly Finding[];
}

/**
 * Tells findings apart by their check and the parts that take part, not by their words, in which
 * numbers may have moved.
 *
 * @param rename old names to new
 */
export function findingsChanged(
  olds: readonly Finding[],
  nows: readonly Finding[],
  rename: (name: string) => string,
): FindingsChanged {
  const keyOf = ({ check, parts }: Finding, nameOf: (name: string) => string) =>
    JSON.stringify([check, ...parts.map(nameOf).sort()]);
  const before = counted(olds.map((finding) => keyOf(finding, rename)));
  const after = counted(nows.map((finding) => keyOf(finding, (name) => name)));
  return {
    fresh: nows.filter(
      (finding) =>
        !taken(
          before,
          keyOf(finding, (name) => name),
        ),
    ),
    cured: olds.filter((finding) => !taken(after, keyOf(finding, rename))),
  };
}

function counted(keys: readonly string[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const key of keys) counts.set(key, (counts.get(key) ?? 0) + 1);
  return counts;
}

/** Takes one of a key, if there is any left. */
function taken(counts: Map<string, number>, key: string): boolean {
  const count = counts.get(key) ?? 0;
  counts.set(key, count - 1);
  return count > 0;
}
