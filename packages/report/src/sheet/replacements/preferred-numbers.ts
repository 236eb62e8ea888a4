/** Values that parts are made in today, by decade: IEC 60063, Preferred number series. */
const series = {
  E12: [10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82],
  E24: [
    10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91,
  ],
} as const;

/**
 * The value of a series that lies nearest to one by ratio.
 *
 * @param value above 0
 */
export function preferred(value: number, name: keyof typeof series): number {
  const decade = 10 ** Math.floor(Math.log10(value));
  const near = [...series[name], 100].map((step) => (step / 10) * decade);
  return near.reduce((best, each) =>
    Math.abs(Math.log(each / value)) < Math.abs(Math.log(best / value)) ? each : best,
  );
}

/** The first step of a list that is no smaller than a number; undefined where none is. */
export function nextUp(value: number, steps: readonly number[]): number | undefined {
  return steps.find((step) => step >= value * (1 - 1e-9));
}
