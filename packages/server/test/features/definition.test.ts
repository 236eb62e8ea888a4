import { describe, expect, it } from 'vitest';
import { definitionAt, referencesAt } from '../../src/features/definition.ts';
import { highlightsAt, linkedRangesAt } from '../../src/features/highlights.ts';
import { librarySnapshot } from '../../src/text/library.ts';
import { marked, setWith, wordsAt } from '../support.ts';

/** The words that the definition leads to, with the line that they stand on. */
const definition = (text: string): string | undefined => {
  const { snapshot, position } = marked(text);
  const [found] = definitionAt(snapshot, position);
  if (!found) return undefined;
  const home = found.targetUri === snapshot.uri ? snapshot : librarySnapshot();
  return `${found.targetUri.split('/').at(-1)}: ${wordsAt(home, found.targetSelectionRange)} of ${wordsAt(home, found.targetRange)}`;
};

describe('go to definition', () => {
  it('of a part leads to its line', () => {
    expect(definition(setWith().replace('to L1.grid.finish', 'to L<|>1.grid.finish'))).toBe(
      'set.receiver: L1 of coil L1 "tuner"',
    );
  });

  it('of a winding leads to its line', () => {
    expect(definition(setWith().replace('to L1.grid.finish', 'to L1.gr<|>id.finish'))).toMatch(
      /^set.receiver: grid of winding grid 46 turns/,
    );
  });

  it('of a tap leads to its line', () => {
    expect(definition(setWith().replace('to B+45', 'to B+4<|>5'))).toBe(
      'set.receiver: B+45 of tap B+45 45 V',
    );
  });

  it('of a terminal leads to where its part joins it', () => {
    const text = setWith({ stage: 'wire V1.fila<|>ment+ to A+' });
    expect(definition(text)).toBe('set.receiver: A+ of filament from RH1 to A+');
  });

  it('of a terminal that its part says nothing of leads to the part', () => {
    expect(definition(setWith().replace('from V1.plate', 'from V1.pl<|>ate'))).toBe(
      'set.receiver: V1 of tube V1 01-A',
    );
  });

  it('of a tube type leads to the library', () => {
    expect(definition(setWith().replace('V1 01-A', 'V1 01<|>-A'))).toBe(
      'tubes.receiver: 01-A of tube type 01-A "general purpose triode"',
    );
  });

  it('of a tube type that the text describes leads to its description', () => {
    const own = 'tube type 01-A "our own" { filament 5 V .25 A }\n';
    expect(definition(`${setWith().replace('V1 01-A', 'V1 01<|>-A')}${own}`)).toBe(
      'set.receiver: 01-A of tube type 01-A "our own"',
    );
  });

  it('of a word that names nothing leads nowhere', () => {
    expect(definition(setWith().replace('tunes', 'tu<|>nes'))).toBeUndefined();
  });
});

describe('references', () => {
  const { snapshot, position } = marked(setWith().replace('tube V1', 'tube V<|>1'));

  it('are all places that name the part', () => {
    const lines = referencesAt(snapshot, position, true).map(({ range }) => range.start.line);
    expect(lines).toHaveLength(5);
    expect(referencesAt(snapshot, position, false)).toHaveLength(4);
  });

  it('of a type of the library include the library', () => {
    const type = marked(setWith().replace('V1 01-A', 'V1 01<|>-A'));
    const uris = referencesAt(type.snapshot, type.position, true).map(({ uri }) => uri);
    expect(uris).toEqual(['setwright:/tubes.receiver', type.snapshot.uri]);
  });
});

describe('highlights', () => {
  it('are all places that name the part, its declaration marked', () => {
    const { snapshot, position } = marked(
      setWith().replace('to RH1', 'to R<|>H1').replace('from RH1', 'from RH<|>1'),
    );
    const found = highlightsAt(snapshot, position);
    expect(found.map(({ kind }) => kind)).toEqual([3, 2]);
  });

  it('places that change together hold the same words', () => {
    const { snapshot, position } = marked(setWith().replace('coil L1', 'coil L<|>1'));
    const ranges = linkedRangesAt(snapshot, position)?.ranges ?? [];
    expect(ranges.length).toBeGreaterThan(2);
    expect(new Set(ranges.map((range) => wordsAt(snapshot, range)))).toEqual(new Set(['L1']));
  });
});
