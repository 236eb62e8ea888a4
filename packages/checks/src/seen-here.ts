import type { Finding } from '@setwright/circuit';

/**
 * A finding as it is told in the file of the set: what stands in a file that it uses is pointed at,
 * and left alone, since other sets may be made like it.
 */
export function asSeenHere(finding: Finding): Finding {
  const { place, related, fixes } = finding;
  const own = fixes.filter(({ edits }) => edits.every((edit) => !edit.place.written));
  const { written } = place;
  if (!written) return own.length === fixes.length ? finding : { ...finding, fixes: own };
  return {
    ...finding,
    related: [...related, { place: written, message: 'it is written here' }],
    fixes: own,
  };
}
