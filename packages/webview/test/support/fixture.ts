import type { Choice, ToPreview } from '../../src/messages.ts';
import type { Page, PagePart } from '../../src/protocol.ts';

export const uri = 'file:///sets/cove.receiver';

export const choice: Choice = {
  page: 'diagram',
  receiver: 0,
  view: 'whole',
  symbols: 'modern',
  values: false,
};

/** A symbol as the drawing writes it, with its name beside it. */
export const symbol = (name: string, x: number, y: number): string =>
  `<g class="part resistor" data-part="${name}" transform="translate(${x} ${y}) rotate(90)"><title>${name}</title><path class="stroke" d="M0 0H10l4 6l8-12l8 12l4-6H50"/></g><text class="name" data-part="${name}" x="${x + 20}" y="${y + 20}" font-size="13">${name}</text>`;

export const svgWith = (inner: string, width = 600, height = 400): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" class="setwright" role="img" aria-labelledby="setwright-title setwright-desc" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}"><title id="setwright-title">Cove</title><desc id="setwright-desc">Schematic of Cove.</desc><style>
.setwright{--ink:var(--setwright-ink,#111);--paper:var(--setwright-paper,#fff)}
.setwright .paper{fill:var(--paper)}
.setwright .stroke,.setwright .wire{fill:none;stroke:var(--ink);stroke-width:1.4}
.setwright .dimmed{opacity:.25}
</style><rect class="paper" width="100%" height="100%"/><path class="wire" data-net="A-" d="M20 20H500"/>${inner}</svg>`;

export const part = (name: string, line: number, extra: Partial<PagePart> = {}): PagePart => ({
  range: { start: { line, character: 2 }, end: { line, character: 30 } },
  hover: `**${name}** grid leak, 2 megohms`,
  spoken: `${name}, grid leak of 2 megohms from V1.grid to A+`,
  findings: [],
  ...extra,
});

/** A small page: R1 with an error, R2 with a warning, R3 with nothing. */
export function pageWith(change: Partial<Page> = {}): Page {
  return {
    uri,
    version: 1,
    page: 'diagram',
    receiver: 0,
    receivers: ['Cove', 'Cove as found'],
    views: [
      { id: 'whole', title: 'Whole set' },
      { id: 'bias', title: 'Grid bias' },
    ],
    view: 'whole',
    broken: false,
    svg: svgWith(symbol('R1', 100, 100) + symbol('R2', 300, 100) + symbol('R3', 500, 300)),
    tables: [],
    notes: [],
    parts: {
      R1: part('R1', 4, {
        findings: [{ severity: 'error', message: 'The leak of V1 goes to the wrong side.' }],
      }),
      R2: part('R2', 5, { findings: [{ severity: 'warning', message: 'R2 runs hot.' }] }),
      R3: part('R3', 6),
    },
    ...change,
  };
}

/** `heard` is the last choice that the client has heard of: the preview's n-th one. */
export const subject = (change: Partial<Choice> = {}, pinned = false, heard = 0): ToPreview => ({
  kind: 'subject',
  uri,
  title: 'cove.receiver',
  choice: { ...choice, ...change },
  pinned,
  heard,
});

export const page = (change: Partial<Page> = {}, heard = 0): ToPreview => ({
  kind: 'page',
  page: pageWith(change),
  heard,
});
