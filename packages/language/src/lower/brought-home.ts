import type { Place } from '@setwright/circuit';

/**
 * The same facts with every place in one file: what comes from a pattern of a used file stands
 * where the part says `like`, and remembers where it is written.
 *
 * @param like where the part of this file says what it is made like
 */
export function broughtHome<T>(facts: T, file: string, like: Place): T {
  if (facts === null || typeof facts !== 'object' || facts instanceof Set) return facts;
  if (isPlace(facts)) {
    if (facts.file === file) return facts;
    const written = facts.written ?? { file: facts.file, start: facts.start, end: facts.end };
    return { ...like, written } as T & Place;
  }
  if (Array.isArray(facts)) return facts.map((each) => broughtHome(each, file, like)) as T;
  const home = Object.entries(facts).map(([key, value]) =>
    // Which parts are named is no place.
    [key, key === 'said' ? value : broughtHome(value, file, like)],
  );
  return Object.fromEntries(home) as T;
}

const isPlace = (facts: object): facts is Place =>
  'file' in facts && 'start' in facts && 'end' in facts;
