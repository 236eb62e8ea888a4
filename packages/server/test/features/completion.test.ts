import { readReceivers } from '@setwright/language';
import { readQuantity } from '@setwright/units';
import { describe, expect, it } from 'vitest';
import { completionAt } from '../../src/features/completion/completion.ts';
import { stageEntries } from '../../src/features/completion/stages.ts';
import { plainOf, snippetOf } from '../../src/words/snippet.ts';
import { statementHelp } from '../../src/words/statements.ts';
import { after, marked, setWith } from '../support.ts';

const complete = (text: string, snippets = true) => {
  const { snapshot, position } = marked(text);
  return { snapshot, items: completionAt(snapshot, position, { takesSnippets: snippets }).items };
};
const labels = (text: string): string[] => complete(text).items.map(({ label }) => label);
/** What is offered where the mark stands in a line of the stage. */
const inStage = (line: string): string[] => labels(setWith({ stage: line }));
const inSet = (line: string): string[] => labels(setWith({ set: line }));

describe('at the beginning of a line', () => {
  it('of a file: a receiver, a used file or a tube type', () => {
    expect(labels('<|>')).toEqual(['receiver', 'use', 'tube']);
  });

  it('of a receiver: parts, stages, and whole stages', () => {
    const found = inSet('<|>');
    for (const word of ['battery', 'condenser', 'radio', 'bench', 'grid-leak detector'])
      expect(found).toContain(word);
    expect(found).not.toContain('winding');
  });

  it('of a coil, a battery, a tube, a bench, a suppose: what may stand there', () => {
    expect(inSet('coil L9 {\n<|>\n}')).toEqual(
      ['winding', 'form', 'coupling', 'tuned', 'meant'].sort(byHelp),
    );
    expect(inSet('battery C {\n<|>\n}')).toEqual(expect.arrayContaining(['tap', 'capacity']));
    expect(inSet('tube V9 01-A {\n<|>\n}')).toEqual(
      expect.arrayContaining(['filament', 'plate', 'grid']),
    );
    expect(inSet('bench "b" {\n<|>\n}')).toEqual(expect.arrayContaining(['reading', 'heard']));
    expect(inSet('suppose "s" {\n<|>\n}')).toEqual(expect.arrayContaining(['open', 'swap']));
    expect(labels('tube type X {\n<|>\n}')).toEqual(expect.arrayContaining(['point', 'limit']));
  });

  it('a word that is half typed is replaced', () => {
    const { snapshot, items } = complete(setWith({ set: 'conden<|>' }), false);
    const item = items.find(({ label }) => label === 'condenser');
    if (!item?.textEdit || !('range' in item.textEdit)) throw new Error('no edit');
    expect(after(snapshot, [item.textEdit])).toContain('\n  condenser C1 .00025 mfd from');
  });
});

const byHelp = (a: string, b: string): number =>
  statementHelp.findIndex(({ word }) => word === a) -
  statementHelp.findIndex(({ word }) => word === b);

describe('where a terminal is named', () => {
  it.each(['leak R9 2 meg from <|>', 'leak R9 2 meg from A+ to <|>', 'wire A- to <|>', 'wire <|>'])(
    '%s: taps, posts, parts and their ends',
    (line) => {
      const found = inStage(line);
      for (const name of ['A+', 'B+45', 'GND', 'RH1', 'V1.grid', 'L1.grid.finish'])
        expect(found).toContain(name);
    },
  );

  it('behind a dot the ends of that part alone', () => {
    expect(inStage('wire V1.<|>')).toEqual([
      'V1.filament',
      'V1.grid',
      'V1.plate',
      'V1.filament-',
      'V1.filament+',
    ]);
    expect(inStage('wire L1.<|>')).toEqual(
      expect.arrayContaining(['L1.aerial', 'L1.grid', 'L1.grid.start']),
    );
  });

  it('behind a comma that goes on with a list', () => {
    expect(inStage('selector S9 from ANT to L1.aerial.finish, <|>')).toContain('L1.grid.start');
  });

  it('not between two numbers', () => {
    expect(inStage('condenser C9 variable 14 to <|>')).toEqual([]);
  });

  it('a line that is half typed hides no other', () => {
    expect(inStage('leak R9 2 meg fro V1.grid to <|>')).toContain('V1.grid');
  });

  it('a winding’s fellows where one is named', () => {
    expect(inSet('coil L9 {\nwinding aerial 4 turns\nwinding grid 9 turns beside <|>\n}')).toEqual([
      'aerial',
      'grid',
    ]);
  });

  it('what a dial, a jack, a gang or a like may name', () => {
    expect(inSet('dial D9 0 to 100 drives <|>')).toEqual(expect.arrayContaining(['C1', 'RH1']));
    expect(inSet('jack J1 from A- to A+\n  phones PH9 into <|>')).toEqual(['J1']);
    expect(inSet('gang G1 <|>')).toEqual(['C1']);
    expect(inSet('condenser C9 like <|>')).toEqual(['C9', 'C1', 'C2', 'C3']);
  });
});

