// Bundles the language server: dist/setwright-server.cjs for Node (over standard input and output,
// pipes and sockets), dist/setwright-server-worker.js as a classic worker of a browser, and
// dist/setwright-server-process.cjs, which runs that worker as a process of Node.
// Usage: node packages/cli/scripts/build-server.mjs, or as a part of build.mjs
import { mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = join(dirname(fileURLToPath(import.meta.url)), '../../..');
const dist = join(root, 'dist');

/**
 * The layout engine takes any worker for one of its own and its messages for graphs. In ours it is
 * to lay out where it is called, as it does on a page.
 */
const layoutWhereCalled = {
  name: 'layout-where-called',
  setup({ onLoad }) {
    onLoad({ filter: /elk\.bundled\.js$/ }, ({ path }) => ({
      contents: `const document = {};\n${readFileSync(path, 'utf8')}`,
      loader: 'js',
    }));
  },
};

/** Bundles both, and tells in dist/server-meta.json what is in each. */
export async function buildServer() {
  const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  const shared = {
    absWorkingDir: root,
    bundle: true,
    minify: true,
    legalComments: 'none',
    logLevel: 'warning',
    loader: { '.receiver': 'text' },
    define: { SETWRIGHT_VERSION: JSON.stringify(version) },
    // Only for a layout in a program of its own, of which there is none.
    external: ['web-worker'],
    metafile: true,
  };
  const bundles = [
    {
      ...shared,
      entryPoints: [join(root, 'packages/server/src/main-node.ts')],
      outfile: join(dist, 'setwright-server.cjs'),
      platform: 'node',
      target: 'node20',
      format: 'cjs',
    },
    {
      ...shared,
      entryPoints: [join(root, 'packages/server/src/main-worker.ts')],
      outfile: join(dist, 'setwright-server-worker.js'),
      platform: 'browser',
      target: 'es2022',
      format: 'iife',
      plugins: [layoutWhereCalled],
    },
    {
      ...shared,
      entryPoints: [join(root, 'packages/server/src/main-process.ts')],
      outfile: join(dist, 'setwright-server-process.cjs'),
      platform: 'node',
      target: 'node20',
      format: 'cjs',
      external: ['./setwright-server-worker.js'],
    },
  ];
  mkdirSync(dist, { recursive: true });
  const inputs = {};
  for (const options of bundles) {
    // Whoever starts the server meanwhile has the old one, and never half of the new one.
    const made = `${options.outfile}.new`;
    const { metafile } = await build({ ...options, outfile: made });
    renameSync(made, options.outfile);
    const name = options.outfile.slice(dist.length + 1);
    inputs[name] = Object.keys(metafile.inputs);
  }
  writeFileSync(join(dist, 'server-meta.json'), `${JSON.stringify(inputs)}\n`);
  return bundles.map(({ outfile }) => outfile);
}

/** Takes away what an earlier build left, which must not be taken for this one's. */
export function removeServer() {
  for (const name of [
    'setwright-server.cjs',
    'setwright-server-worker.js',
    'setwright-server-process.cjs',
    'server-meta.json',
  ])
    rmSync(join(dist, name), { force: true });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  removeServer();
  await buildServer();
}
