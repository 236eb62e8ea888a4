import { describe, expect, it } from 'vitest';
import {
  drawCircuit,
  layoutEngine,
  overlayOf,
  type PaperName,
  pageToSvg,
  papers,
  type Scene,
  sceneToSvg,
} from '../src/index.ts';
import { outlineOf } from '../src/lettering/lettering.ts';
import { factsOf } from '../src/page/facts.ts';
import { circuitOf, exampleTexts } from './examples.ts';
import { drawnExample, drawnText, textOf } from './on-paper.ts';

const sheets = Object.keys(papers) as PaperName[];

/** Rectangles of a page in millimetres: the drawing and the title block. */
function rectangles(svg: string) {
  const box = (tag: RegExp) => {
    const found = tag.exec(svg)!;
    const [x, y, width, height] = found.slice(1).map(Number) as [number, number, number, number];
    return { left: x, top: y, right: x + width, bottom: y + height };
  };
  return {
    drawing: box(/<svg x="([\d.]+)" y="([\d.]+)" width="([\d.]+)" height="([\d.]+)"/),
    block: box(/class="block" x="([\d.]+)" y="([\d.]+)" width="([\d.]+)" height="([\d.]+)"/),
  };
}

describe('a page', () => {
  it.each(exampleTexts.map(([name]) => name))(
    'with %s keeps drawing and title block apart, within the margins',
    async (name) => {
      const { circuit, scene } = await drawnExample(name);
      for (const sheet of sheets) {
        const { width, height } = papers[sheet];
        const { drawing, block } = rectangles(pageToSvg(circuit, [scene], sheet).svg);
        expect(drawing.bottom).toBeLessThan(block.top);
        for (const box of [drawing, block]) {
          expect(Math.min(box.left, box.top)).toBeGreaterThanOrEqual(9.99);
          expect(box.right).toBeLessThanOrEqual(width - 9.99);
          expect(box.bottom).toBeLessThanOrEqual(height - 9.99);
        }
      }
    },
  );

  it('says what the set is, what tubes and supplies it takes, and the caution', async () => {
    const facts = factsOf((await drawnExample('dry-cell-portable')).circuit);
    expect(facts.title).toBe('Lantern Cove Picnic');
    expect(facts.about).toEqual(['1927', 'tunes 550 kc to 1500 kc']);
    expect(facts.tubes).toEqual(['20: V4', '99: V1, V2, V3']);
    expect(facts.supplies[0]).toBe('A 4.5 V dry');
    expect(facts.caution).toMatch(/^B voltage can hurt: .* before power goes on\.$/);
  });

  it('bears them on the sheet: title, tubes, supply, caution', async () => {
    const { circuit, scene } = await drawnExample('dry-cell-portable');
    const { title, about, tubes, supplies, caution } = factsOf(circuit);
    const { svg } = pageToSvg(circuit, [scene], 'letter-landscape');
    const block = svg.slice(svg.indexOf('class="block"'));
    // A line may break: its beginning is enough.
    const beginnings = [title, about[0]!, ...tubes, ...supplies, caution.slice(0, 60)];
    for (const words of beginnings)
      expect(block, words).toContain(`d="${outlineOf(words, 'plain')}`);
  });

  it('has no word of B voltage where there is none', async () => {
    const facts = factsOf((await drawnExample('crystal')).circuit);
    expect(facts.supplies).toEqual([]);
    expect(facts.caution).toMatch(/^Drawn from the written text/);
  });

  it('nor where there is but a cell, whose leads come off all the same', () => {
    const cell = 'receiver "Cell" {\n battery P dry { tap P- tap P+ 1.5 V }\n}';
    expect(factsOf(circuitOf(cell)).caution).toMatch(/^Take the battery leads off/);
    const block = 'receiver "Block" {\n battery B dry { tap B- tap B+22 22.5 V }\n}';
    expect(factsOf(circuitOf(block)).caution).toMatch(/^B voltage can hurt/);
  });

  it.each([
    ['300 to 600 meters', '300 to 600 meters'],
    ['600 to 300 meters', '600 to 300 meters'],
    ['550 kc to 1500 kc', '550 kc to 1500 kc'],
  ])('says a band of %s as it is written', (written, said) => {
    const { about } = factsOf(circuitOf(`receiver "Band" {\n tunes ${written}\n}`));
    expect(about).toEqual([`tunes ${said}`]);
  });

  it('has all its letters as outlines, but for those of which there are none', async () => {
    const { circuit, scene } = await drawnExample('crystal');
    expect(pageToSvg(circuit, [scene], 'a4').svg).not.toContain('<text');
    expect(wordsOn(pageToSvg({ ...circuit, title: 'Море' }, [scene], 'a4').svg)).toBe('Море');
  });

  it('takes of several layouts the one that prints largest', async () => {
    const { circuit, scene } = await drawnExample('crystal');
    const broad = { ...scene, width: scene.width * 5 };
    const largest = pageToSvg(circuit, [scene], 'a4').smallestLetters;
    expect(pageToSvg(circuit, [broad, scene], 'a4').smallestLetters).toBe(largest);
    expect(pageToSvg(circuit, [broad], 'a4').smallestLetters).toBeLessThan(largest);
  });

  it.each(['five-tube-trf', 'superheterodyne', 'resistance-coupled'])(
    'prints %s as large as any number of rows allows, but for a hair that is not worth a row',
    async (name) => {
      const { circuit } = await drawnExample(name);
      const engine = layoutEngine();
      const ways: Scene[] = [];
      for (const rows of [1, 2, 3, 4, 5]) ways.push(await drawCircuit(circuit, engine, { rows }));
      for (const sheet of sheets) {
        const sizes = ways.map((scene) => pageToSvg(circuit, [scene], sheet).smallestLetters);
        const chosen = pageToSvg(circuit, ways, sheet).smallestLetters;
        expect(chosen).toBeGreaterThan(Math.max(...sizes) / 1.03 ** (ways.length - 1));
        expect(chosen).toBeGreaterThanOrEqual(sizes[0]!);
      }
      const lying = pageToSvg(circuit, ways, 'a4-landscape').smallestLetters;
      expect(lying).toBeGreaterThan(
        1.2 * pageToSvg(circuit, ways.slice(0, 1), 'a4-landscape').smallestLetters,
      );
    },
  );

  it('draws a small set no larger than a book would', async () => {
    const { circuit, scene } = await drawnExample('crystal');
    const { smallestLetters } = pageToSvg(circuit, [scene], 'a4-landscape');
    expect(smallestLetters).toBeGreaterThan(8);
    expect(smallestLetters).toBeLessThan(11);
  });

  it('prints the five-tube set in letters of 6.5 points and more', async () => {
    const { circuit, scene } = await drawnExample('five-tube-trf');
    const sizes = (['a4', 'a4-landscape'] as const).map(
      (sheet) => pageToSvg(circuit, [scene], sheet).smallestLetters,
    );
    expect(Math.max(...sizes)).toBeGreaterThanOrEqual(6.5);
  });

  it('tells the view in its block, and what a suppose changes', async () => {
    const { circuit, scene } = await drawnExample('crystal');
    const overlay = overlayOf(circuit, 'suppose 1', {
      changes: [{ at: 'PH1', words: 'тихо' }],
    })!;
    const { svg } = pageToSvg(circuit, [scene], 'a4', { overlay });
    expect(wordsOn(svg)).toContain('a PH1: тихо');
  });

  it('holds a title of any length', async () => {
    const long = textOf('crystal').replace('Lantern Cove Beacon', `${'W'.repeat(3000)} end`);
    const { circuit, scene } = await drawnText(long);
    const { drawing, block } = rectangles(pageToSvg(circuit, [scene], 'letter-landscape').svg);
    expect(drawing.bottom).toBeLessThan(block.top);
    expect(drawing.bottom - drawing.top).toBeGreaterThan(20);
  });

  it.each(sheets)(
    'leaves the drawing its room on %s, however much there is to be told',
    async (sheet) => {
      const batteries = Array.from(
        { length: 120 },
        (_, at) => `battery X${at} dry { tap B-\n tap B+45 45 V }`,
      );
      const { circuit, scene } = await drawnText(`receiver "Many" {\n${batteries.join('\n')}\n}`);
      const overlay = {
        ...overlayOf(circuit, 'whole')!,
        changed: circuit.parts.map(({ name }) => ({ at: name, letter: 'a', words: 'otherwise' })),
      };
      const page = pageToSvg(circuit, [scene], sheet, { overlay });
      const { drawing, block } = rectangles(page.svg);
      expect(drawing.bottom).toBeLessThan(block.top);
      expect(drawing.bottom - drawing.top).toBeGreaterThan(60);
      expect(page.smallestLetters).toBeGreaterThan(0);
      expect(page.svg).toContain(outlineOf('and ', 'plain'));
    },
  );

  it('has the same drawing as a file has', async () => {
    const { circuit, scene } = await drawnExample('two-tube');
    const parts = (svg: string) => svg.match(/<g class="part [^>]*>/g);
    const page = pageToSvg(circuit, [scene], 'a4').svg;
    expect(parts(page)).toEqual(parts(sceneToSvg(scene, { use: 'file' })));
  });
});

/** Letters that stayed text, as one line. */
function wordsOn(svg: string): string {
  return [...svg.matchAll(/<text[^>]*>([^<]*)</g)].map(([, words]) => words).join(' ');
}
