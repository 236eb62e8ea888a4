const VULGAR_FRACTION = /[\u00BC-\u00BE\u2150-\u215E\u2189]/g;
const DECIMAL = /^(?:\d+|\d{1,3}(?:,\d{3})+)(?:\.\d*)?$|^\.\d+$/;
const MIXED = /^(?:(\d+)[ -])?(\d+) ?\/ ?(\d+)$/;

/** No period label is longer; the bound keeps a pasted page from being studied as a number. */
const LONGEST = 400;

/**
 * Reads a number as printed on parts and drawings: `2`, `.00025`, `10,000`, `1/4`, `2 3/4`,
 * `2-3/4`, `2¾`, with a sign `+`, `-` or a printed minus (U+2212) or dash (U+2013) before it.
 *
 * @returns a finite number (never -0), or undefined for anything else, such as `1/0` or `1e3`,
 * which no period label carries.
 */
export function parseNumber(text: string): number | undefined {
  if (text.length > LONGEST) return undefined;
  const plain = text
    .replace(VULGAR_FRACTION, (sign) => ` ${sign.normalize('NFKC')}`)
    .replaceAll('\u2044', '/')
    .replace(/\s+/g, ' ')
    .trim();
  const sign = /^[+\-\u2212\u2013] ?/.exec(plain)?.[0] ?? '';
  const size = parseUnsigned(plain.slice(sign.length));
  if (size === undefined || !Number.isFinite(size)) return undefined;
  if (size === 0) return 0;
  return sign === '' || sign.startsWith('+') ? size : -size;
}

function parseUnsigned(text: string): number | undefined {
  if (DECIMAL.test(text)) return Number(text.replaceAll(',', ''));
  const mixed = MIXED.exec(text);
  if (mixed === null) return undefined;
  const [, whole = '0', above = '', below = ''] = mixed;
  const denominator = Number(below);
  return denominator === 0 ? undefined : Number(whole) + Number(above) / denominator;
}
