/**
 * What an M says that stands alone or before "ohms": makers' lists of the 1920s used it for a
 * thousand as often as for a million. A small m before the ohm sign may be a million set in the
 * wrong case, or a thousandth.
 */
export type LoneM = 'thousand-or-million' | 'million-or-thousandth';

/** Recognizes an M that could be either; undefined for a text with no such M. */
export function readLoneM(unitText: string): LoneM | undefined {
  if (unitText.length > 40) return undefined;
  const text = unitText.normalize('NFKC').replaceAll('.', ' ').replace(/\s+/g, ' ').trim();
  if (/^m\u03A9$/.test(text)) return 'million-or-thousandth';
  if (/^m$/i.test(text) || /^m[ -]?ohms?$/i.test(text) || /^m[ -]\u03A9$/i.test(text)) {
    return 'thousand-or-million';
  }
  return undefined;
}
