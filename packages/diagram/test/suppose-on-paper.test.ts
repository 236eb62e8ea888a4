import { expect, it } from 'vitest';
import { dress, overlayOf } from '../src/index.ts';
import { crossHalf } from '../src/svg-dressing.ts';
import { exampleTexts } from './examples.ts';
import { drawnExample, meet } from './on-paper.ts';

it('letters every change at its part, its words beside it or in the notes', async () => {
  const { circuit, scene } = await drawnExample('five-tube-trf');
  const changes = circuit.parts
    .filter(({ kind }) => kind === 'tube' || kind === 'condenser')
    .map(({ name }) => ({ at: name, words: `${name} is not what it was before` }));
  const { badges, labels, notes } = dress(scene, {
    overlay: overlayOf(circuit, 'suppose 1', { changes })!,
  });
  const letters = badges.filter(({ kind }) => kind === 'changed').map(({ letter }) => letter);
  expect(letters).toEqual([...'abcdefghijk'].slice(0, changes.length));
  for (const { words } of changes)
    expect(
      labels.some(({ text }) => text.endsWith(words)) || notes.some((n) => n.includes(words)),
    ).toBe(true);
});

it('lists the letters that have no room for their words beside them, where paper is free', async () => {
  const { circuit, scene } = await drawnExample('push-pull');
  const at = ['V4.plate', 'T3.primary.start', 'T3.primary.centre', 'T3.primary.finish'];
  const changes = at.map((each) => ({ at: each, words: `-1.5 V, was ${each.length} V before it` }));
  const overlay = overlayOf(circuit, 'suppose 2', { changes })!;
  const { labels, notes } = dress(scene, { overlay });
  const listed = labels.filter(({ text }) => /^[a-d] {2}\S+: −1.5 V/.test(text));
  expect(listed.length).toBeGreaterThan(0);
  expect(notes).toEqual([]);
  // On a sheet, which has no title over the drawing, the title block lists them.
  const sheet = dress(scene, { overlay: { ...overlay, title: '' } });
  expect(sheet.labels.filter(({ text }) => /^[a-d] {2}/.test(text))).toEqual([]);
});

it('crosses every terminal of a battery that is off', async () => {
  const { circuit, scene } = await drawnExample('five-tube-trf');
  const { badges } = dress(scene, { overlay: overlayOf(circuit, 'suppose 4')! });
  const failed = badges.filter(({ kind }) => kind === 'failed');
  expect(failed.map(({ words }) => words)).toEqual(['open', 'open']);
});

it.each(exampleTexts.map(([name]) => name))(
  'crosses out no words, whatever part of %s fails',
  async (name) => {
    const { scene } = await drawnExample(name);
    const failed = [...new Set(scene.symbols.map(({ part }) => part))].map((at) => ({
      at,
      words: '',
    }));
    const overlay = {
      ...{ id: 'x', title: '', parts: undefined, paths: [], changed: [], notes: [] },
      failed,
    };
    const over = dress(scene, { overlay }).badges.flatMap(({ at, box }) => {
      const half = crossHalf(box);
      const cross = {
        left: at.x - half,
        top: at.y - half,
        right: at.x + half,
        bottom: at.y + half,
      };
      return scene.labels.filter((label) => meet(label.box, cross)).map(({ text }) => text);
    });
    expect(over).toEqual([]);
  },
);

it('leads from a letter to what it stands for, where there is no room beside it', async () => {
  const { circuit, scene } = await drawnExample('push-pull');
  const changes = [{ at: 'T3.primary.centre', words: '153 V, was 183 V' }];
  const { leaders } = dress(scene, { overlay: overlayOf(circuit, 'suppose 2', { changes })! });
  const tap = scene.symbols
    .flatMap(({ pins }) => pins)
    .find(({ end }) => end === 'T3.primary.centre')!;
  expect(leaders.map(({ to }) => to)).toEqual([tap.at]);
});
