import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readReceivers } from '../src/receivers.ts';
import { usedMemory } from '../src/uses.ts';
import { partOf } from './set.ts';

/** The files of a small collection by their paths. */
type Files = Readonly<Record<string, string>>;

/** Reads one file of a collection; what it uses is taken from the others. */
function readFrom(files: Files, file = 'sets/pier.receiver') {
  const asked: string[] = [];
  const used = (path: string) => {
    asked.push(path);
    const text = files[path];
    return text === undefined ? undefined : { text };
  };
  const read = readReceivers(files[file] ?? '', file, { used });
  const remarks = [...read.remarks, ...read.circuits.flatMap((circuit) => circuit.remarks)];
  return { ...read, asked, remarks };
}

const said = (files: Files, file?: string): string[] =>
  readFrom(files, file).remarks.map(
    ({ check, severity, message }) => `${check} ${severity}: ${message}`,
  );

const coils = `coil RF1 "antenna coupler" {
  form 3 in
  winding aerial 12 turns of 24 DCC
  winding grid 50 turns of 24 DCC beside aerial spaced 1/4 in
}
condenser BYPASS .5 mfd
transformer AF ratio 1 to 3.5 {
  winding primary 14 H 800 ohms
  winding secondary 5200 ohms
}
`;

const types = `tube type 77-Q {
  filament 5 V .25 A
  amplification 8
}
`;

const set = (...lines: string[]) => `use "../parts/coils.receiver"
use "../parts/types.receiver"
receiver "Pier Light" {
  battery A storage { tap A- 0 V tap A+ 6 V }
  post GND ground
  wire GND to A-
  ${lines.join('\n  ')}
}
`;

const whole = set(
  'coil L1 like RF1 {',
  '  winding aerial from GND',
  '  winding grid from GND',
  '}',
  'condenser C1 like BYPASS across L1.grid',
  'tube V1 77-Q { filament from A- to A+ }',
);

const collection: Files = {
  'sets/pier.receiver': whole,
  'parts/coils.receiver': coils,
  'parts/types.receiver': types,
};

describe('a set that uses files', () => {
  it('has the coils, condensers and tube types that stand there', () => {
    const { circuits, remarks } = readFrom(collection);
    expect(remarks).toEqual([]);
    const [circuit] = circuits;
    if (!circuit) throw new Error('no set');
    expect(partOf(circuit, 'L1').values.form?.value).toBeCloseTo(0.0762);
    expect(partOf(circuit, 'L1.grid').winding?.turns?.value).toBe(50);
    expect(partOf(circuit, 'L1.grid').winding?.form?.value).toBeCloseTo(0.0762);
    expect(partOf(circuit, 'C1').values.capacitance?.value).toBeCloseTo(0.5e-6);
    expect(partOf(circuit, 'V1').tubeType?.filamentVolts).toBe(5);
  });

  it('says of every value where it stands here, and where it is written', () => {
    const [circuit] = readFrom(collection).circuits;
    const place = circuit && partOf(circuit, 'C1').values.capacitance?.place;
    expect(whole.slice(place?.start, place?.end)).toBe('BYPASS');
    expect(place?.file).toBe('sets/pier.receiver');
    const { written } = place ?? {};
    expect(written?.file).toBe('parts/coils.receiver');
    expect(coils.slice(written?.start, written?.end)).toBe('.5 mfd');
  });

  it('has every place of its circuit in its own file but those of tube types', () => {
    const { circuits, mentions } = readFrom(collection);
    const elsewhere: unknown[] = [];
    const look = (value: unknown, key: string): void => {
      if (value === null || typeof value !== 'object' || key === 'tubeType' || key === 'written')
        return;
      if ('file' in value && 'start' in value && value.file !== 'sets/pier.receiver')
        elsewhere.push([key, value]);
      const entries = value instanceof Map ? value.entries() : Object.entries(value);
      for (const [name, inner] of entries) look(inner, String(name));
    };
    for (const circuit of circuits) look(circuit.parts, 'parts');
    look(
      mentions.map(({ place }) => place),
      'mentions',
    );
    expect(elsewhere).toEqual([]);
  });

  it('says again what the pattern says, and its own words count', () => {
    const text = set('coil L1 like RF1 {', '  form 2 in', '  winding grid 80 turns', '}');
    const [circuit] = readFrom({ ...collection, 'sets/pier.receiver': text }).circuits;
    if (!circuit) throw new Error('no set');
    expect(partOf(circuit, 'L1').values.form?.value).toBeCloseTo(0.0508);
    expect(partOf(circuit, 'L1.grid').winding?.turns?.value).toBe(80);
    expect(partOf(circuit, 'L1.grid').winding?.gauge?.number).toBe(24);
  });

  it('tells which files it asked for, those of used files too, found or not', () => {
    const files = { ...collection, 'parts/coils.receiver': `use "old/more.receiver"\n${coils}` };
    expect(readFrom(files).usedFiles).toEqual([
      { file: 'parts/coils.receiver', text: files['parts/coils.receiver'] },
      { file: 'parts/old/more.receiver', text: undefined },
      { file: 'parts/types.receiver', text: types },
    ]);
  });

  it('reads no file that it does not name', () => {
    expect(readFrom({ 'sets/pier.receiver': 'receiver "x" {\n}\n' }).asked).toEqual([]);
  });
});

