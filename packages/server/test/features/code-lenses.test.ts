import { describe, expect, it } from 'vitest';
import { bandFigures } from '../../src/features/band-figures.ts';
import { codeLenses } from '../../src/features/code-lenses.ts';
import { documentLinks } from '../../src/features/document-links.ts';
import { exampleText, read, setWith, wordsAt } from '../support.ts';

const lenses = (text: string, known = true) => {
  const snapshot = read(text);
  const circuit = snapshot.file.circuits[0]!;
  const figures = known ? bandFigures(circuit) : undefined;
  const found = codeLenses({
    snapshot,
    lastWhole: undefined,
    units: 'period',
    figures: () => figures,
  });
  return found.map(({ range, command }) => ({
    at: wordsAt(snapshot, range).split(' "')[0],
    title: command?.title,
    to: command?.arguments?.slice(1),
  }));
};

describe('the line over a stage', () => {
  it('tells gain, band and stability, and opens the response', () => {
    const [first] = lenses(exampleText('five-tube-trf'));
    expect(first?.at).toBe('radio stage RF1');
    expect(first?.title).toMatch(/^gain [\d.]+ to [\d.]+ · \d+ to \d+ kc · [a-z ]+$/);
    expect(first?.to).toEqual(['response', 0]);
  });

  it('tells the band alone until gain and stability are reckoned', () => {
    const [first] = lenses(exampleText('five-tube-trf'), false);
    expect(first?.title).toMatch(/^\d+ to \d+ kc$/);
  });
});

describe('the line over a bench or a suppose', () => {
  const all = lenses(exampleText('five-tube-trf'), false);

  it('leads to the suspects', () => {
    expect(all.find(({ title }) => title === 'suspects')).toEqual({
      at: 'bench',
      title: 'suspects',
      to: ['bench', 0],
    });
  });

  it('leads to what changes', () => {
    const changes = all.filter(({ title }) => title === 'what changes');
    expect(changes.map(({ to }) => to)).toEqual(
      changes.map((_, index) => ['diagram', 0, `suppose ${index + 1}`]),
    );
    expect(changes.length).toBeGreaterThan(0);
  });
});

describe('links', () => {
  it('lead from a check that is meant to its page', () => {
    const snapshot = read(
      setWith({ set: 'meant grid-biased-positive "volume"\n  meant nonsense "x"' }),
    );
    const links = documentLinks(snapshot);
    expect(links.map(({ range, target }) => [wordsAt(snapshot, range), target])).toEqual([
      ['grid-biased-positive', 'setwright:/checks/grid-biased-positive.md'],
    ]);
  });
});
