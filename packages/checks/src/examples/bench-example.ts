import { sampleSet } from './sample-set.ts';

const LAST = 'horn H1 2000 ohms from V3.plate to B+135\n  }\n';

/** The sound little set with a bench of these lines, for the examples of checks. */
export function benchExample(...lines: readonly string[]): string {
  return withBenches(lines);
}

/** The same with several benches. */
export function withBenches(...benches: readonly (readonly string[])[]): string {
  const said = benches.map(
    (lines, at) =>
      `  bench "day ${at + 1}" {\n${lines.map((line) => `    ${line}\n`).join('')}  }\n`,
  );
  return sampleSet([LAST, `${LAST}${said.join('')}`]);
}
