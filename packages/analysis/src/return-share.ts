/** Stretches of filament that the current is summed over. */
const STRETCHES = 64;

/**
 * The share of a filament's emission that comes to it from its positive end.
 *
 * A bit at the part s of the way from F− to F+ sees (u − s w)^1.5, and of what leaves there the
 * share s is made up through F+, as along any even wire. Half where the drop is small, 2/7 where
 * the far end is just cut off.
 *
 * @param u effective voltage at F−, volts @param w drop from F− to F+ as the law feels it
 */
export function positiveEndShare(u: number, w: number): number {
  let whole = 0;
  let part = 0;
  for (let stretch = 0; stretch < STRETCHES; stretch++) {
    const along = (stretch + 0.5) / STRETCHES;
    const emitted = Math.max(0, u - along * w) ** 1.5;
    whole += emitted;
    part += along * emitted;
  }
  return whole > 0 ? part / whole : 0;
}