describe('used files that use others', () => {
  it('hand on what they use', () => {
    const files = {
      'sets/pier.receiver': whole.replace('use "../parts/types.receiver"\n', ''),
      'parts/coils.receiver': `use "types.receiver"\n${coils}`,
      'parts/types.receiver': types,
    };
    expect(said(files)).toEqual([]);
  });

  it('are read once where two use the same, and that is no fault', () => {
    const files = {
      ...collection,
      'parts/coils.receiver': `use "types.receiver"\n${coils}`,
    };
    expect(said(files)).toEqual([
      'unused-use hint: Nothing of ../parts/types.receiver is used in this file.',
    ]);
  });

  it('make patterns like the patterns of others', () => {
    const files = {
      ...collection,
      'parts/coils.receiver':
        'use "base.receiver"\ncoil RF1 like BASE {\n  form 2 in\n}\ncondenser BYPASS .5 mfd\n',
      'parts/base.receiver': coils.replace('RF1', 'BASE').replace('BYPASS', 'C0'),
    };
    expect(said(files)).toEqual([]);
    const [circuit] = readFrom(files).circuits;
    if (!circuit) throw new Error('no set');
    const grid = partOf(circuit, 'L1.grid');
    expect(grid.winding?.turns?.value).toBe(50);
    expect(grid.winding?.turns?.place.written?.file).toBe('parts/base.receiver');
    expect(grid.winding?.form?.value).toBeCloseTo(0.0508);
  });

  it.each([
    ['itself', { 'parts/coils.receiver': `use "coils.receiver"\n${coils}` }, 'uses itself'],
    [
      'one another',
      {
        'parts/coils.receiver': `use "base.receiver"\n${coils}`,
        'parts/base.receiver': 'use "coils.receiver"\n',
      },
      'coils.receiver uses base.receiver uses coils.receiver',
    ],
    [
      'the set',
      { 'parts/coils.receiver': `use "../sets/pier.receiver"\n${coils}` },
      'this file uses coils.receiver uses this file',
    ],
  ])('in a circle are told of, once: %s', (_, files, words) => {
    const told = said({ ...collection, ...files });
    expect(told).toHaveLength(1);
    expect(told[0]).toContain('used-file error');
    expect(told[0]).toContain(words);
  });

  it('are told of where a link makes one file look like two', () => {
    const used = (file: string) => ({
      text: `use "again/coils.receiver"\n${coils}`,
      same: file.replace(/again\//g, ''),
    });
    const { circuits } = readReceivers(whole, 'sets/pier.receiver', { used });
    expect(circuits[0]?.remarks.map(({ message }) => message)).toContain(
      'coils.receiver uses itself.',
    );
  });

  it('are read once each, by however many ways they are used', () => {
    let asked = 0;
    const used = (file: string) => {
      asked += 1;
      const level = Number(/\d+/.exec(file)?.[0]) + 1;
      const lines =
        level > 12 ? [] : ['a', 'b', 'c', 'd'].map((each) => `use "${each}${level}.receiver"`);
      return { text: lines.join('\n') };
    };
    const { usedFiles } = readReceivers('use "a0.receiver"\n', 'x.receiver', { used });
    expect(usedFiles).toHaveLength(49);
    expect(asked).toBeLessThan(1000);
  });

  it('end somewhere, however deep and however many', () => {
    let next = 0;
    const used = () => {
      next += 1;
      return { text: `use "a${next}.receiver"\nuse "b${next}.receiver"\n` };
    };
    const { usedFiles } = readReceivers('use "a.receiver"\n', 'x.receiver', { used });
    expect(usedFiles.length).toBeLessThanOrEqual(200);
  });
});

describe('what is wrong in a used file', () => {
  it('is told at the line that uses it, and points there', () => {
    const bad = coils.replace('condenser BYPASS', 'condenzer BYPASS');
    const [first, ...more] = readFrom({ ...collection, 'parts/coils.receiver': bad }).remarks;
    expect(first?.message).toBe('../parts/coils.receiver has lines that cannot be read.');
    expect(whole.slice(first?.place.start, first?.place.end)).toBe('../parts/coils.receiver');
    expect(first?.related[0]?.place.file).toBe('parts/coils.receiver');
    expect(bad.slice(first?.related[0]?.place.start)).toMatch(/^condenzer/);
    // C1 is like a pattern that may stand on that line.
    expect(more).toEqual([]);
  });

  it('leaves every line of the set as it was', () => {
    const before = readFrom(collection).circuits[0]?.parts.map(({ name, kind }) => [name, kind]);
    for (const [at, line] of coils.split('\n').entries()) {
      const lines = coils.split('\n');
      lines[at] = `"${line}`;
      const { circuits } = readFrom({ ...collection, 'parts/coils.receiver': lines.join('\n') });
      const [circuit] = circuits;
      expect(circuit?.unread.every(({ file }) => file === 'sets/pier.receiver')).toBe(true);
      const names = circuit?.parts.map(({ name, kind }) => [name, kind]);
      expect(names?.filter(([, kind]) => kind !== 'winding')).toEqual(
        before?.filter(([, kind]) => kind !== 'winding'),
      );
    }
  });

  it('is a word where it can be read and is not right', () => {
    const files = { ...collection, 'parts/coils.receiver': coils.replace('.5 mfd', '.5') };
    const [found] = readFrom(files).remarks;
    expect(found?.message).toBe('../parts/coils.receiver has something wrong in it.');
    expect(found?.related[0]?.message).toContain('BYPASS');
  });

  it('is told there in full, and nowhere else, when the file itself is read', () => {
    const files = { 'parts/coils.receiver': coils.replace('.5 mfd', '.5') };
    expect(said(files, 'parts/coils.receiver')).toEqual([
      expect.stringMatching(/^missing-unit error: .*BYPASS/),
    ]);
  });
});

describe('names that are given more than once', () => {
  it('by two files alike are no fault, whatever the spaces', () => {
    const files = {
      ...collection,
      'parts/types.receiver': `${types}${coils.replace(/\n {2}/g, '\n      ')}`,
    };
    expect(said(files)).toEqual([]);
  });

  it.each([
    ['pattern', coils.replace('50 turns', '60 turns'), 'RF1'],
    ['tube type', '', '77-Q'],
  ])('by two files differently are told of: a %s', (noun, more, name) => {
    const files = {
      ...collection,
      'parts/coils.receiver': `${coils}${noun === 'tube type' ? types.replace('.25 A', '.06 A') : ''}`,
      'parts/types.receiver': `${types}${more}`,
    };
    expect(said(files)).toContainEqual(
      `duplicate-name error: The ${noun} ${name} is described in coils.receiver and again in types.receiver, and not alike.`,
    );
  });

  it('by the set itself are its own, with a note', () => {
    const own = `${types.replace('.25 A', '.06 A')}${whole}`;
    expect(said({ ...collection, 'sets/pier.receiver': own })).toEqual([
      'own-tube-type hint: This description of the 77-Q is used in place of the one of types.receiver.',
      'unused-use hint: Nothing of ../parts/types.receiver is used in this file.',
    ]);
  });

  it('by a used file and the library are those of the used file, with a note', () => {
    const files = {
      'sets/pier.receiver': whole.replace('77-Q', '01-A'),
      'parts/coils.receiver': coils,
      'parts/types.receiver': types.replace('77-Q', '01-A'),
    };
    expect(said(files)).toEqual([
      'own-tube-type hint: What ../parts/types.receiver says of the 01-A is used in place of what the library says.',
    ]);
  });
});

describe('patterns', () => {
  it('may stand in the file of the sets', () => {
    expect(said({ 'sets/pier.receiver': coils + types + whole.replace(/^use.*\n/gm, '') })).toEqual(
      [],
    );
  });

  it('go nowhere themselves', () => {
    const files = { 'sets/pier.receiver': 'condenser C1 .5 mfd from A- to GND\n' };
    expect(said(files)).toEqual([
      'unknown-word error: C1 stands outside any receiver, so its ends go nowhere.',
      'unknown-word error: C1 stands outside any receiver, so its ends go nowhere.',
    ]);
  });

  it('are no parts of the set: a join to one is told of, with what to do', () => {
    const found = readFrom({
      ...collection,
      'sets/pier.receiver': whole.replace('across L1.grid', 'across RF1.grid'),
    }).remarks.find(({ check }) => check === 'unknown-name');
    expect(found?.cure).toContain('"like RF1"');
  });

  it('have the nearest name offered', () => {
    const text = whole.replace('like BYPASS', 'like BYPAS');
    const found = readFrom({ ...collection, 'sets/pier.receiver': text }).remarks[0];
    expect(found?.fixes.map(({ title }) => title)).toEqual(['Change to BYPASS']);
  });
});

describe('a path', () => {
  // What begins with one letter and a colon is on a drive.
  const files = [
    'sets/pier.receiver',
    '/sets/pier.receiver',
    'C:/sets/pier.receiver',
    'a:%',
    '<stdin>',
  ];
  const addresses = ['file:///sets/pier.receiver', 'untitled:Untitled-1', 'memfs:/x'];

  it('of any signs is read without a slip, and asks for sets alone', () => {
    const unit = fc.oneof(
      fc.string({ unit: 'binary' }),
      fc.string({ unit: fc.constantFrom('.', '/', '\\', 'a', ' ', '%', '#', '\ud800', '~', ':') }),
    );
    fc.assert(
      fc.property(unit, fc.constantFrom(...files, ...addresses), (path, file) => {
        const used = (asked: string) => {
          expect(asked).toMatch(/\.receiver$/);
          if (addresses.includes(file)) expect(asked).not.toMatch(/\/\.\.\/|[?#\\]/);
          return undefined;
        };
        readReceivers(`use "${path}"\nuse "${path}.receiver"\n`, file, { used });
      }),
    );
  });

  it.each([
    ['sets/pier.receiver', '../parts/coils.receiver', 'parts/coils.receiver'],
    ['pier.receiver', '../parts/coils.receiver', '../parts/coils.receiver'],
    ['../pier.receiver', '../coils.receiver', '../../coils.receiver'],
    ['/pier.receiver', '../../coils.receiver', '/coils.receiver'],
    ['C:/sets/pier.receiver', './old//coils.receiver', 'C:/sets/old/coils.receiver'],
    ['<stdin>', 'parts/coils.receiver', 'parts/coils.receiver'],
    ['file:///a%20b/pier.receiver', 'my coils.receiver', 'file:///a%20b/my%20coils.receiver'],
    ['vscode-vfs://host/sets/pier.receiver', '../a#b.receiver', 'vscode-vfs://host/a%23b.receiver'],
    ['untitled:Untitled-1', 'coils.receiver', undefined],
    ['file:///pier.receiver', '../coils.receiver', undefined],
  ])('is seen from the file that names it: from %s %s is %s', (file, path, meant) => {
    const [only] = readReceivers(`use "${path}"\n`, file).uses;
    expect(only?.file).toBe(meant);
  });
});

describe('a memory of used files', () => {
  it('gives the same tube types again until the text changes', () => {
    const memory = usedMemory();
    const typeOf = (files: Files) => {
      const used = (file: string) => ({ text: files[file] ?? '' });
      const { circuits } = readReceivers(whole, 'sets/pier.receiver', { used, memory });
      return circuits[0]?.partNamed.get('V1')?.tubeType;
    };
    const first = typeOf(collection);
    expect(typeOf(collection)).toBe(first);
    const changed = { ...collection, 'parts/types.receiver': types.replace('.25 A', '.06 A') };
    expect(typeOf(changed)?.filamentAmperes).toBe(0.06);
  });

  it('notices a change in a file that a used file uses', () => {
    const memory = usedMemory();
    const turnsOf = (turns: string) => {
      const files: Files = {
        'parts/coils.receiver': 'use "base.receiver"\ncondenser BYPASS .5 mfd\n',
        'parts/base.receiver': coils
          .replace('50 turns', turns)
          .replace('condenser BYPASS .5 mfd\n', ''),
        'parts/types.receiver': types,
      };
      const used = (file: string) => ({ text: files[file] ?? '' });
      const { circuits } = readReceivers(whole, 'sets/pier.receiver', { used, memory });
      return circuits[0]?.partNamed.get('L1.grid')?.winding?.turns?.value;
    };
    expect(turnsOf('50 turns')).toBe(50);
    expect(turnsOf('51 turns')).toBe(51);
  });
});
