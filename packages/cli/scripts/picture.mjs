// Draws what the tool prints as an SVG picture, for the README.
// Usage: node packages/cli/scripts/picture.mjs OUT.svg ARGS...   (ARGS as for setwright)
import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';

const [out, ...args] = process.argv.slice(2);
if (!out || args.length === 0) {
  console.error('Usage: node packages/cli/scripts/picture.mjs OUT.svg ARGS...');
  process.exit(2);
}
const root = join(import.meta.dirname, '../../..');
const { stdout } = spawnSync(process.execPath, [join(root, 'dist/setwright.cjs'), ...args], {
  cwd: root,
  encoding: 'utf8',
});
const width = 104;
const lines = [`$ setwright ${args.join(' ')}`, '', ...stdout.trimEnd().split('\n')].flatMap(wrap);

/** Breaks a long line between words, its rest a little deeper. */
function wrap(line) {
  if (line.length <= width) return [line];
  const cut = line.lastIndexOf(' ', width);
  const indent = /^ */.exec(line)[0].length + 4;
  return [line.slice(0, cut), ...wrap(`${' '.repeat(indent)}${line.slice(cut + 1)}`)];
}

const escaped = (text) =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

const colours = [
  [/\berror:/, '#a4262c'],
  [/\bwarning:/, '#8a5a00'],
  [/\binformation:/, '#1f5f8b'],
  [/^ +\| +\^+/, '#a4262c'],
  [/^ +(why|cure):/, '#4a5a2a'],
  [/^\$ .*/, '#555555'],
];

function coloured(line) {
  for (const [pattern, colour] of colours) {
    const found = pattern.exec(line);
    if (!found) continue;
    const [before, after] = [line.slice(0, found.index), line.slice(found.index + found[0].length)];
    return `${escaped(before)}<tspan fill="${colour}" font-weight="bold">${escaped(found[0])}</tspan>${escaped(after)}`;
  }
  return escaped(line);
}

const step = 19;
const tall = lines.length * step + 36;
const wide = width * 8.45 + 36;
const rows = lines.map(
  (line, index) =>
    `<text x="18" y="${32 + index * step}" xml:space="preserve">${coloured(line)}</text>`,
);
writeFileSync(
  out,
  `<svg xmlns="http://www.w3.org/2000/svg" width="${wide}" height="${tall}" viewBox="0 0 ${wide} ${tall}" role="img">
<title>${escaped(`What setwright ${args.join(' ')} prints`)}</title>
<rect width="100%" height="100%" rx="8" fill="#fbf8f1" stroke="#d8cfba"/>
<g font-family="DejaVu Sans Mono, Menlo, Consolas, monospace" font-size="14" fill="#2b2620">
${rows.join('\n')}
</g>
</svg>
`,
);
