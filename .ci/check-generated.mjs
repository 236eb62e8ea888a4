// Generates the parser from the grammar into a temporary folder and compares it with the one in
// the tree, so that a changed grammar never ships with an old parser.
import { spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const language = 'packages/language';
const generated = `${language}/src/generated`;

if (!existsSync(join(root, language, 'langium-config.json'))) {
  console.log(`skipped: ${language}/langium-config.json does not exist`);
  process.exit(0);
}

/** The text of each file in a folder by its name; empty when the folder does not exist. */
function textsIn(folder) {
  if (!existsSync(folder)) return new Map();
  const files = readdirSync(folder, { withFileTypes: true }).filter((entry) => entry.isFile());
  return new Map(files.map(({ name }) => [name, readFileSync(join(folder, name), 'utf8')]));
}

/** What the grammar gives, by the same command as in package.json. */
function generateIn(copy) {
  cpSync(join(root, 'package.json'), join(copy, 'package.json'));
  cpSync(join(root, language), join(copy, language), {
    recursive: true,
    filter: (source) => relative(root, source) !== join(generated),
  });
  symlinkSync(join(root, 'node_modules'), join(copy, 'node_modules'));
  const { scripts } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  const run = spawnSync(scripts.generate, { cwd: copy, shell: true, encoding: 'utf8' });
  const texts = textsIn(join(copy, generated));
  const failure = run.status !== 0 || texts.size === 0;
  return { texts, failure: failure ? `${run.stdout}${run.stderr}` : undefined };
}

function compare(expected, actual) {
  const names = [...new Set([...expected.keys(), ...actual.keys()])].sort();
  return names.flatMap((name) => {
    if (!actual.has(name)) return [`${generated}/${name} is missing`];
    if (!expected.has(name)) return [`${generated}/${name} is no longer made by the grammar`];
    if (expected.get(name) !== actual.get(name))
      return [`${generated}/${name} is not what the grammar gives`];
    return [];
  });
}

const copy = mkdtempSync(join(tmpdir(), 'setwright-generate-'));
try {
  const { texts, failure } = generateIn(copy);
  const faults =
    failure === undefined
      ? compare(texts, textsIn(join(root, generated)))
      : [`generating the parser failed:\n${failure}`];
  for (const fault of faults) console.error(fault);
  if (faults.length > 0) {
    console.error('After a change of the grammar run: npm run generate');
    process.exitCode = 1;
  } else {
    console.log(`${texts.size} generated files are what the grammar gives`);
  }
} finally {
  rmSync(copy, { recursive: true, force: true });
}
