import { expect, it } from 'vitest';
import { dress, overlayOf } from '../src/index.ts';
import { drawnExample } from './on-paper.ts';

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
    expect(labels.some(({ text }) => text === words) || notes.some((n) => n.includes(words))).toBe(
      true,
    );
});

it('crosses every terminal of a battery that is off', async () => {
  const { circuit, scene } = await drawnExample('five-tube-trf');
  const { badges } = dress(scene, { overlay: overlayOf(circuit, 'suppose 4')! });
  const failed = badges.filter(({ kind }) => kind === 'failed');
  expect(failed.map(({ words }) => words)).toEqual(['open', 'open']);
});
