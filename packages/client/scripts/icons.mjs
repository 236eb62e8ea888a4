// Makes the PNG icons from packages/client/media/icon.svg, which is the one that is drawn by hand.
// Usage: node packages/client/scripts/icons.mjs
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Resvg } from '@resvg/resvg-js';

const media = (name) => fileURLToPath(new URL(`../media/${name}`, import.meta.url));
const svg = readFileSync(media('icon.svg'), 'utf8');
for (const [name, width] of [
  ['icon.png', 128],
  ['icon-256.png', 256],
]) {
  writeFileSync(
    media(name),
    new Resvg(svg, { fitTo: { mode: 'width', value: width } }).render().asPng(),
  );
}
