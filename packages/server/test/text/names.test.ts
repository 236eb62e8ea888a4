import { describe, expect, it } from 'vitest';
import { exampleNames, exampleText, marked, read, setWith } from '../support.ts';

const at = (text: string): string => {
  const { snapshot, offset } = marked(text);
  const found = snapshot.names.at(offset);
  return found ? `${found.named.kind} ${found.named.name}` : 'nothing';
};

describe('what a word names', () => {
  it('a dotted name is a coil, a winding and a terminal', () => {
    expect(at(setWith().replace('stator to L1.', 'stator to <|>L1.'))).toBe('part L1');
    expect(at(setWith().replace('to L1.grid.finish', 'to L1.gr<|>id.finish'))).toBe('part L1.grid');
    expect(at(setWith().replace('to L1.grid.finish', 'to L1.grid.fi<|>nish'))).toBe(
      'terminal L1.grid.finish',
    );
  });

  it('a winding goes by its own name within its coil', () => {
    expect(at(setWith().replace('beside aerial', 'beside ae<|>rial'))).toBe('part L1.aerial');
  });

  it('a tap goes by its own name', () => {
    expect(at(setWith().replace('to B+45', 'to B<|>+45'))).toBe('tap B.B+45');
  });

  it('a minus sign as it is printed is a hyphen', () => {
    const text = setWith().replace('wire B- to A-', 'wire B- to A\u2212<|>');
    expect(at(text)).toBe('tap A.A-');
  });

  it('a tube type, a dial and a gang', () => {
    expect(at(setWith().replace('V1 01-A', 'V1 01<|>-A'))).toBe('type 01-A');
    expect(at(setWith().replace('dial D1', 'dial D<|>1'))).toBe('dial D1');
    const ganged = 'gang G1 C1\n  dial D2 0 to 100 drives G<|>1';
    expect(at(setWith({ set: ganged }))).toBe('gang G1');
  });

  it('nothing at a word that names nothing', () => {
    expect(at(setWith().replace('tunes', 'tu<|>nes'))).toBe('nothing');
  });

  it('the letters stamped on a transformer are ends of its windings', () => {
    const set =
      'transformer T1 ratio 1 to 3 {\n winding primary 14 H\n winding secondary 5000 ohms\n}';
    expect(at(setWith({ set: `${set}\n  wire T1.<|>P to A+` }))).toBe('terminal T1.primary.start');
  });
});

describe('the words of a part that another is made like', () => {
  const text = setWith({
    set: 'coil L2 like L1 {\n winding aerial from GND to ANT\n winding grid from GND\n}',
  });

  it('name what they name for the part that they stand in', () => {
    expect(at(text.replace('beside aerial', 'beside aer<|>ial'))).toBe('part L1.aerial');
  });
});

describe('names of whole texts', () => {
  it.each(exampleNames('sound'))('%s: every name of a part or tap is known', (name) => {
    const snapshot = read(exampleText(name));
    const { occurrences } = snapshot.names;
    const covered = (offset: number) =>
      occurrences.some(({ start, end }) => start <= offset && offset < end);
    const declared = new Set(
      snapshot.file.circuits.flatMap(({ parts }) => parts.map((part) => part.name)),
    );
    // Units such as V and H are names of parts in some sets.
    const named = snapshot.items.filter(
      ({ image, kind }, index) =>
        kind === 'token' && declared.has(image) && !snapshot.items[index - 1]?.isNumber,
    );
    expect(named.filter(({ start }) => !covered(start)).map(({ image }) => image)).toEqual([]);
  });

  it('two receivers keep their names apart', () => {
    const text = `${setWith()}${setWith()}`;
    const snapshot = read(text);
    const first = snapshot.names.find(0, 'part', 'V1');
    const second = snapshot.names.find(1, 'part', 'V1');
    expect(first && snapshot.names.of(first)).toHaveLength(5);
    expect(second && snapshot.names.of(second)).toHaveLength(5);
    expect(first).not.toBe(second);
  });
});
