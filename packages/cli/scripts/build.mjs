// Bundles the command line tool: dist/setwright-main.cjs, which works by itself, a picture of its
// memory from which it starts faster, and dist/setwright.cjs, which starts one or the other. With
// them the language server's bundles, see build-server.mjs.
// Usage: node packages/cli/scripts/build.mjs [--quiet]
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  chmodSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { createRequire } from 'node:module';
import { basename, dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { buildServer, removeServer } from './build-server.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '../../..');
const dist = join(root, 'dist');
const entry = join(root, 'packages/cli/src/main.ts');
const launcher = join(root, 'packages/cli/scripts/launcher.mjs');
const bundle = join(dist, 'setwright-main.cjs');
const drawing = join(dist, 'setwright-draw.cjs');
const command = join(dist, 'setwright.cjs');
const metafile = join(dist, 'meta.json');
const blob = join(dist, `setwright-${process.version}-${process.platform}-${process.arch}.blob`);
const quiet = process.argv.includes('--quiet');
const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));

// What is left over from an earlier build must not be taken for this one when this one fails.
for (const file of [bundle, drawing, command, metafile]) rmSync(file, { force: true });
removeServer();
if (existsSync(dist))
  for (const name of readdirSync(dist))
    if (name.endsWith('.blob') || name.endsWith('.blob.new')) rmSync(join(dist, name));

if (!existsSync(entry)) {
  console.error(
    `build: the entry ${relative(root, entry)} is missing, so there is nothing to bundle`,
  );
  process.exit(1);
}

/**
 * The parser's library takes its cancelling and its events from the whole editor protocol, which
 * the command line has no use for and which is slow to load. This hands it those alone.
 */
const withoutEditorProtocol = {
  name: 'without-editor-protocol',
  setup({ onResolve, onLoad }) {
    onResolve({ filter: /^vscode-languageserver-protocol$/ }, ({ path, resolveDir }) => ({
      path,
      namespace: 'few-of-the-protocol',
      pluginData: { resolveDir },
    }));
    onLoad({ filter: /.*/, namespace: 'few-of-the-protocol' }, ({ pluginData }) => ({
      resolveDir: dirname(
        createRequire(join(pluginData.resolveDir, 'x.js')).resolve('vscode-jsonrpc'),
      ),
      contents: `
        export { CancellationToken, CancellationTokenSource } from './cancellation.js';
        export { Emitter } from './events.js';
        export { ResponseError } from './messages.js';
        export const LSPErrorCodes = { ServerCancelled: -32802, RequestFailed: -32803 };`,
    }));
  },
};

const shared = {
  absWorkingDir: root,
  bundle: true,
  platform: 'node',
  target: 'node20',
  format: 'cjs',
  minify: true,
  legalComments: 'none',
  logLevel: 'warning',
};

/** Stands in a bundle for the hash of all that it is one of, by which a cache knows the tool. */
const digestToBe = 'digest-of-the-whole-tool';

/** Writes what was bundled, with the hash of all of it at its place. */
function writeWithDigest(outputs) {
  const hash = createHash('sha256');
  for (const { text } of outputs) hash.update(text);
  const digest = hash.digest('hex');
  mkdirSync(dist, { recursive: true });
  for (const { path, text } of outputs) writeFileSync(path, text.replaceAll(digestToBe, digest));
}

let servers = [];
try {
  const result = await build({
    ...shared,
    entryPoints: [entry],
    outfile: bundle,
    loader: { '.receiver': 'text' },
    alias: {
      // Its other form looks for its own place on disk, which a bundle has not.
      tinyglobby: createRequire(entry).resolve('tinyglobby'),
      // Only for commands in programs of their own, of which there are none; slow to load.
      'node:child_process': join(root, 'packages/cli/scripts/no-child-process.mjs'),
    },
    define: {
      SETWRIGHT_VERSION: JSON.stringify(version),
      SETWRIGHT_DIGEST: JSON.stringify(digestToBe),
    },
    plugins: [withoutEditorProtocol],
    metafile: true,
    write: false,
  });
  const drawn = await build({
    ...shared,
    entryPoints: [join(root, 'packages/cli/src/drawing.ts')],
    outfile: drawing,
    write: false,
    // The one is only for a layout in a program of its own, of which there is none; the other is
    // native, and is found beside the bundle when a PNG is wanted.
    external: ['web-worker', '@resvg/resvg-js'],
  });
  writeWithDigest([...result.outputFiles, ...drawn.outputFiles]);
  servers = await buildServer();
  mkdirSync(dirname(metafile), { recursive: true });
  writeFileSync(metafile, `${JSON.stringify(result.metafile)}\n`);
} catch (error) {
  // esbuild has already printed its own errors; anything else still has to be said.
  if (!error.errors) console.error(error);
  process.exit(1);
}

// Without its picture the tool works all the same, only slower: that is said and no more.
const picture = spawnSync(
  process.execPath,
  // The first as in launcher.mjs, or Node refuses the picture.
  ['--interrupt-budget=1000000', '--snapshot-blob', `${blob}.new`, '--build-snapshot', bundle],
  { cwd: root, encoding: 'utf8', env: { PATH: process.env.PATH ?? '' } },
);
if (picture.status === 0) renameSync(`${blob}.new`, blob);
else {
  rmSync(`${blob}.new`, { force: true });
  console.error(`build: no picture for a fast start: ${picture.stderr.trim() || picture.error}`);
}

/**
 * The first two lines of dist/setwright.cjs. Run as a command, a shell starts Node from the picture
 * at once, where it is the node that made it (launcher.sh); run as `node dist/setwright.cjs` the
 * second line is a string and a comment, and launcher.mjs below it does the same a little slower.
 */
function head() {
  const shell = readFileSync(join(root, 'packages/cli/scripts/launcher.sh'), 'utf8')
    .split('\n')
    .filter((line) => line !== '' && !line.startsWith('#'))
    .join(' ')
    .replace('n=NODE;', `n='${process.execPath.replaceAll("'", "'\\''")}';`)
    .replaceAll('PICTURE', `"$d/${basename(blob)}"`);
  return `#!/bin/sh\n':' //; ${shell}`;
}

await build({
  ...shared,
  entryPoints: [launcher],
  outfile: command,
  banner: { js: head() },
  define: { PICTURE_BYTES: String(statSync(blob, { throwIfNoEntry: false })?.size ?? -1) },
});
chmodSync(command, 0o755);

if (!quiet) {
  for (const file of [bundle, drawing, ...servers, blob].filter((file) => existsSync(file)))
    console.log(`${relative(root, file)} ${Math.round(statSync(file).size / 1000)} kB`);
}
