// Tries the extension in the real editor: a suite inside the extension host, against the source and
// against the packed .vsix, and journeys through the workbench in a browser.
//
//   node test/editor/run.mjs [--report FILE] [--only source|packed|journeys|web|pictures]
//
// Needs the bundles in dist (npm run build), Chromium, and the editor, which install.mjs puts into a
// cache folder; where any is missing, that is a failure. Pictures of the journeys go to
// SETWRIGHT_PICTURES, if that is set.
import { spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { bundleTests } from './bundle.mjs';
import { openBrowser, startEditor, workbench } from './editor.mjs';
import { installEditor } from './install.mjs';
import { chromium, root } from './places.mjs';
import { hostEntry, runTests } from './run-mocha.mjs';

const { values: options } = parseArgs({
  options: {
    report: { type: 'string' },
    only: { type: 'string' },
    // A folder in place of this one to take the extension from.
    extension: { type: 'string', default: root },
    vsix: { type: 'string', default: join(root, 'dist/setwright.vsix') },
  },
});
const scratch = mkdtempSync(join(tmpdir(), 'setwright-try-'));
const hostPatience = 150_000;

/** A folder with sets to open, fresh for each suite. */
function workspaceFor(suite) {
  const folder = join(scratch, suite, 'sets');
  mkdirSync(folder, { recursive: true });
  for (const name of ['five-tube-trf', 'crystal', 'two-tube']) {
    cpSync(join(root, `examples/${name}.receiver`), join(folder, `${name}.receiver`));
  }
  for (const name of ['grid-return-side', 'unreadable-line']) {
    cpSync(join(root, `examples/faulty/${name}.receiver`), join(folder, `${name}.receiver`));
  }
  return folder;
}

/** Runs the suite of the folder `host` inside the extension host. */
async function inHost(suite, editor, extension) {
  const folder = workspaceFor(suite);
  const tests = join(scratch, suite, 'tests.cjs');
  const report = join(scratch, suite, 'results.json');
  const entry = join(scratch, suite, 'index.cjs');
  await bundleTests('host', tests, { format: 'cjs', external: ['vscode'] });
  writeFileSync(entry, hostEntry(tests, report));
  const browser = await openBrowser();
  try {
    const page = await browser.newPage();
    const said = [];
    let done;
    const ended = new Promise((resolve) => {
      done = resolve;
    });
    await page.exposeFunction('codeAutomationLog', (kind, words) => said.push([kind, ...words]));
    await page.exposeFunction('codeAutomationExit', () => done());
    const payload = [
      ['extensionDevelopmentPath', extension],
      ['extensionTestsPath', entry],
      ['enableProposedApi', ''],
      ['skipWelcome', 'true'],
    ];
    await page.goto(workbench(editor, folder, payload));
    const timer = setTimeout(done, hostPatience);
    await ended;
    clearTimeout(timer);
    if (existsSync(report)) return JSON.parse(readFileSync(report, 'utf8'));
    const log = readFileSync(editor.log, 'utf8').slice(-4000);
    return [{ title: suite, failure: `the suite did not end\n${said.flat().join('\n')}\n${log}` }];
  } finally {
    await browser.close();
  }
}

/** Runs the journeys of a folder; they find the editor and its sets in the environment. */
async function journeys(folder, editor) {
  const tests = join(root, `node_modules/.cache/setwright-${folder}.mjs`);
  await bundleTests(folder, tests, { format: 'esm', external: ['playwright-core'] });
  Object.assign(process.env, {
    SETWRIGHT_WORKBENCH: JSON.stringify(editor),
    SETWRIGHT_SETS: workspaceFor(folder),
    SETWRIGHT_WALKTHROUGH: join(root, 'packages/client/media/walkthrough'),
  });
  try {
    return await runTests(tests);
  } finally {
    rmSync(tests, { force: true });
  }
}

/** An extension that does nothing, where one must be named and none is meant. */
function emptyExtension() {
  const folder = join(scratch, 'empty');
  mkdirSync(folder);
  const manifest = { name: 'empty', publisher: 'none', version: '0.0.1', engines: { vscode: '*' } };
  writeFileSync(join(folder, 'package.json'), JSON.stringify(manifest));
  return folder;
}

function pack() {
  const script = join(root, 'packages/client/scripts/package.mjs');
  const done = spawnSync(process.execPath, [script], { encoding: 'utf8' });
  if (done.status !== 0) throw new Error(`packing failed\n${done.stdout}${done.stderr}`);
  console.log(done.stdout.trim());
}

const suites = {
  source: (editor) => inHost('source', editor, options.extension),
  packed: (editor) => inHost('packed', editor, emptyExtension()),
  journeys: (editor) => journeys('journeys', editor),
  web: (editor) => journeys('web', editor),
  // No tests: it takes the pictures of the walkthrough anew, when asked for by its name.
  pictures: (editor) => journeys('pictures', editor),
};

const tests = ['source', 'packed', 'journeys', 'web'];

/** Has the extension run in a worker of the browser, as where there is no Node. */
const inBrowser = { 'remote.extensionKind': { 'setwright.setwright': ['ui'] } };

function tell(suite, results) {
  for (const { title, milliseconds, failure } of results) {
    const time = milliseconds === undefined ? '' : ` (${(milliseconds / 1000).toFixed(1)} s)`;
    console.log(`${failure === undefined ? 'ok    ' : 'FAILED'} ${suite}: ${title}${time}`);
    if (failure !== undefined) console.log(failure.replace(/^/gm, '         '));
  }
}

const all = [];
try {
  if (!existsSync(chromium)) throw new Error(`there is no browser at ${chromium}`);
  installEditor();
  if (options.extension === root) pack();
  const wanted = options.only === undefined ? tests : [options.only];
  const editors = [
    // One for all: what is under development takes the place of what is installed.
    { names: ['source', 'packed', 'journeys', 'pictures'], settings: {} },
    { names: ['web'], settings: inBrowser },
  ];
  for (const { names, settings } of editors) {
    const due = names.filter((name) => wanted.includes(name));
    if (due.length === 0) continue;
    const editor = await startEditor({ vsix: options.vsix, settings });
    try {
      for (const name of due) {
        const results = await suites[name](editor);
        if (results.length === 0) results.push({ title: name, failure: 'no test was run' });
        tell(name, results);
        all.push(...results.map((result) => ({ suite: name, ...result })));
      }
    } finally {
      editor.close();
    }
  }
} catch (error) {
  const failure = `${error.stack ?? error}`;
  tell('editor', [{ title: 'could not be tried', failure }]);
  all.push({ suite: 'editor', title: 'could not be tried', failure });
} finally {
  rmSync(scratch, { recursive: true, force: true });
}

const failed = all.filter(({ failure }) => failure !== undefined).length;
if (options.report !== undefined) writeFileSync(options.report, JSON.stringify(all));
console.log(`${all.length - failed} passed, ${failed} failed`);
process.exitCode = failed > 0 ? 1 : 0;
