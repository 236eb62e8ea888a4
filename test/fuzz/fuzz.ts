import { inputOf } from './inputs.ts';
import { tried } from './trying.ts';

/**
 * Tries the inputs of seeds from one to another, and tells of those that something goes wrong with,
 * and where the time went. Run by fuzz.mjs, which ends it when it hangs.
 */
const [from = 1, to = 1000, thin = 1] = process.argv.slice(2).map(Number);
const times = new Map<string, { sum: number; most: number; seed: number; count: number }>();
for (let seed = from; seed < to; seed++) {
  process.send?.({ begins: seed });
  const { text, kind } = inputOf(seed);
  const clock = (stage: string, milliseconds: number): void => {
    const time = times.get(stage) ?? { sum: 0, most: 0, seed: 0, count: 0 };
    time.sum += milliseconds;
    time.count += 1;
    if (milliseconds > time.most) Object.assign(time, { most: milliseconds, seed });
    times.set(stage, time);
  };
  for (const { stage, message } of await tried(text, seed, clock, thin))
    process.send?.({ seed, kind, stage, message });
}
process.send?.({ times: [...times] });
process.disconnect?.();
