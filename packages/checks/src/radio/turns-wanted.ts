import type { Part } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';

/** More than so many times the turns is no cure. */
const MOST_TIMES = 8;

/** How close the answer is sought, as a ratio. */
const CLOSE = 1.05;

/**
 * The turns that a winding wants for enough feedback, in words: `about 7 turns where it has 2`.
 * Undefined where eight times as many would not do.
 *
 * @param isEnough whether so many times the feedback is enough
 */
export function turnsWanted(
  { winding, values }: Part,
  isEnough: (times: number) => boolean,
): { readonly words: string; readonly turns?: number } | undefined {
  if (!isEnough(MOST_TIMES)) return undefined;
  let [low, high] = [1, MOST_TIMES];
  while (high / low > CLOSE) {
    const middle = Math.sqrt(low * high);
    if (isEnough(middle)) high = middle;
    else low = middle;
  }
  const turns = (winding?.turns ?? values.turns)?.value;
  if (turns === undefined)
    return { words: `about ${formatQuantity(high, 'number', 'period', 2)} times the turns` };
  const wanted = Math.ceil(turns * high);
  return { words: `about ${wanted} turns where it has ${turns}`, turns: wanted };
}
