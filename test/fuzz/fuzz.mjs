// Puts texts of every kind through everything that is made of sets, each from a seed.
// Usage: npm run fuzz [-- FROM TO [THIN [PROCESSES [STAGES]]]]: what is not tried of every input is
// tried of THIN times fewer, 0 tries all; STAGES, with commas between, are the only ones tried. A
// stage is given up, and told of, after five minutes: others may be at work on the machine.
import { fork } from 'node:child_process';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { withBundled } from '../support/bundled.mjs';

const [from = 1, to = 4001, thin = 1, processes = availableParallelism()] = process.argv
  .slice(2, 6)
  .map(Number);
const stages = process.argv[6] ?? '';
const BLOCK = 2500;
const LONGEST = 300_000;
let next = from;
let failed = 0;
const all = new Map();

await withBundled(join(import.meta.dirname, 'fuzz.ts'), async (bundle) => {
  const runBlock = (first, last) =>
    new Promise((done) => {
      const child = fork(bundle, [...[first, last, thin].map(String), stages], {
        // Texts are short-lived: room for them spares most of the clearing away.
        execArgv: ['--max-semi-space-size=64'],
        env: { ...process.env, SETWRIGHT_EXAMPLES: join(import.meta.dirname, '../../examples') },
      });
      let at = first;
      let stage = '';
      let watch;
      const restart = () => {
        clearTimeout(watch);
        watch = setTimeout(() => {
          tell({ seed: at, kind: '', stage, message: `hangs: more than ${LONGEST / 1000} s` });
          child.kill('SIGKILL');
        }, LONGEST);
      };
      restart();
      child.on('message', (message) => {
        if (message.begins !== undefined) {
          at = message.begins;
          stage = message.stage;
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
          tell({ seed: at, kind: '', stage, message: `dies: exit ${code ?? signal}` });
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
