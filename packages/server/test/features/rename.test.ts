import { describe, expect, it } from 'vitest';
import { renamableAt, renameAt, renameRange } from '../../src/features/rename.ts';
import {
  after,
  exampleNames,
  exampleText,
  marked,
  read,
  setWith,
  uri,
  wordsAt,
} from '../support.ts';

const rename = (text: string, name: string): string => {
  const { snapshot, position } = marked(text);
  const renamed = renameAt(snapshot, position, name);
  return renamed.ok ? after(snapshot, renamed.edit.changes?.[uri] ?? []) : `no: ${renamed.why}`;
};

describe('rename', () => {
  it('changes every place that names the part', () => {
    expect(rename(setWith().replace('tube V1', 'tube V<|>1'), 'DET1')).toBe(
      setWith().replaceAll('V1', 'DET1'),
    );
  });

  it('changes a coil in the names of its windings', () => {
    expect(rename(setWith().replace('coil L1', 'coil L<|>1'), 'L9')).toBe(
      setWith().replaceAll('L1', 'L9'),
    );
  });

  it('changes a winding within its coil and without', () => {
    const text = rename(setWith().replace('winding grid', 'winding gr<|>id'), 'secondary');
    expect(text).toBe(
      setWith().replace('winding grid', 'winding secondary').replaceAll('L1.grid', 'L1.secondary'),
    );
  });

  it('changes a tap', () => {
    const text = rename(setWith().replace('tap B+45', 'tap B+<|>45'), 'DETECTOR+');
    expect(text).toBe(setWith().replaceAll('B+45', 'DETECTOR+'));
  });

  it('changes a title between its marks', () => {
    expect(rename(setWith().replace('Lantern Cove', 'Lan<|>tern Cove'), 'Harbour Light')).toBe(
      setWith().replace('Lantern Cove Punt', 'Harbour Light'),
    );
  });

  it('changes a tube type of one’s own', () => {
    const text = `${setWith().replace('V1 01-A', 'V1 0<|>9')}tube type 09 { filament 5 V .25 A }\n`;
    expect(rename(text, '19')).toBe(text.replace('<|>', '').replaceAll('09', '19'));
  });

  it.each([
    ['a name that is taken', 'tube V<|>1', 'C1', /There is a C1/],
    ['what is no name', 'tube V<|>1', 'V 1', /no longer mean the same/],
    ['a word of the language that cannot be a name', 'tube V<|>1', 'from', /no longer mean/],
    ['a tube type of the library', '01<|>-A', '02-A', /tube type of the library/],
    ['a terminal', 'V1.pl<|>ate', 'anode', /is a terminal/],
    ['a tap whose name says its volts', 'tap B<|>- ', 'X', /./],
    ['where nothing is named', 'tun<|>es', 'x', /Nothing with a name/],
    ['nothing at all', 'tube V<|>1', '', /no longer mean the same/],
  ])('%s is refused', (_, at, name, why) => {
    const words = at.replace('<|>', '').trim();
    const text = setWith().replace('tap B-\n', 'tap B- \n');
    expect(rename(text.replace(words, at.trim()), name)).toMatch(
      new RegExp(`^no: .*(?:${why.source})`),
    );
  });

  it('a letter stamped on a winding keeps its name', () => {
    const set =
      'transformer T1 ratio 1 to 3 {\n winding pri<|>mary 14 H\n winding secondary 5000 ohms\n}\n  wire T1.P to A+';
    expect(rename(setWith({ set }), 'first')).toMatch(/^no: The letter P is stamped/);
  });

  it('offers the name as it stands', () => {
    const { snapshot, position } = marked(setWith().replace('to L1.grid', 'to L1.gr<|>id'));
    const renamable = renamableAt(snapshot, position);
    if (!renamable.ok) throw new Error(renamable.why);
    const { range, placeholder } = renameRange(snapshot, renamable);
    expect([wordsAt(snapshot, range), placeholder]).toEqual(['grid', 'grid']);
  });
});

describe('rename and back', () => {
  it.each(exampleNames('sound'))('%s: is the text as it was', (name) => {
    const text = exampleText(name);
    const snapshot = read(text);
    const declared = snapshot.names.occurrences.filter(({ isDeclaration }) => isDeclaration);
    // A few of each kind: all of them would take long.
    const tried = declared.filter((_, index) => index % 11 === 0);
    let renamed = 0;
    for (const { start, named } of tried) {
      const there = renameAt(snapshot, snapshot.position(start + 1), 'Zz9');
      if (!there.ok) continue;
      renamed += 1;
      const other = read(after(snapshot, there.edit.changes?.[uri] ?? []));
      expect(other.text).not.toBe(text);
      const last = named.name.slice(named.name.lastIndexOf('.') + 1);
      const own = named.kind === 'tap' ? named.name.slice(named.name.indexOf('.') + 1) : last;
      const at = other.text.indexOf('Zz9');
      const back = renameAt(
        other,
        other.position(at),
        named.kind === 'receiver' ? named.name : own,
      );
      expect(back.ok ? after(other, back.edit.changes?.[uri] ?? []) : back.why).toBe(text);
    }
    expect(renamed).toBeGreaterThan(1);
  });
});
