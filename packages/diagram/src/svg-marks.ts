import { escapeXml } from './escape.ts';
import { lineOfLetters } from './svg-letters.ts';
import { decimal } from './svg-numbers.ts';
import { textWidth } from './text-width.ts';
import { type Mark, markSigns, markWords, RING } from './views/marks.ts';

/** A frame about what is new, gone or changed, and its sign in a ring. */
export function markShape({ kind, part, frames, at, words }: Mark, asOutlines: boolean): string {
  const about = frames.map(
    ({ left, top, right, bottom }) =>
      `<rect class="mark-frame ${kind}" x="${decimal(left)}" y="${decimal(top)}" width="${decimal(right - left)}" height="${decimal(bottom - top)}" rx="4"/>`,
  );
  const sign = markSigns[kind];
  const width = textWidth(sign, 'sign');
  const ring = at
    ? [
        `<circle class="mark-ring ${kind}" cx="${decimal(at.x)}" cy="${decimal(at.y)}" r="${RING}"/>`,
        lineOfLetters(
          {
            text: sign,
            x: at.x - width / 2,
            y: at.y + 4.2,
            size: 12,
            face: 'bold',
            classes: `mark-sign ${kind}`,
          },
          asOutlines,
        ),
      ]
    : [];
  const said = `${part}: ${words || markWords[kind].slice(2)}`;
  return `<g class="mark" data-mark="${kind}"><title>${escapeXml(said)}</title>${about.join('')}${ring.join('')}</g>`;
}
