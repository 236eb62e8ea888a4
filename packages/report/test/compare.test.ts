import { readFileSync } from 'node:fs';
import type { Circuit } from '@setwright/circuit';
import { readReceivers } from '@setwright/language';
import { describe, expect, it } from 'vitest';
import {
  comparedReceivers,
  compareInJson,
  compareInMarkdown,
  compareInWords,
  compareTables,
  describedSet,
  markedSet,
  plainStyles,
} from '../src/index.ts';

const five = readFileSync(
  new URL('../../../examples/five-tube-trf.receiver', import.meta.url),
  'utf8',
);
const circuitsOf = (text: string): readonly Circuit[] =>
  readReceivers(text, 'set.receiver').circuits;
const exchanged = (...pieces: readonly (readonly [string, string])[]) =>
  pieces.reduce((text, [from, to]) => {
    if (!text.includes(from)) throw new Error(`the text has no ${from}`);
    return text.replaceAll(from, to);
  }, five);
const compared = (now: string, withNumbers = false, old = five) =>
  comparedReceivers(circuitsOf(old), circuitsOf(now), { style: 'period', withNumbers });
const files = (now: string, withNumbers = false, old = five) => ({
  old: 'old.receiver',
  now: 'new.receiver',
  receivers: compared(now, withNumbers, old),
  cautions: [],
});
const told = (...pieces: readonly (readonly [string, string])[]): string[] => {
  const [set] = compared(exchanged(...pieces));
  if (!set || 'summary' in set) throw new Error('the sets are not paired');
  return set.sentences.map(({ text }) => text);
};

describe('a difference in the words of the trade', () => {
  it.each([
    [
      'leak R3 "grid leak" 2 meg 30 %',
      'leak R3 "grid leak" 1 meg 30 %',
      ['R3 (grid leak) is 1 meg now, and was 2 meg.'],
    ],
    ['tube V5 01-A', 'tube V5 71-A', ['V5 is a 71-A now, and was an 01-A.']],
    [
      'from V3.plate to NEG',
      'from V2.plate to NEG',
      ['The start of C6 went from V3.plate to V2.plate.'],
    ],
    [
      'condenser C5 "radio bypass" .5 mfd from B+67 to NEG',
      '',
      [
        'Gone: condenser C5 (radio bypass), .5 mfd, from B+67 to NEG.',
        'The suppose “radio return goes open”: no longer open C5; now open.',
      ],
    ],
    [
      '  dial D1',
      '  resistor R7 5000 ohms 1 W from B+90 to B+67\n  dial D1',
      ['New: resistor R7, 5000 ohms, power rating 1 W, from B+90 to B+67.'],
    ],
    [
      'winding aerial 12 turns of 26 DCC',
      'winding aerial 14 turns of 28 SSC',
      [
        'L1.aerial has 14 turns now, and had 12 turns.',
        'The gauge of L1.aerial is 28 now, and was 26.',
        'The covering of L1.aerial is SSC now, and was DCC.',
      ],
    ],
    [
      'set 4 ohms',
      'set off',
      ['RH2 (detector rheostat) is set to off now, and was set to 4 ohms.'],
    ],
    [
      'rotor to L1.grid.start stator to L1.grid.finish',
      'rotor to L1.grid.finish stator to L1.grid.start',
      [
        'C1 (first tuning condenser) is turned round: the stator of C1 is at A- now and the rotor of C1 at L1.grid.finish.',
      ],
    ],
    ['drives C3', 'drives C2', ['D3 (third dial) drives C2 now, and no longer C3.']],
    [
      'receiver "Lantern Cove Five"',
      'receiver "Lantern Cove Six"',
      ['The title of the set is “Lantern Cove Six” now, and was “Lantern Cove Five”.'],
    ],
    [
      'C4',
      'C44',
      ['C4 is called C44 now; what it is and where it stands has not changed by that.'],
    ],
    ['tap A+ 6 V', 'tap A+ 5 V', ['Taps of A: A+ is at 5 V now, and was at 6 V.']],
  ] as const)('%s, now %s', (from, to, sentences) => {
    expect(told([from, to])).toEqual(sentences);
  });
});

describe('what a change does to the numbers', () => {
  const [set] = compared(exchanged(['tap B+67 67.5 V', 'tap B+67 60 V']), true);
  const numbers = set && 'numbers' in set ? (set.numbers?.numbers ?? []) : [];

  it('is told of those that move, with what they were', () => {
    const volts = numbers.find(
      ({ part, quantity }) => part === 'V1' && quantity === 'plate-voltage',
    );
    expect(volts?.before).toBeCloseTo(66.3, 0);
    expect(volts?.after).toBeLessThan(60);
  });

  it('says nothing of those that stay', () => {
    expect(numbers.filter(({ part }) => part === 'V5' || part.startsWith('L1'))).toEqual([]);
    for (const { beforeText, afterText } of numbers) expect(afterText).not.toBe(beforeText);
  });

  it('follows parts through a change of name', () => {
    expect(
      compared(exchanged(['V1', 'V9']), true).flatMap((each) =>
        'numbers' in each ? (each.numbers?.numbers ?? []) : [],
      ),
    ).toEqual([]);
  });

  it('tells of a set that squeals now', () => {
    const bare = exchanged(['1500 ohms from L', '1 ohms from L']);
    const [squealing] = compared(bare, true);
    const stability =
      squealing && 'numbers' in squealing ? squealing.numbers?.stability : undefined;
    expect(stability?.before).toMatch(/^It is steady/);
    expect(stability?.after).toMatch(/oscillates|squeals/);
  });
});