describe('behind a number', () => {
  it('units of what the part takes', () => {
    expect(inStage('condenser C9 .00025 <|>').slice(0, 2)).toEqual(['mfd', 'mmfd']);
    expect(inStage('leak R9 2 <|>')).toEqual(expect.arrayContaining(['meg', 'ohms']));
    expect(inStage('leak R9 2 <|>')).not.toContain('mfd');
    expect(inSet('battery C {\ntap C- 4 <|>\n}')[0]).toBe('V');
    expect(inSet('tunes 550 <|>')).toEqual(expect.arrayContaining(['kc', 'meters']));
  });

  it('coverings of a wire', () => {
    expect(inSet('coil L9 {\nwinding a 46 turns of 24 <|>\n}')).toEqual(
      expect.arrayContaining(['DCC', 'enamel']),
    );
  });

  it('are such that the quantity can be read', () => {
    for (const unit of ['mfd', 'mmfd', 'pF', 'nF', 'cm'])
      expect(readQuantity('5', unit, 'capacitance').ok).toBe(true);
  });

  it('a number itself is not completed', () => {
    expect(inStage('leak R9 2<|>')).toEqual([]);
    expect(inStage('condenser C9 .0<|>')).toEqual([]);
  });
});

describe('names and words', () => {
  it('a tube’s types with what they are', () => {
    const { items } = complete(setWith({ stage: 'tube V9 <|>' }));
    expect(items.find(({ label }) => label === '01-A')?.detail).toBe('general purpose triode');
    expect(inStage('tube V9 01-<|>')).toContain('01-A');
  });

  it('a name that is free', () => {
    expect(inStage('condenser <|>')).toEqual(['C4']);
    expect(inStage('tube <|>')).toEqual(['V2']);
  });

  it('the checks where something is meant', () => {
    expect(inStage('meant <|>')).toContain('grid-biased-positive');
    expect(inStage('meant <|>')).not.toContain('unreadable-line');
  });

  it('words that go on with a line', () => {
    expect(inStage('condenser C9 .001 mfd <|>')).toEqual(
      expect.arrayContaining(['from', 'to', 'across', 'variable', 'like']),
    );
    expect(inSet('condenser C9 14 to 365 mmfd law <|>')).toEqual([
      'capacity',
      'wavelength',
      'frequency',
    ]);
    expect(inSet('post X <|>')).toEqual(expect.arrayContaining(['aerial', 'ground']));
    expect(inSet('radio <|>')[0]).toBe('stage');
  });

  it('symptoms where it is told what is heard', () => {
    expect(inSet('bench "b" {\nheard "<|>"\n}')).toContain('squeals at short waves');
    expect(inSet('bench "b" {\nheard "squ<|>\n}')).toContain('squeals at short waves');
  });

  it('nothing in other words and in comments', () => {
    expect(inStage('note "from <|>"')).toEqual([]);
    expect(inStage('// from <|>')).toEqual([]);
    expect(inStage('/* from <|> */')).toEqual([]);
  });
});

describe('a space by itself', () => {
  const typed = (line: string): string[] => {
    const { snapshot, position } = marked(setWith({ stage: line }));
    const { items } = completionAt(snapshot, position, { takesSnippets: true, typed: ' ' });
    return items.map(({ label }) => label);
  };

  it('calls for nothing where anything might be written', () => {
    expect(typed('  <|>')).toEqual([]);
    expect(typed('condenser C9 .001 mfd <|>')).toEqual([]);
  });

  it('calls for names and units where they must come', () => {
    expect(typed('leak R9 2 meg from <|>')).toContain('V1.grid');
    expect(typed('leak R9 2 <|>')).toContain('meg');
  });
});

describe('whole stages', () => {
  const { circuits } = readReceivers(setWith(), 'x');

  it.each(stageEntries(circuits[0]).map(({ label, snippet = '' }) => [label, snippet]))(
    'a %s fits into a set as it is put in',
    (_, snippet) => {
      const plain = plainOf(snippet).replace(/B\+(67|90|135)|C-\d(\.5)?/g, 'B+45');
      const { circuits: read } = readReceivers(setWith({ set: plain }), 'x');
      expect(read[0]?.remarks.map(({ message }) => message)).toEqual([]);
      expect(read[0]?.unread).toEqual([]);
    },
  );

  it.each(statementHelp.map(({ word, snippet = word }) => [word, snippet]))(
    'the snippet of %s leaves no brace open',
    (_, snippet) => {
      const text = plainOf(snippet);
      expect(text.split('{').length).toBe(text.split('}').length);
      expect(text).not.toMatch(/[<>]/);
    },
  );
});

describe('snippets', () => {
  it('number what is filled in, the same words once', () => {
    const written = snippetOf('coil <L1> of <26 DCC> and <26 DCC> <>');
    expect(written).toBe(['coil $', '{1:L1} of $', '{2:26 DCC} and $2 $0'].join(''));
  });

  it('offer choices, and escape what would be a snippet’s own', () => {
    expect(snippetOf('<dry|storage> $5 }')).toBe('$'.concat('{1|dry,storage|} \\$5 \\}'));
    expect(plainOf('<dry|storage> <L1>')).toBe('dry L1');
  });
});
