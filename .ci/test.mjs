// Runs every gate and every test, stops at nothing, and counts at the end.
// Standard output ends with one line: "N passed, N failed". Exit code 1 when anything failed.
import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const { scripts } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
const scratch = mkdtempSync(join(tmpdir(), 'setwright-test-'));
const testReport = join(scratch, 'tests.json');
const editorReport = join(scratch, 'editor.json');
const concurrency = 2;

const gates = [
  { name: 'build', command: scripts.build },
  { name: 'programs', command: 'node .ci/programs.mjs' },
  { name: 'types', command: scripts.types },
  { name: 'lint', command: scripts.lint },
  { name: 'walls', command: scripts.walls },
  { name: 'unused', command: scripts.unused },
  { name: 'parser', command: 'node .ci/check-generated.mjs' },
  { name: 'lockfile', command: 'node .ci/check-lockfile.mjs' },
];

/** Runs a command as npm would, and resolves to its exit code, output and duration. */
function execute(command) {
  const started = performance.now();
  return new Promise((resolve) => {
    const child = spawn(command, {
      cwd: root,
      shell: true,
      stdio: ['ignore', 'pipe', 'pipe'],
      env: {
        ...process.env,
        NO_COLOR: '1',
        PATH: `${join(root, 'node_modules/.bin')}${delimiter}${process.env.PATH}`,
      },
    });
    let output = '';
    const collect = (chunk) => {
      output += chunk;
    };
    child.stdout.setEncoding('utf8').on('data', collect);
    child.stderr.setEncoding('utf8').on('data', collect);
    child.on('error', (error) => collect(String(error)));
    child.on('close', (code) => {
      resolve({ code, output, seconds: (performance.now() - started) / 1000 });
    });
  });
}

function say(state, name, seconds, remark = '') {
  const time = `${seconds.toFixed(1)} s`.padStart(7);
  console.log(`${state.padEnd(7)} ${name.padEnd(9)} ${time}  ${remark}`.trimEnd());
}

async function runGate({ name, command }) {
  const { code, output, seconds } = await execute(command);
  if (code === 0 && output.startsWith('skipped:')) {
    say('skipped', name, seconds, output.slice('skipped:'.length).trim());
    return { name, passed: 0, failed: 0, output };
  }
  say(code === 0 ? 'ok' : 'FAILED', name, seconds);
  return { name, passed: code === 0 ? 1 : 0, failed: code === 0 ? 0 : 1, output };
}

async function runGates(waiting) {
  const results = [];
  const worker = async () => {
    for (let gate = waiting.shift(); gate; gate = waiting.shift())
      results.push(await runGate(gate));
  };
  await Promise.all(Array.from({ length: concurrency }, worker));
  return results;
}

function readReport(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    return undefined;
  }
}

/** Counts single tests; a test file that could not even be loaded counts as one failure. */
async function runTests() {
  const reporters = `--reporter=default --reporter=json --outputFile.json="${testReport}"`;
  const { code, output, seconds } = await execute(`${scripts.unit} ${reporters}`);
  const report = readReport(testReport);
  const files = report?.testResults ?? [];
  const unloadable = files.filter(
    (file) =>
      file.status === 'failed' && file.assertionResults.every(({ status }) => status !== 'failed'),
  );
  const passed = report?.numPassedTests ?? 0;
  let failed = (report?.numFailedTests ?? 0) + unloadable.length;
  // A run that went wrong outside every test, or found no test at all, is a failure as well.
  if (failed === 0 && (code !== 0 || passed === 0)) failed = 1;
  const notRun = (report?.numPendingTests ?? 0) + (report?.numTodoTests ?? 0);
  const remark = `${passed} passed, ${failed} failed${notRun > 0 ? `, ${notRun} not run` : ''}`;
  say(failed === 0 ? 'ok' : 'FAILED', 'tests', seconds, `${remark}, ${files.length} files`);
  return { name: 'tests', passed, failed, output };
}

/** Counts what was tried in the real editor, each test and each journey by itself. */
async function runEditor() {
  const { code, output, seconds } = await execute(`${scripts.editor} --report "${editorReport}"`);
  const report = readReport(editorReport) ?? [];
  const passed = report.filter(({ failure }) => failure === undefined).length;
  let failed = report.length - passed;
  if (failed === 0 && (code !== 0 || passed === 0)) failed = 1;
  say(failed === 0 ? 'ok' : 'FAILED', 'editor', seconds, `${passed} passed, ${failed} failed`);
  return { name: 'editor', passed, failed, output };
}

const started = performance.now();
try {
  // The tests come last: those of the command line tool and of the editor need the bundles.
  const results = [...(await runGates([...gates])), await runTests(), await runEditor()];
  const failures = results.filter(({ failed }) => failed > 0);
  for (const { name, output } of failures) console.log(`\n==== ${name} ====\n${output.trimEnd()}`);

  const passed = results.reduce((sum, result) => sum + result.passed, 0);
  const failed = results.reduce((sum, result) => sum + result.failed, 0);
  console.log(`\n${((performance.now() - started) / 1000).toFixed(1)} s in all`);
  if (failures.length > 0) console.log(`failed: ${failures.map(({ name }) => name).join(', ')}`);
  console.log(`${passed} passed, ${failed} failed`);
  process.exitCode = failed > 0 ? 1 : 0;
} finally {
  rmSync(scratch, { recursive: true, force: true });
}
