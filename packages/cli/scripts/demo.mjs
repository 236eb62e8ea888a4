// What `npm start` shows: a sound set, a faulty one, and the path that biases a grid.
// Exit code 0 when all went as it should.
import { spawnSync } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '../../..');
const tool = join(root, 'dist/setwright.cjs');
const sound = 'examples/five-tube-trf.receiver';
let asExpected = true;

/** Runs the tool as a person would, and says when its exit code is not the one expected. */
function show(heading, args, expected) {
  console.log(`\n== ${heading}\n$ setwright ${args.join(' ')}\n`);
  const { status } = spawnSync(process.execPath, [tool, ...args], { cwd: root, stdio: 'inherit' });
  if (status === expected) return;
  asExpected = false;
  console.log(`\nThis should have ended with exit code ${expected}, not ${status}.`);
}

const faulty = 'examples/faulty/plate-voltage-on-filament.receiver';

show('A sound set', ['check', sound], 0);
show('A set that would lose its tubes', ['check', faulty], 1);
show("Where the detector's grid gets its bias", ['trace', sound, 'V3.grid'], 0);
console.log(asExpected ? '\nAll went as it should.' : '\nSomething did not go as it should.');
process.exitCode = asExpected ? 0 : 1;
