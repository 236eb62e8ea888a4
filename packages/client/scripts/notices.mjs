// The licences of everything from elsewhere that is bundled into the extension.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Our own packages whose bundles are in the extension. */
const shipped = ['packages/client', 'packages/server', 'packages/webview'];

const licenceName = /^(licen[cs]e|copying|notice)/i;

/** Entries of the lockfile by their path, of everything that the shipped packages need. */
function needed(lock) {
  const found = new Map();
  const visit = (path) => {
    if (found.has(path)) return;
    const entry = lock.packages[path];
    if (!entry) return;
    if (entry.link) {
      visit(entry.resolved);
      return;
    }
    found.set(path, entry);
    for (const name of Object.keys(entry.dependencies ?? {})) visit(resolve(lock, path, name));
  };
  for (const path of shipped) visit(path);
  // Imported by name without being declared: everything else of ours.
  for (const path of Object.keys(lock.packages))
    if (/^packages\/[^/]+$/.test(path) && path !== 'packages/cli') visit(path);
  return [...found].filter(([path]) => path.includes('node_modules/'));
}

/** Where Node would find a package that is asked for at `from`. */
function resolve(lock, from, name) {
  for (let folder = from; ; folder = folder.slice(0, Math.max(folder.lastIndexOf('/'), 0))) {
    const path = `${folder === '' ? '' : `${folder}/`}node_modules/${name}`;
    if (lock.packages[path]) return path;
    if (folder === '') return path;
  }
}

/** One text with the name, the version and the licence of each. Throws where one has no licence. */
export function thirdPartyNotices(root) {
  const lock = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8'));
  const parts = needed(lock)
    .map(([path, { version, license }]) => {
      const name = path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length);
      const folder = join(root, path);
      const files = existsSync(folder)
        ? readdirSync(folder).filter((each) => licenceName.test(each))
        : [];
      const texts = files.map((each) => readFileSync(join(folder, each), 'utf8').trim());
      if (texts.length === 0 && !license) throw new Error(`${name} has no licence`);
      return { name, version, license, texts };
    })
    .sort((a, b) => (a.name < b.name ? -1 : 1));
  // Its outlines are in the drawing's own source, made from the typeface.
  parts.push({
    name: 'The typeface Arimo, as outlines',
    version: '',
    license: 'OFL-1.1',
    texts: [readFileSync(join(root, 'packages/diagram/src/lettering/OFL.txt'), 'utf8').trim()],
  });
  const head = [
    'Setwright is distributed with parts of the following packages, unchanged but bundled and',
    'minified. Each is the work of its authors and under its own licence. The source of each is',
    'the package of that name and version in the npm registry, the typeface apart.',
  ].join('\n');
  return `${[
    head,
    ...parts.map(({ name, version, license, texts }) =>
      [`${'='.repeat(80)}\n${name} ${version} (${license ?? 'see below'})`, ...texts].join('\n\n'),
    ),
  ].join('\n\n')}\n`;
}
