import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { folderWith, runIn, sound } from './support.ts';

const examples = new URL('../../../examples/', import.meta.url);
const example = (name: string) => readFileSync(new URL(`${name}.receiver`, examples), 'utf8');

const benchOf = (text: string, ...more: string[]) =>
  runIn(folderWith({ 'set.receiver': text }), ['bench', 'set.receiver', ...more]);

interface Row {
  readonly at: string;
  readonly to: string | null;
  readonly quantity: string;
  readonly expected: number | 'open' | null;
  readonly low: number | 'open' | null;
  readonly high: number | 'open' | null;
  readonly unit: string;
  readonly read: number | 'open' | null;
}
const rowsOf = (text: string, ...more: string[]): readonly Row[] =>
  JSON.parse(benchOf(text, '--format', 'json', ...more).out).readings;
const rowAt = (rows: readonly Row[], at: string, quantity: string): Row | undefined =>
  rows.find((row) => row.at === at && row.quantity === quantity);

/** The little set with two benches: one by an old meter, and one whose figures are off. */
const metered = sound.replace(
  /\}\n$/,
  `  bench "old meter" {
    meter 100 ohms per volt 2 %
    reading V1.plate 40 V on 50 V
  }
  bench "trouble" {
    reading V1.plate 0 V
    reading A+ 9 V
    reading P1 2000 ohms lifted
  }
}
`,
);

describe('the readings to expect', () => {
  it('are told with where to put the probes, a value, a band and a unit', () => {
    const row = rowAt(rowsOf(sound), 'V1.plate', 'voltage');
    expect(row).toMatchObject({ to: 'V1.filament-', unit: 'V', read: null });
    const { low, expected, high } = row ?? {};
    expect(Number(low)).toBeLessThan(Number(expected));
    expect(Number(expected)).toBeLessThan(Number(high));
  });

  it('are of volts, of currents and of ohms', () => {
    const quantities = new Set(rowsOf(sound).map(({ quantity }) => quantity));
    expect([...quantities].sort()).toEqual(['current', 'resistance', 'voltage']);
  });

  it('are open where no current has a way', () => {
    const rows = rowsOf(example('five-tube-trf'));
    expect(rows.find(({ at, to }) => at === 'B+90' && to === 'A-')).toMatchObject({
      expected: 'open',
      high: 'open',
      low: expect.any(Number),
    });
  });

  it('are lower by a meter that draws more', () => {
    const volts = (name: string) =>
      Number(rowAt(rowsOf(metered, '--bench', name), 'V1.plate', 'voltage')?.expected);
    expect(volts('old meter')).toBeLessThan(volts('trouble') - 1);
  });

  it('come with the caution where the volts of B are measured, and without where not', () => {
    const words = 'The volts of B can hurt';
    expect(benchOf(sound).out).toContain(words);
    expect(JSON.parse(benchOf(sound, '--format', 'json').out).cautions[0]).toContain(words);
    expect(benchOf(sound, '--format', 'markdown').out).toContain(words);
    expect(benchOf(example('crystal')).out).not.toContain(words);
  });

  it('name the unit of the age, or those of today', () => {
    const old = benchOf(example('one-tube-regenerative')).out;
    const now = benchOf(example('one-tube-regenerative'), '--units', 'si').out;
    expect(old).toMatch(/\d megohm/);
    expect(now).toMatch(/\d MΩ/);
  });
});

describe('what was read', () => {
  it('stands beside what is expected, and what lies outside is marked', () => {
    const { out } = benchOf(metered, '--bench', 'trouble');
    expect(out).toMatch(/V1\.plate +0 V .*TOO LOW/);
    expect(out).toMatch(/A\+ +9 V .*TOO HIGH/);
    expect(out).toMatch(/P1 +2000 ohms .*as expected/);
  });

  it('is of the first bench where none is named', () => {
    expect(rowAt(rowsOf(metered), 'V1.plate', 'voltage')?.read).toBe(40);
  });

  it('across a part is held against volts without a sign', () => {
    const across = metered.replace('reading A+ 9 V', 'reading P1 3 V');
    const row = rowsOf(across, '--bench', 'trouble').find(({ read }) => read === 3);
    expect(Number(row?.expected)).toBeGreaterThan(0.1);
  });

  it('is in the table of Markdown and in the line of CSV', () => {
    const markdown = benchOf(metered, '--bench', 'trouble', '--format', 'markdown').out;
    expect(markdown).toMatch(/^\| V1\.plate \| 0 V \|.*TOO LOW \|$/m);
    const [heading, ...lines] = benchOf(metered, '--bench', 'trouble', '--format', 'csv')
      .out.trimEnd()
      .split('\n');
    const columns = heading?.split(',') ?? [];
    const plate = lines.find((line) => line.includes('V1.plate'))?.split(',') ?? [];
    expect(plate[columns.indexOf('read')]).toBe('0');
  });
});

describe('a call that cannot be answered', () => {
  it('names the benches that there are', () => {
    const { code, out, err } = benchOf(metered, '--bench', 'other');
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain('There is no bench called "other" in this file.');
    expect(err).toContain('"old meter" and "trouble"');
  });

  it('says so where there is no receiver', () => {
    expect(benchOf('').code).toBe(2);
  });
});
