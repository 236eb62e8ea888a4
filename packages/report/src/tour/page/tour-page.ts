import { escaped } from '../../text/escaped.ts';
import { visible } from '../../text/visible.ts';
import type { Tour, TourStep } from '../tour.ts';
import { asData, unescaped } from './html.ts';
import { pageScript } from './script.ts';
import { pageStyle } from './style.ts';
import { layered } from './svg-layers.ts';

/** The drawings of a tour as SVG, each shape on a line of its own. */
export interface TourDrawings {
  /** The set with nothing drawn over it. */
  readonly bare: string;
  /** What each step shows, in their order; nothing in them has moved. */
  readonly steps: readonly string[];
}

/** SHA-256 of a text in base64. It comes from outside: this package uses no platform. */
export type Digest = (text: string) => string;

const levelWords = { newcomer: 'for newcomers', restorer: 'for restorers' } as const;

/**
 * A tour as one page that stands by itself: it fetches nothing, and its policy lets nothing run in
 * it but its own script. One drawing serves all steps; they light it by classes and layers.
 */
export function tourPage(tour: Tour, drawings: TourDrawings, digest: Digest): string {
  const { steps, level } = tour;
  const title = tour.title === '' ? 'A receiver' : tour.title;
  const { svg, dimmed, descriptions } = layered(drawings.bare, drawings.steps);
  const ofDrawing = /<style>([\s\S]*?)<\/style>/.exec(svg)?.[1] ?? '';
  const hashes = (texts: readonly string[]): string =>
    [...new Set(texts)].map((text) => `'sha256-${digest(text)}'`).join(' ');
  const policy = [
    "default-src 'none'",
    `script-src ${hashes([pageScript])}`,
    `style-src ${hashes([pageStyle, ofDrawing])}`,
    'img-src blob: data:',
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  const data = {
    title: visible(`Tour of ${title}`),
    file: fileName(title),
    dimmed,
    said: steps.map(({ heading }, index) =>
      visible(unescaped(descriptions[index] ?? '') || heading),
    ),
  };
  const button = (id: string, words: string, pressed?: boolean): string =>
    `<button type="button" id="${id}"${pressed === undefined ? '' : ` aria-pressed="${pressed}"`}>${words}</button>`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${escaped(`Tour of ${title}`)}</title>
<style>${pageStyle}</style>
</head>
<body>
<header class="head">
<h1>${escaped(title)}</h1>
<p>A guided tour ${levelWords[level]}, in ${steps.length} ${steps.length === 1 ? 'step' : 'steps'}</p>
<div class="tools needs-script" role="group" aria-label="View">
${button('flow', 'Let it flow', false)}
${button('presenter', 'Presenter', false)}
${button('handout', 'Handout', false)}
${button('print', 'Print')}
${button('keep-svg', 'Save SVG')}
${button('keep-png', 'Save PNG')}
</div>
</header>
<main>
<figure class="picture" tabindex="0" aria-label="The schematic">
${svg.trim()}
</figure>
<div class="words">
<div class="turns needs-script">
${button('back', 'Back')}
<span class="where" id="where" role="status"></span>
${button('on', 'Next')}
</div>
${steps.map((step, index) => stepHtml(step, index, steps.length)).join('\n')}
<p class="next" id="next"></p>
<details class="all">
<summary>All steps</summary>
<ol>
${steps.map(({ id, heading }) => `<li><a href="#${escaped(id)}">${escaped(heading)}</a></li>`).join('\n')}
</ol>
</details>
</div>
</main>
<footer class="keys needs-script">Keys: arrows or N and B for the steps, P presenter, H handout, R lets it flow or stops it.</footer>
<script type="application/json" id="tour">${asData(data)}</script>
<script>${pageScript}</script>
</body>
</html>
`;
}

function stepHtml(step: TourStep, index: number, count: number): string {
  const { id, heading, sentences, numbers, missing } = step;
  const rows = numbers.map(
    ({ words, text, because }) =>
      `<tr><th scope="row">${escaped(words)}</th><td class="amount">${escaped(text)}</td><td class="because">${escaped(because)}</td></tr>`,
  );
  return [
    `<article class="step" id="${escaped(id)}" aria-labelledby="${escaped(id)}-heading">`,
    `<p class="count">Step ${index + 1} of ${count}</p>`,
    `<h2 id="${escaped(id)}-heading" tabindex="-1">${escaped(heading)}</h2>`,
    ...sentences.map((sentence) => `<p>${escaped(sentence)}</p>`),
    ...(missing.length > 0
      ? [`<p class="missing">Not told, for want of ${escaped(missing.join('; '))}.</p>`]
      : []),
    ...(rows.length > 0
      ? [
          `<details><summary>Notes: ${rows.length === 1 ? 'one number' : `${rows.length} numbers`}, and why</summary>`,
          '<table><thead><tr><th scope="col">What</th><th scope="col">How much</th><th scope="col">Because</th></tr></thead><tbody>',
          ...rows,
          '</tbody></table></details>',
        ]
      : []),
    '<div class="copy"></div>',
    '</article>',
  ].join('\n');
}

/** What downloads begin with: letters and digits alone. */
function fileName(title: string): string {
  const plain = title
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
    .slice(0, 60);
  return plain === '' ? 'tour' : plain;
}
