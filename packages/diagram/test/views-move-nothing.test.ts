import { expect, it } from 'vitest';
import {
  figuresOf,
  overlayOf,
  type SvgOptions,
  sceneToSvg,
  stagesOf,
  viewsOf,
} from '../src/index.ts';
import { exampleTexts } from './examples.ts';
import { drawnExample } from './on-paper.ts';

/**
 * Everything on a sheet with where it lies, in the order in which it is drawn: all that an element
 * says but its class, which alone tells how it looks.
 */
const shapesIn = (svg: string): string[] =>
  [
    ...svg
      .replace(/<style>[\s\S]*?<\/style>/, '')
      .matchAll(/<(svg|rect|path|circle|text|g)\b[^>]*>/g),
  ].map(([shape]) => shape.replace(/ class="[^"]*"/, ''));

/** What of one sheet is not on another in the same order. */
function missing(of: readonly string[], on: readonly string[]): string[] {
  let at = 0;
  return of.filter((shape) => {
    const found = on.indexOf(shape, at);
    if (found >= 0) at = found + 1;
    return found < 0;
  });
}

const looks: readonly Pick<SvgOptions, 'symbols' | 'use'>[] = [
  { symbols: 'modern', use: 'screen' },
  { symbols: 'period', use: 'file' },
];

it.each(exampleTexts.map(([name]) => name))(
  'no view, number, stage or suppose moves anything in the drawing of %s',
  async (name) => {
    const { circuit, scene } = await drawnExample(name);
    const [figures, stages] = [figuresOf(circuit), stagesOf(circuit)];
    const changes = circuit.parts.slice(0, 6).map((part) => ({ at: part.name, words: 'altered' }));
    const dressings: SvgOptions[] = [
      { figures },
      { stages },
      // Every second view with all else over it, the others alone.
      ...viewsOf(circuit).map(({ id }, at): SvgOptions => {
        const overlay = overlayOf(circuit, id, { changes })!;
        return at % 2 === 0 ? { overlay } : { overlay, figures, stages };
      }),
    ];
    for (const look of looks) {
      const bare = shapesIn(sceneToSvg(scene, look));
      expect(bare.length).toBeGreaterThan(40);
      for (const options of dressings)
        expect(missing(bare, shapesIn(sceneToSvg(scene, { ...look, ...options })))).toEqual([]);
    }
  },
);
