/** Longer texts are no unit; the bound keeps the work per token small. */
const LONGEST_UNIT = 40;

/**
 * Brings the printed forms of one unit to one key: `M.F.D.`, `Mfd` and `mfd` are `mfd`; both
 * micro signs are `u`; both ohm signs are `Ω`. Spaces, dots and hyphens go.
 *
 * A capital or small m before the ohm sign is kept, since a million and a thousandth of an ohm
 * are far apart.
 *
 * @returns '' for an empty text or one too long to be a unit.
 */
export function spellingKey(text: string): string {
  if (text.length > LONGEST_UNIT) return '';
  // NFKC turns the ohm sign U+2126 into omega and the micro sign U+00B5 into mu.
  const plain = text
    .normalize('NFKC')
    .replaceAll('\u03BC', 'u')
    .replace(/[\s.-]/g, '');
  if (plain === 'M\u03A9' || plain === 'm\u03A9') return plain;
  return plain.replace(/[A-Z]/g, (letter) => letter.toLowerCase());
}
