import { describe, expect, it } from 'vitest';
import { type DocumentSymbol, SymbolKind } from 'vscode-languageserver-protocol';
import { foldingRanges } from '../../src/features/folding.ts';
import { selectionRanges } from '../../src/features/selection-ranges.ts';
import { documentSymbols, findableIn, workspaceSymbols } from '../../src/features/symbols.ts';
import { exampleNames, exampleText, marked, read, setWith, wordsAt } from '../support.ts';

const tree = (symbols: readonly DocumentSymbol[]): unknown =>
  symbols.map(({ name, children }) => (children ? [name, tree(children)] : name));

describe('the outline of a text', () => {
  it('holds receivers, stages, parts, windings and taps as they stand in one another', () => {
    expect(tree(documentSymbols(read(setWith())))).toEqual([
      [
        'Lantern Cove Punt',
        [
          ['A', ['A-', 'A+']],
          ['B', ['B-', 'B+45']],
          'ANT',
          'GND',
          'RH1',
          ['DET', [['L1', ['aerial', 'grid']], 'C1', 'C2', 'R1', 'V1', 'PH1', 'C3']],
          'D1',
        ],
      ],
    ]);
  });

  it('holds benches, supposes and tube types', () => {
    const text = `${setWith({ set: 'bench "b1" {\n}\nsuppose "s1" {\n}' })}tube type 09 {\n}\n`;
    const all = JSON.stringify(tree(documentSymbols(read(text))));
    for (const name of ['b1', 's1', '09']) expect(all).toContain(`"${name}"`);
  });

  it.each(exampleNames('sound'))('%s: every name stands within its statement', (name) => {
    const snapshot = read(exampleText(name));
    const check = (
      { range, selectionRange, children = [] }: DocumentSymbol,
      outer: number,
    ): void => {
      const [start, end] = [snapshot.offset(range.start), snapshot.offset(range.end)];
      expect(snapshot.offset(selectionRange.start)).toBeGreaterThanOrEqual(start);
      expect(snapshot.offset(selectionRange.end)).toBeLessThanOrEqual(end);
      expect(end).toBeLessThanOrEqual(outer);
      for (const child of children) check(child, end);
    };
    const symbols = documentSymbols(snapshot);
    expect(symbols).toHaveLength(1);
    for (const symbol of symbols) check(symbol, snapshot.text.length);
  });
});

describe('symbols of the workspace', () => {
  const found = (query: string) =>
    workspaceSymbols(findableIn(read(setWith())), query).map(({ name, containerName }) => [
      name,
      containerName,
    ]);

  it('are found by letters of their names in order', () => {
    expect(found('l1grid')).toEqual([['L1.grid', 'Lantern Cove Punt, DET, L1']]);
  });

  it('are found by what they are', () => {
    expect(found('rheostat')).toEqual([['RH1', 'Lantern Cove Punt']]);
  });

  it('of no letters are all', () => {
    const kinds = workspaceSymbols(findableIn(read(setWith())), '').map(({ kind }) => kind);
    expect(kinds).toContain(SymbolKind.Module);
    expect(kinds.length).toBeGreaterThan(15);
  });
});

describe('folding', () => {
  const folds = (text: string) =>
    foldingRanges(read(text)).map(({ startLine, endLine, kind }) => [startLine, endLine, kind]);

  it('folds blocks so that their closing brace stays in sight', () => {
    expect(folds('receiver "x" {\n  coil L1 {\n    form 3 in\n  }\n}\n')).toEqual([
      [0, 3, undefined],
      [1, 2, undefined],
    ]);
  });

  it('folds comments that go over several lines', () => {
    expect(folds('// one\n// two\n\n// alone\n/* a\n b */\n')).toEqual([
      [0, 1, 'comment'],
      [4, 5, 'comment'],
    ]);
  });

  it('does not fold a block on one line', () => {
    expect(folds('receiver "x" { }\n')).toEqual([]);
  });

  it('folds what is closed by its indentation alone', () => {
    expect(folds('receiver "x" {\n  coil L1 {\n    form 3 in\n  bus NEG\n}\n')).toContainEqual([
      0,
      3,
      undefined,
    ]);
  });
});

describe('a selection', () => {
  /** What the selection grows to, step by step. */
  const grown = (text: string): string[] => {
    const { snapshot, position } = marked(text);
    const steps: string[] = [];
    for (let at = selectionRanges(snapshot, [position])[0]; at; at = at.parent)
      steps.push(wordsAt(snapshot, at.range));
    return steps;
  };

  it('grows from a word to its name, its statement, and the blocks around', () => {
    const text = 'receiver "x" {\n  leak R1 2 meg from V1.gr<|>id\n}';
    expect(
      grown(text.replace('V1.gr<|>id', 'C1.fin<|>ish').replace('{\n', '{\n  condenser C1 1 mfd\n')),
    ).toEqual([
      'finish',
      'C1.finish',
      'leak R1 2 meg from C1.finish',
      '\n  condenser C1 1 mfd\n  leak R1 2 meg from C1.finish\n',
      'receiver "x" {\n  condenser C1 1 mfd\n  leak R1 2 meg from C1.finish\n}',
    ]);
  });

  it('grows from within a title to its marks', () => {
    expect(grown('receiver "My <|>set" {\n}').slice(0, 3)).toEqual([
      'My set',
      '"My set"',
      'receiver "My set"',
    ]);
  });
});
