import { layoutMemory } from '@setwright/diagram';
import type { PageRequest } from '@setwright/webview';
import { describe, expect, it } from 'vitest';
import { exportedPage, pageOf } from '../../src/features/pages/page.ts';
import type { PageSource } from '../../src/features/pages/page-source.ts';
import { exampleText, findingsIn, read, setWith, uri, wordsAt } from '../support.ts';

let layouts = 0;
const memory = layoutMemory();
const sourceOf = (text: string): PageSource => {
  const snapshot = read(text);
  return {
    snapshot,
    lastWhole: undefined,
    findings: findingsIn(snapshot),
    units: 'period',
    drawings: {
      draughtsman: () => import('@setwright/diagram'),
      memory,
      engine: ({ layoutEngine }) => {
        const engine = layoutEngine();
        return {
          layout: (graph) => {
            layouts += 1;
            return engine.layout(graph);
          },
        };
      },
    },
  };
};

const request = (more: Partial<PageRequest> = {}): PageRequest => ({
  uri,
  page: 'diagram',
  receiver: 0,
  view: 'whole',
  symbols: 'modern',
  values: false,
  ...more,
});
const page = (text: string, more: Partial<PageRequest> = {}) =>
  pageOf(sourceOf(text), request(more));

describe('the page of the diagram', () => {
  it('shows every part, with where it stands and what it is', async () => {
    const source = sourceOf(setWith());
    const made = await pageOf(source, request());
    expect(made.svg).toMatch(/^<svg /);
    expect(made.broken).toBe(false);
    expect(made.receivers).toEqual(['Lantern Cove Punt']);
    expect(Object.keys(made.parts)).toEqual(expect.arrayContaining(['V1', 'L1.grid', 'C1', 'PH1']));
    const tube = made.parts.V1!;
    expect(wordsAt(source.snapshot, tube.range)).toBe('tube V1 01-A');
    expect(tube.hover).toMatch(/^\*\*V1\*\*/);
    expect(tube.spoken).toBe('V1, tube 01-A, in stage DET');
    for (const name of Object.keys(made.parts)) expect(made.svg).toContain(`data-part="${name}"`);
  });

  it('tells what is found at a part', async () => {
    const made = await page(setWith().replace('leak R1 2 meg from V1.grid to A+', ''));
    expect(made.parts.V1?.findings.map(({ message }) => message)).toContainEqual(
      expect.stringMatching(/has no leak/),
    );
  });

  it('offers views, and falls back to the whole for one that is gone', async () => {
    const made = await page(setWith(), { view: 'bias' });
    expect(made.view).toBe('bias');
    expect(made.views.map(({ id }) => id)).toEqual(expect.arrayContaining(['whole', 'bias']));
    expect((await page(setWith(), { view: 'stage NONE' })).view).toBe('whole');
  });

  it('shows numbers where they are wanted', async () => {
    const [plain, figured] = [await page(setWith()), await page(setWith(), { values: true })];
    expect(figured.svg!.length).toBeGreaterThan(plain.svg!.length);
  });

  it('is made from the lines that can be read, and says so', async () => {
    const made = await page(setWith().replace('phones PH1', 'phnes PH1'));
    expect(made.broken).toBe(true);
    expect(made.parts.V1).toBeDefined();
    expect(made.parts.PH1).toBeUndefined();
  });

  it('lays nothing out anew when only a value changes', async () => {
    await page(setWith());
    layouts = 0;
    await page(setWith().replace('2 meg', '3 meg'));
    expect(layouts).toBe(0);
  });

  it('of the second receiver shows that one', async () => {
    const text = `${setWith()}${exampleText('crystal')}`;
    const made = await page(text, { receiver: 1 });
    expect(made.receiver).toBe(1);
    expect(made.parts.CR1).toBeDefined();
    expect((await page(text, { receiver: 7 })).receiver).toBe(1);
  });

  it('of a text without a receiver says how to begin', async () => {
    const made = await page('// nothing yet\n');
    expect(made.svg).toBeUndefined();
    expect(made.notes.join()).toMatch(/receiver "title"/);
  });
});

