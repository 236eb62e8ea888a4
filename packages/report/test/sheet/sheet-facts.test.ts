import { checkCircuit } from '@setwright/checks';
import { describe, expect, it } from 'vitest';
import { randomReceiver } from '../../../../test/support/random-receiver.ts';
import { numbersIn } from '../../src/sheet/cells.ts';
import type { Sheet } from '../../src/sheet/sheet.ts';
import { examples, setOf, textOf } from '../tour/sets.ts';
import { exampleSheet, rowsOf, section, sheetFor, sheetIn, wordsOf } from './sheets.ts';
import { askedAgain, sheetWitness } from './witness.ts';

/** Every kind of section is in one of these. */
const proved = ['five-tube-trf', 'superheterodyne', 'reflex', 'crystal', 'bare-wiring'];

/** Some of every sort: whole sets, unfinished ones, parts joined anyhow. */
const byChance = [
  ['sane', 3],
  ['sane', 11],
  ['unfinished', 5],
  ['wild', 2],
  ['wild', 8],
] as const;

/** Numbers of a sheet that the engine, asked afresh, does not confirm. */
function wrongIn(sheet: Sheet): readonly string[] {
  const witness = sheetWitness(sheet.circuit);
  return sheet.sections
    .flatMap(({ blocks }) => numbersIn(blocks))
    .flatMap((number) => {
      const engine = askedAgain(witness, number);
      // A size is told without its sign where words tell which way.
      const isSame =
        engine !== undefined &&
        (engine === number.value ||
          Math.abs(Math.abs(engine) - Math.abs(number.value)) <= 1e-9 * Math.abs(engine));
      return isSame
        ? []
        : [`${number.text}: ${engine} and not ${number.value}, ${JSON.stringify(number.source)}`];
    });
}

describe('the numbers of a sheet', () => {
  it.each(proved)('are those of the engine, asked afresh: %s', (example) => {
    const sheet = exampleSheet(example);
    expect(sheet.sections.flatMap(({ blocks }) => numbersIn(blocks)).length).toBeGreaterThan(20);
    expect(wrongIn(sheet)).toEqual([]);
  });

  it.each(examples)('stand in their cells, and no amount is without one: %s', (example) => {
    const sheet = exampleSheet(example);
    const naked: string[] = [];
    for (const { id, blocks } of sheet.sections)
      for (const block of blocks) {
        if (block.kind !== 'table') continue;
        const { columns, rows } = block.table;
        for (const row of rows)
          for (const [at, cell] of row.entries()) {
            for (const { text } of cell.numbers) expect(cell.text).toContain(text);
            const isFigure = columns[at]?.kind === 'amount' && /\d/.test(cell.text);
            if (
              isFigure &&
              cell.numbers.length === 0 &&
              !isName(columns[at]?.words ?? '', cell.text)
            )
              naked.push(`${id}, ${columns[at]?.words}: ${cell.text}`);
          }
      }
    expect(naked).toEqual([]);
  });
});

/** Types, waves, ranges and wire are told as the text has them, and are no figures of the engine. */
function isName(column: string, text: string): boolean {
  return (
    ['type', 'base', 'wave', 'wire', 'verdict'].includes(column) ||
    / to /.test(text) ||
    /^(?:set |of )/.test(text)
  );
}

describe('a sheet of any set', () => {
  it.each(byChance)(
    'lists its parts and gives no number that the engine does not: %s %i',
    (mode, seed) => {
      const circuit = setOf(randomReceiver(seed, { mode }));
      const sheet = sheetFor(circuit);
      const listed = new Set(rowsOf(section(sheet, 'parts')).map(([name]) => name?.text));
      expect(circuit.parts.filter(({ name }) => !listed.has(name))).toEqual([]);
      expect(wrongIn(sheet)).toEqual([]);
    },
    20_000,
  );
});

describe('a sheet', () => {
  it.each(examples)('lists every part of the set: %s', (example) => {
    const sheet = exampleSheet(example);
    const { circuit } = sheet;
    const listed = new Set(rowsOf(section(sheet, 'parts')).map(([name]) => name?.text));
    expect(circuit.parts.map(({ name }) => name).filter((name) => !listed.has(name))).toEqual([]);
  });

  it.each(examples)('tells every finding that is open: %s', (example) => {
    const sheet = exampleSheet(example);
    const { findings } = checkCircuit(sheet.circuit);
    const rows = rowsOf(section(sheet, 'findings'));
    expect(rows.map((row) => row[1]?.text).sort()).toEqual(
      findings.map(({ message }) => message).sort(),
    );
  });

  it('is the same for the same text, to the letter', () => {
    const { circuit: _, ...one } = sheetIn(textOf('reflex'));
    const { circuit: __, ...other } = sheetIn(textOf('reflex'));
    expect(JSON.stringify(one)).toBe(JSON.stringify(other));
  });

  it('has no date but the one that it is given', () => {
    const dated = (date?: string) =>
      sheetIn(textOf('crystal'), { date }).facts.find(({ term }) => term === 'Date')?.cell?.text;
    expect([dated(), dated('12 May 1926')]).toEqual([undefined, '12 May 1926']);
  });

  it('calls a set what its wiring makes it', () => {
    const kind = (example: string) =>
      exampleSheet(example).facts.find(({ term }) => term === 'Kind')?.cell?.text;
    expect(['crystal', 'reflex', 'superheterodyne', 'bare-wiring'].map(kind)).toEqual([
      'Crystal set',
      'Reflex set',
      'Superheterodyne',
      'Regenerative set with two audio stages',
    ]);
  });
});

