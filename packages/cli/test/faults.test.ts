import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { folderWith, runIn, sound } from './support.ts';

const examples = new URL('../../../examples/', import.meta.url);
const example = (name: string) => readFileSync(new URL(`${name}.receiver`, examples), 'utf8');

const faultsOf = (text: string, ...more: string[]) =>
  runIn(folderWith({ 'set.receiver': text }), ['faults', 'set.receiver', ...more]);

interface Row {
  readonly part: string;
  readonly fault: string;
  readonly prior: string | null;
  readonly heard: readonly string[];
  readonly radio: number | 'nothing' | null;
  readonly audio: number | 'nothing' | null;
  readonly seen: boolean;
  readonly changes: readonly { readonly at: string; readonly expected: number | 'open' }[];
}
const rowsOf = (text: string, ...more: string[]): readonly Row[] =>
  JSON.parse(faultsOf(text, '--format', 'json', ...more).out).faults;
const oneTube = example('one-tube-regenerative');

describe('what every fault of a set does', () => {
  const rows = rowsOf(oneTube);

  it('is told for each part that can fail, with how common it is', () => {
    const parts = new Set(rows.map(({ part }) => part));
    for (const part of ['A', 'B', 'V1', 'R1', 'C1', 'PH1']) expect(parts).toContain(part);
    expect(rows.filter(({ prior }) => prior === null)).toEqual([]);
  });

  it('names the readings that leave their bands, with what they come to', () => {
    const open = rows.find(({ fault }) => fault === 'open B+45');
    expect(open?.heard).toContain('silent');
    expect(open?.changes.map(({ at }) => at)).toContain('V1.plate');
    const plate = open?.changes.find(({ at }) => at === 'V1.plate');
    expect(Math.abs(Number(plate?.expected))).toBeLessThan(0.1);
  });

  it('tells decibels, and nothing where nothing comes through', () => {
    expect(rows.find(({ fault }) => fault === 'open PH1')?.audio).toBe('nothing');
    expect(Number(rows.find(({ fault }) => fault === 'open GND')?.radio)).toBeLessThan(-6);
  });

  it('may be told of one part alone', () => {
    expect(new Set(rowsOf(oneTube, '--part', 'V1').map(({ part }) => part))).toEqual(
      new Set(['V1']),
    );
  });

  it('may be told a line each', () => {
    const { out } = faultsOf(oneTube, '--short', '--part', 'B');
    expect(out).toMatch(/^ {2}open B\+45 — silent; \d+ readings$/m);
    expect(out).not.toContain('meter:');
  });

  it('has a line for every fault in the CSV', () => {
    const [heading, ...lines] = faultsOf(oneTube, '--format', 'csv').out.trimEnd().split('\n');
    expect(heading).toMatch(/^receiver,part,fault,words,prior,heard,/);
    expect(lines).toHaveLength(rows.length);
  });

  it('comes with the caution where the volts of B are measured, and without where not', () => {
    const words = 'The volts of B can hurt';
    expect(faultsOf(sound).out).toContain(words);
    expect(faultsOf(example('crystal')).out).not.toContain(words);
  });
});

describe('what a text supposes', () => {
  const supposing = oneTube.replace(
    /\}\s*$/,
    `  suppose "battery lead off" {
    open B+45
  }
  suppose "phones open" {
    open PH1
  }
}
`,
  );

  it('is told by the name it has there', () => {
    const rows = rowsOf(supposing, '--suppose', 'battery lead off');
    expect(rows).toHaveLength(1);
    expect(rows[0]?.heard).toContain('silent');
    expect(faultsOf(supposing, '--suppose', 'phones open').out).toContain('phones open');
  });

  it('is named where another is asked for', () => {
    const { code, out, err } = faultsOf(supposing, '--suppose', 'other');
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain('Nothing called "other" is supposed in this file.');
    expect(err).toContain('"battery lead off"');
  });
});

describe('a call that cannot be answered', () => {
  it('says that there is no such part', () => {
    const { code, err } = faultsOf(oneTube, '--part', 'V9');
    expect([code, err]).toEqual([2, expect.stringContaining('There is no part called V9.')]);
  });

  it('says that there is no such bench', () => {
    const { code, err } = faultsOf(sound, '--bench', 'other');
    expect([code, err]).toEqual([2, expect.stringContaining('no bench called "other"')]);
  });
});
