import { readFileSync, writeFileSync } from 'node:fs';
import { afterAll, expect, it } from 'vitest';
import { drawCircuit, layoutEngine } from '../src/index.ts';
import { circuitOf, exampleTexts } from './examples.ts';
import { type Figures, figuresOf } from './figures.ts';

/*
 * How the examples look on a page, in figures that may get better and not worse. With
 * SETWRIGHT_FIGURES=better those that got better are written down; with =all every one is.
 */
const file = new URL('figures.json', import.meta.url);
const stored: Record<string, Figures> = JSON.parse(readFileSync(file, 'utf8'));
const wanted = process.env.SETWRIGHT_FIGURES;
const fresh: Record<string, Figures> = {};
const engine = layoutEngine();

/** So much worse is still the same. */
const leeway = 1.02;

it.each(exampleTexts)('%s looks no worse than it did', async (name, text) => {
  const now = figuresOf(await drawCircuit(circuitOf(text), engine));
  const before = stored[name];
  const least = { crossings: Math.min, bends: Math.min, wireLength: Math.min, lettering: Math.max };
  const better = (key: keyof Figures): number =>
    wanted === 'all' || !before ? now[key] : least[key](before[key], now[key]);
  fresh[name] = {
    crossings: better('crossings'),
    bends: better('bends'),
    wireLength: better('wireLength'),
    lettering: better('lettering'),
  };
  if (wanted === 'all') return;
  expect(before, 'run once with SETWRIGHT_FIGURES=better').toBeDefined();
  if (!before) return;
  const worse = (['crossings', 'bends', 'wireLength'] as const)
    .filter((key) => now[key] > before[key] * leeway)
    .map((key) => `${key}: ${before[key]} became ${now[key]}`);
  if (now.lettering * leeway < before.lettering) {
    worse.push(`lettering: ${before.lettering} became ${now.lettering} points`);
  }
  expect(worse).toEqual([]);
});

it('a five-tube set can be read on a page: letters of 6.5 points at least', async () => {
  const [, text] = exampleTexts.find(([name]) => name === 'five-tube-trf')!;
  expect(figuresOf(await drawCircuit(circuitOf(text), engine)).lettering).toBeGreaterThan(6.5);
});

afterAll(() => {
  if (wanted === 'all' || wanted === 'better') {
    writeFileSync(file, `${JSON.stringify(fresh, null, 2)}\n`);
  }
});
