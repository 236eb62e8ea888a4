// Puts texts of every kind through everything that is made of sets, each from a seed.
// Usage: npm run fuzz [-- FROM TO [THIN [PROCESSES]]]: what is not tried of every input is tried of
// THIN times fewer; an input is given up, and told of, after a minute.
import { fork } from 'node:child_process';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { withBundled } from '../support/bundled.mjs';

const [from = 1, to = 4001, thin = 1, processes = availableParallelism()] = process.argv
  .slice(2)
  .map(Number);
const BLOCK = 500;
const LONGEST = 60_000;
let next = from;
let failed = 0;
const all = new Map();

await withBundled(join(import.meta.dirname, 'fuzz.ts'), async (bundle) => {
  const runBlock = (first, last) =>
    new Promise((done) => {
      const child = fork(bundle, [first, last, thin].map(String), {
        env: { ...process.env, SETWRIGHT_EXAMPLES: join(import.meta.dirname, '../../examples') },
      });
      let at = first;
      let watch;
      const restart = () => {
        clearTimeout(watch);
        watch = setTimeout(() => {
          tell({ seed: at, kind: '', stage: 'hangs', message: `more than ${LONGEST / 1000} s` });
          child.kill('SIGKILL');
        }, LONGEST);
      };
      restart();
      child.on('message', (message) => {
        if (message.begins !== undefined) {
          at = message.begins;
          restart();
        } else if (message.times) {
          for (const [stage, time] of message.times) {
            const known = all.get(stage) ?? { sum: 0, most: 0, seed: 0, count: 0 };
            known.sum += time.sum;
            known.count += time.count;
            if (time.most > known.most) Object.assign(known, { most: time.most, seed: time.seed });
            all.set(stage, known);
          }
        } else tell(message);
      });
      child.on('exit', (code, signal) => {
        clearTimeout(watch);
        if (code !== 0 && signal !== 'SIGKILL')
          tell({ seed: at, kind: '', stage: 'dies', message: `exit ${code ?? signal}` });
        done(code === 0 ? last : at + 1);
      });
    });
  const worker = async () => {
    while (next < to) {
      const first = next;
      next = Math.min(to, next + BLOCK);
      const last = next;
      for (let seed = first; seed < last; ) seed = await runBlock(seed, last);
    }
  };
  await Promise.all(Array.from({ length: processes }, worker));
});

function tell({ seed, kind, stage, message }) {
  failed += 1;
  console.log(`seed ${seed} ${kind}: ${stage}: ${message}`);
}

console.log(`\nseeds ${from} to ${to - 1}: ${to - from} inputs, ${failed} failures`);
console.log('stage        inputs   mean ms   longest ms (seed)');
for (const [stage, { sum, count, most, seed }] of all)
  console.log(
    `${stage.padEnd(12)} ${String(count).padStart(6)} ${(sum / count).toFixed(1).padStart(9)} ${most.toFixed(0).padStart(12)} (${seed})`,
  );
process.exitCode = failed > 0 ? 1 : 0;
