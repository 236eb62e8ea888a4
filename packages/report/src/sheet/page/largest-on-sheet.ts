/** Millimetres of paper that a schematic may take on a sheet of A4 or Letter size. */
const WIDE = 186;
const TALL = 225;

/** A layout further down the list must print this many times larger for each place. */
const WORTH_A_ROW = 1.03;

/**
 * Of several layouts of one set the one that prints largest, unless it is hardly larger than one
 * before it. Undefined for none.
 *
 * @param layouts fewest rows first
 */
export function largestOnSheet<T extends { readonly width: number; readonly height: number }>(
  layouts: readonly T[],
): T | undefined {
  const scaleOf = ({ width, height }: T): number => Math.min(WIDE / width, TALL / height);
  let chosen = 0;
  for (const [index, each] of layouts.entries()) {
    const least = scaleOf(layouts[chosen] ?? each) * WORTH_A_ROW ** (index - chosen);
    if (scaleOf(each) > least) chosen = index;
  }
  return layouts[chosen];
}