describe('the other pages', () => {
  it('dials: the chart and a table of stations', async () => {
    const made = await page(exampleText('five-tube-trf'), { page: 'dials' });
    expect(made.svg).toMatch(/^<svg /);
    expect(made.notes.join()).toContain('plates of C1, C2 and C3 shaped');
    const [table] = made.tables;
    expect(table?.heading.slice(0, 3)).toEqual(['station', 'wave', 'D1 (C1)']);
    for (const row of table?.rows ?? []) expect(row).toHaveLength(table!.heading.length);
  });

  it('response: curves, a table, and whether it squeals', async () => {
    const made = await page(setWith(), { page: 'response' });
    expect(made.tables[0]?.heading).toContain('squealing');
    expect(made.notes.join(' ')).toMatch(/steady|squeal|oscillate/);
  });

  it('bench: what a meter should read, caution first', async () => {
    const made = await page(exampleText('five-tube-trf'), { page: 'bench' });
    expect(made.notes[0]).toMatch(/^Caution: /);
    const rows = made.tables.flatMap((table) => {
      for (const row of table.rows) expect(row).toHaveLength(table.heading.length);
      return table.rows;
    });
    expect(rows.map(([probe]) => probe)).toEqual(
      expect.arrayContaining(['V1.plate', 'V5.plate', 'B+90 lead']),
    );
  });

  it('diagram of a suppose: the failed part crossed, what a meter shows lettered', async () => {
    const made = await page(exampleText('five-tube-trf'), { view: 'suppose 2' });
    expect(made.view).toBe('suppose 2');
    expect(made.svg).toMatch(/0 V, was 4\d/);
    expect(made.notes[0]).toMatch(/V3/);
  });

  it('tour: the drawing with a layer for each step, which lights parts that are drawn', async () => {
    const made = await page(exampleText('five-tube-trf'), { page: 'tour', view: 'bias V1' });
    expect([made.svg?.startsWith('<svg '), made.view, made.views]).toEqual([true, 'whole', []]);
    const steps = made.steps ?? [];
    expect(steps[0]?.title).toBe('The set at a glance');
    const drawn = new Set(Object.keys(made.parts));
    const owners = new Set([...drawn].map((name) => name.split('.')[0]));
    for (const { title, words, parts } of steps) {
      expect(words.length, title).toBeGreaterThan(1);
      for (const part of parts) expect(drawn.has(part) || owners.has(part), part).toBe(true);
    }
    expect(steps.at(-1)?.parts).toContain('C');
    const layer = (title: string): string => {
      const step = steps.findIndex((each) => each.title === title);
      return made.svg?.split(`data-layer="${step}"`)[1]?.split('data-layer')[0] ?? '';
    };
    expect(layer('The plate current of V1')).toMatch(/class="path direct/);
    const [plate] = steps.filter(({ title }) => title === 'The plate current of V1');
    expect(plate?.dimmed.length).toBeGreaterThan(10);
    for (const number of plate?.dimmed ?? []) expect(made.svg).toContain(`data-n="${number}"`);
    expect(plate?.spoken).toMatch(/Plate supply of V1/);
  });

  it('compare: says that it is not there yet', async () => {
    const made = await page(setWith(), { page: 'compare' });
    expect(made.svg).toBeUndefined();
    expect(made.notes.join()).toMatch(/yet/);
  });
});

describe('a picture for a file', () => {
  it.each(['light', 'dark', 'transparent'] as const)('%s stands by itself', async (theme) => {
    const wish = { ...request(), theme, sheet: false };
    const svg = await exportedPage(sourceOf(setWith()), wish);
    expect(svg).toMatch(/^<svg /);
    expect(svg).not.toContain('var(');
  });

  it('of the tour is the whole set', async () => {
    const wish = { theme: 'light', sheet: false } as const;
    const source = sourceOf(setWith());
    expect(
      await exportedPage(source, { ...request({ page: 'tour', view: 'bias' }), ...wish }),
    ).toBe(await exportedPage(source, { ...request(), ...wish }));
  });

  it('on a sheet is as large as one, and has the title in a block of its own', async () => {
    const wish = { ...request(), theme: 'light', sheet: true } as const;
    const halves = async (title: string) => {
      const text = setWith().replace('Lantern Cove Punt', title);
      const svg = (await exportedPage(sourceOf(text), wish)) ?? '';
      expect(svg).toContain('width="297mm" height="210mm"');
      // Letters are outlines, so that another title is seen by its other shapes.
      const [drawn = '', block = ''] = svg.split('class="block"');
      return { drawn: drawn.replaceAll(title, ''), block };
    };
    const [one, other] = [await halves('Lantern Cove Punt'), await halves('Lantern Cove Dory')];
    expect(one.block).not.toBe('');
    expect(one.drawn).toBe(other.drawn);
    expect(one.block).not.toBe(other.block);
  });

  it('of a page without one is none', async () => {
    const source = sourceOf(setWith());
    expect(
      await exportedPage(source, { ...request({ page: 'bench' }), theme: 'light', sheet: true }),
    ).toBeUndefined();
  });
});