describe('findings', () => {
  const leakAway = exchanged(['    leak R3 "grid leak" 2 meg 30 % from V3.grid to A+\n', '']);
  const checksIn = (now: string, old: string) =>
    compared(now, false, old).flatMap((set) =>
      'findings' in set
        ? [
            set.findings.fresh.map((each) => each.check),
            set.findings.cured.map((each) => each.check),
          ]
        : [],
    );

  it('are new where a change makes them, and cured where it is undone', () => {
    expect(checksIn(leakAway, five)[0]).toContain('grid-condenser-without-leak');
    expect(checksIn(five, leakAway)[1]).toContain('grid-condenser-without-leak');
  });

  it('of parts under another name are neither', () => {
    expect(checksIn(exchanged(['RH2', 'RH9'], ['V3', 'V8']), five)).toEqual([[], []]);
  });
});

describe('a set that only one file has', () => {
  it('is told of in a few sentences', () => {
    const words = compareInWords(files(five, false, ''), { styles: plainStyles, columns: 200 });
    expect(words).toContain('Lantern Cove Five: this set is new');
    expect(words).toContain('It has 5 tubes: 01-A.');
    expect(compareInWords(files('', false), { styles: plainStyles, columns: 80 })).toContain(
      'this set is gone',
    );
  });
});

describe('names and titles that would do harm', () => {
  const hostile = '<script>alert(1)</script>|](http://x) `a` \u001b[31m-->';
  const now = five.replace('"grid leak" 2 meg', `"${hostile}" 1 meg`);

  it('do none in Markdown, nor in a terminal', () => {
    const markdown = compareInMarkdown({ ...files(now), now: hostile });
    expect(markdown).not.toMatch(/(?<!\\)</);
    expect(markdown).not.toMatch(/(?<!\\)\]\(/);
    expect(markdown).not.toMatch(/(?<!\\)`/);
    const words = compareInWords(files(now), { styles: plainStyles, columns: 80 });
    for (const text of [markdown, words, compareInJson(files(now))])
      expect(text).not.toContain('\u001b');
  });
});

describe('the JSON', () => {
  it('has every difference as data, sentences, numbers in SI units and findings', () => {
    const report = JSON.parse(compareInJson(files(exchanged(['2 meg', '1 meg']), true)));
    expect(report).toMatchObject({
      version: 1,
      old: 'old.receiver',
      new: 'new.receiver',
      same: false,
      cautions: [],
      receivers: [{ title: 'Lantern Cove Five', status: 'different' }],
    });
    const [set] = report.receivers;
    expect(set.differences.changed).toMatchObject([{ thing: 'R3', slot: 'resistance' }]);
    expect(set.sentences[0]).toMatchObject({ kind: 'changed', newParts: ['R3'] });
    for (const each of set.numbers) expect(typeof each.after).toBe('number');
    expect(Object.keys(set.findings)).toEqual(['new', 'cured']);
  });
});

describe('both states on one drawing', () => {
  it('hold what is gone beside what is new, each with its mark', () => {
    const [set] = compared(
      exchanged(
        ['    condenser C5 "radio bypass" .5 mfd from B+67 to NEG\n', ''],
        ['  dial D1', '  resistor C5 5000 ohms from B+90 to B+67\n  dial D1'],
        ['2 meg', '1 meg'],
      ),
    );
    const { circuit, overlay } = markedSet(set!);
    const marks = overlay.marked?.map(({ at, kind, words }) => `${kind} ${at} ${words}`.trim());
    expect(marks).toEqual(['removed C5 (old)', 'added C5', 'changed R3 was 2 meg']);
    const old = circuit.endNamed.get('C5 (old).start')?.junction;
    expect(old).toBe(circuit.endNamed.get('B.B+67')?.junction);
  });
});

describe('the tables for an editor', () => {
  it('name for each sentence the part to go to', () => {
    const [set] = compared(exchanged(['2 meg', '1 meg']));
    const [table] = set && !('summary' in set) ? compareTables(set) : [];
    expect(table?.rows).toEqual([['Changed', 'R3 (grid leak) is 1 meg now, and was 2 meg.']]);
    expect(table?.about).toEqual(['R3']);
  });
});

describe('a set as one line a fact', () => {
  const linesOf = (text: string) => describedSet(circuitsOf(text)[0]!).split('\n');

  it('differs by the line of what changed alone', () => {
    const [old, now] = [linesOf(five), linesOf(exchanged(['2 meg', '1 meg']))];
    expect(now.filter((line) => !old.includes(line))).toEqual(['R3  resistance  1 megohm']);
    expect(old.filter((line) => !now.includes(line))).toEqual(['R3  resistance  2 megohms']);
  });

  it('does not change with the hand', () => {
    expect(linesOf(exchanged(['.00025 mfd', '250 mmfd'], ['to B+67\n', 'to B.B+67\n']))).toEqual(
      linesOf(five),
    );
  });
});