describe('what is not known', () => {
  it('is told as not known and never as nothing', () => {
    const sheet = exampleSheet('bare-wiring');
    const [c2] = rowsOf(section(sheet, 'parts')).filter(([name]) => name?.text === 'C2');
    expect(c2?.map(({ text }) => text)).toEqual([
      'C2',
      'condenser',
      'not known',
      '1.2 V',
      'measure it first: C2 has no value',
    ]);
    expect(wordsOf(section(sheet, 'coils'))).toBe(
      'Not known: how L1.aerial, L1.grid and L1.tickler are made.',
    );
  });

  it('is listed with the fact that would give it', () => {
    const rows = rowsOf(section(exampleSheet('bare-wiring'), 'unknown'));
    const told = rows.map(([fact, gives]) => `${fact?.text}: ${gives?.text}`);
    expect(told).toContain('the capacity of B, as in: capacity 5 Ah: hours of service of B');
    expect(told.join('\n')).toMatch(
      /the turns of L1\.grid; the wire of L1\.grid.*: inductance.* of L1\.grid/,
    );
  });

  it('leaves open what nobody hears where no signal can be followed', () => {
    const rows = rowsOf(section(exampleSheet('bare-wiring'), 'faults'));
    const pigtail = rows.find(([what]) => what?.text.startsWith('the pigtail'));
    expect(pigtail?.[1]?.text).toBe('not known');
  });

  it('says which ohms a chart was reckoned with that the text does not say', () => {
    expect(wordsOf(section(exampleSheet('bare-wiring'), 'bench'))).toMatch(
      /Not said by the text, and taken as usual: .*1000 ohms for T1\.primary/,
    );
  });

  it('leaves out what a set cannot have: a crystal set has no supplies and is not switched on', () => {
    const ids = exampleSheet('crystal').sections.map(({ id }) => id);
    expect(ids).not.toContain('supplies');
    expect(ids).not.toContain('handling');
    expect(ids).toEqual(expect.arrayContaining(['cautions', 'coils', 'dials', 'bench', 'work']));
  });
});

const small = (lines: string) => `receiver "Small" {
  battery A storage { tap A- 0 V tap A+ 6 V }
  battery B dry { tap B- tap B+45 45 V }
  wire A- to B-
  rheostat RH1 10 ohms from A- to V1.filament- set 4 ohms
  tube V1 01-A { filament to A+ plate to P1.start }
  leak R1 2 meg from V1.grid to A+
  phones P1 2000 ohms to B+45
  ${lines}
}`;

describe('cautions', () => {
  it('begin with what costs tubes, in the words of its finding', () => {
    const sheet = sheetIn(small('wire B+45 to V1.filament+'));
    const [error] = rowsOf(section(sheet, 'findings'));
    expect(error?.[0]?.text).toBe('error');
    expect(wordsOf(section(sheet, 'cautions'))).toMatch(
      /^Do not switch it on before this is settled: /,
    );
    expect(wordsOf(section(sheet, 'cautions'))).toContain(error?.[1]?.text);
  });

  it('tell that a switch leaves B on', () => {
    expect(wordsOf(section(exampleSheet('five-tube-trf'), 'cautions'))).toContain(
      'S1 (battery switch) does not take it off',
    );
  });
});

describe('what was found and what is meant', () => {
  it('stands beside what a part should be', () => {
    const rows = rowsOf(
      section(
        sheetIn(
          small(`condenser C1 .006 mfd 200 V from V1.plate to A- found .004 mfd
  condenser C2 1 mfd from B+45 to A- found open`),
        ),
        'parts',
      ),
    );
    const found = new Map(rows.map((row) => [row[0]?.text, row.map(({ text }) => text)]));
    expect(found.get('C1')).toEqual(expect.arrayContaining(['.006 mfd', '200 V', '.004 mfd']));
    expect(found.get('C2')).toContain('open');
  });

  it('prints every waiver with its reason', () => {
    const sheet = sheetIn(small('meant filament-over-voltage "the rheostat has a stop at 4 ohms"'));
    expect(wordsOf(section(sheet, 'meant'))).toContain('the rheostat has a stop at 4 ohms');
    expect(wordsOf(section(sheet, 'findings'))).not.toContain('filament-over-voltage');
  });

  it('prints the notes word by word', () => {
    expect(wordsOf(section(sheetIn(small('note "Cable renewed."')), 'notes'))).toBe(
      'Cable renewed.',
    );
  });
});

describe('what to look for in place of a part', () => {
  const replacing = (lines: string, name: string): string => {
    const rows = rowsOf(section(sheetIn(small(lines)), 'parts'));
    return rows.find(([first]) => first?.text === name)?.at(-1)?.text ?? '';
  };

  it('is the nearest value of today, rated for twice what the part bears', () => {
    expect(replacing('condenser C1 .5 mfd from B+45 to A-', 'C1')).toBe(
      'film, 470 nF, 100 V or more',
    );
    expect(replacing('condenser C1 .5 mfd 400 V from B+45 to A-', 'C1')).toBe(
      'film, 470 nF, 400 V or more',
    );
    expect(replacing('resistor R9 3 kilohms from B+45 to A-', 'R9')).toBe('metal film, 3 kΩ, 2 W');
  });

  it('tells mica from paper, as the part says or by its size', () => {
    expect(replacing('condenser C1 .00025 mfd from V1.plate to A-', 'C1')).toMatch(
      /^silver mica, 240 pF/,
    );
    expect(replacing('condenser C1 paper .00025 mfd from V1.plate to A-', 'C1')).toMatch(
      /^film, 270 pF/,
    );
  });

  it('of a part without a value is to measure it', () => {
    expect(replacing('condenser C1 from V1.plate to A-', 'C1')).toBe(
      'measure it first: C1 has no value',
    );
  });
});
