import { inputOf } from './inputs.ts';
import { tried } from './trying.ts';

/**
 * Tries the inputs of seeds from one to another, and tells of those that something goes wrong with,
 * and where the time went. Run by fuzz.mjs, which ends it when it hangs.
 */
const [from = 1, to = 1000, thin = 1] = process.argv.slice(2, 5).map(Number);
const stages = process.argv[5];
const only = stages ? new Set(stages.split(',')) : undefined;
const times = new Map<string, { sum: number; most: number; seed: number; count: number }>();
for (let seed = from; seed < to; seed++) {
  process.send?.({ begins: seed, stage: 'read' });
  const { text, kind } = inputOf(seed);
  const clock = {
    begins: (stage: string): void => void process.send?.({ begins: seed, stage }),
    ends: (stage: string, milliseconds: number): void => {
      const time = times.get(stage) ?? { sum: 0, most: 0, seed: 0, count: 0 };
      time.sum += milliseconds;
      time.count += 1;
      if (milliseconds > time.most) Object.assign(time, { most: milliseconds, seed });
      times.set(stage, time);
    },
  };
  for (const { stage, message } of await tried(text, seed, clock, thin, only))
    process.send?.({ seed, kind, stage, message });
}
process.send?.({ times: [...times] });
process.disconnect?.();
