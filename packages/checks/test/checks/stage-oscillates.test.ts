import { readdirSync, readFileSync } from 'node:fs';
import { operatingPoint, stability } from '@setwright/analysis';
import { describe, expect, test } from 'vitest';
import { stageOscillates } from '../../src/checks/stage-oscillates.ts';
import { neutralizedExample } from '../../src/examples/neutralized-example.ts';
import { regenerativeExample } from '../../src/examples/regenerative-example.ts';
import { superheterodyneExample } from '../../src/examples/superheterodyne-example.ts';
import { type TrfChanges, trfExample } from '../../src/examples/trf-example.ts';
import { circuitOf, findingsOf, told } from '../support.ts';

const examples = new URL('../../../../examples/', import.meta.url);
const example = (name: string): string => readFileSync(new URL(name, examples), 'utf8');

/** The two-stage set with lossers of this size, or with wire in their place. */
function lossers(ohms: number | 'wire', changes: TrfChanges = {}): string {
  const set = trfExample(changes);
  return ohms === 'wire'
    ? set.replace(/resistor R[12] 1500 ohms from/g, 'wire')
    : set.replace(/1500 ohms/g, `${ohms} ohms`);
}

/** The same with wire, and so much coupling that either stage oscillates without the other. */
const tight = (): string => lossers('wire').replace(/plate 7 turns/g, 'plate 14 turns');

/** The five-tube example with wire in place of some of its lossers. */
function bridged(names: RegExp): string {
  const resistor = new RegExp(`resistor ${names.source} "[a-z ]+" 1500 ohms from`, 'g');
  return example('five-tube-trf.receiver').replace(resistor, 'wire').replace('short R1', 'open C5');
}

/** The findings of a text that is read whole: a line that is not read would silence for nothing. */
function heard(text: string) {
  const { remarks, unread } = circuitOf(text);
  expect(remarks.map(({ message }) => message)).toEqual([]);
  expect(unread).toEqual([]);
  return findingsOf(stageOscillates, text);
}

/** The only finding of a text. */
function only(text: string) {
  const found = heard(text);
  expect(found).toHaveLength(1);
  return found[0]!;
}

/** Whether a set oscillates at all with coils of a usual Q. */
function oscillates(text: string): boolean {
  const circuit = circuitOf(text);
  const { verdict, stations } = stability(circuit, operatingPoint(circuit), { quality: 100 });
  return verdict === 'aligned' || stations.some(({ aligned }) => aligned.modes.length > 0);
}

describe('a set that oscillates', () => {
  test('is one with its lossers replaced by wire', () => {
    const text = lossers('wire');
    expect(told(text, heard(text))).toEqual(['stage-oscillates warning @ tube V2 01-A']);
  });

  test('is told with both tubes, and where on the dial it whistles', () => {
    const { message, parts, related } = only(lossers('wire'));
    expect(message).toMatch(/^V1 and V2 oscillate by themselves in tune with .*1460 kc\.$/);
    expect(parts).toEqual(['V1', 'V2']);
    expect(related).toHaveLength(1);
  });

  test('whistles with the dials apart where the lossers are a little too small', () => {
    const { severity, message } = only(lossers(235));
    expect(severity).toBe('warning');
    expect(message).toMatch(/with the dials a few percent apart near \d/);
  });

  test('is cured by the losser that the finding asks for', () => {
    const { cure } = only(lossers('wire'));
    const ohms = Number(/losser into the lead of each of .*: (\d+) ohms should do/.exec(cure)?.[1]);
    expect(ohms).toBeGreaterThan(200);
    expect(ohms).toBeLessThan(1500);
    expect(heard(lossers(ohms)).filter(({ severity }) => severity === 'warning')).toEqual([]);
  });

  test('that has lossers is told by how much they are too small', () => {
    expect(only(lossers(200)).cure).toMatch(
      /^Add \d+ ohms to R1 and R2, which should do, or neutralize/,
    );
  });

  test('is a single stage without its neutralizing condenser', () => {
    const { severity, message } = only(neutralizedExample({}).replace(/condenser CN1 .*\n/, '\n'));
    expect(severity).toBe('warning');
    expect(message).toMatch(/^V1 oscillates by itself/);
  });

  test('is the five-tube example with its lossers bridged', () => {
    const text = bridged(/R[12]/);
    expect(told(text, heard(text))).toEqual(['stage-oscillates warning @ tube V2 01-A']);
  });
});

describe('it keeps silent about', () => {
  test('a regenerative detector, which must', () => {
    expect(oscillates(regenerativeExample({}))).toBe(true);
    expect(heard(regenerativeExample({}))).toEqual([]);
  });

  test('the oscillator of a superheterodyne, which must', () => {
    expect(oscillates(superheterodyneExample({}))).toBe(true);
    expect(heard(superheterodyneExample({}))).toEqual([]);
  });

  test('a neutralizing condenser that is not set: one sets it for silence', () => {
    expect(heard(neutralizedExample({}))).toEqual([]);
  });

  test('a neutralizing condenser that cannot balance, or is fed the wrong way round', () => {
    for (const changes of [{ range: '20 to 60 mmfd' }, { plateEnds: 'from B+67 to V1.plate' }]) {
      expect(oscillates(neutralizedExample(changes))).toBe(true);
      expect(heard(neutralizedExample(changes))).toEqual([]);
    }
  });

  test('coils of which too little is known', () => {
    const text = lossers('wire').replace('aerial 10 turns of 26 DCC', 'aerial 10 turns');
    expect(oscillates(text)).toBe(true);
    expect(heard(text)).toEqual([]);
  });

  test('tubes of which the capacities are not known', () => {
    const type = `tube type Q9 {
  filament 5 V .25 A
  amplification 8
  point plate 90 V grid -4.5 V 2.5 mA 11000 ohms 725 micromhos
}
`;
    const text = `${type}${tight().replace('V2 01-A', 'V2 Q9')}`;
    expect(oscillates(text)).toBe(true);
    expect(heard(text)).toEqual([]);
  });

  test('more stages than any set has', () => {
    const more = Array.from(
      { length: 9 },
      (_, n) => `  radio stage MORE${n} {
    rheostat RM${n} 20 ohms from A+ set 4 ohms
    tube VM${n} 01-A {
      filament from NEG to RM${n}
      grid to NEG
      plate to B+67
    }
  }
`,
    );
    const withMore = (count: number): string =>
      lossers('wire').replace(
        '  detector stage',
        `${more.slice(0, count).join('')}  detector stage`,
      );
    expect(heard(withMore(8))).toHaveLength(1);
    expect(heard(withMore(9))).toEqual([]);
  });

  test('a floating grid', () => {
    const text = lossers('wire').replace(
      'wire L2.grid.finish to V2.grid',
      'condenser C9 .001 mfd from L2.grid.finish to V2.grid',
    );
    expect(oscillates(text)).toBe(true);
    expect(heard(text)).toEqual([]);
  });

  test('a radio grid on the positive side', () => {
    const text = tight().replace('beside aerial from NEG', 'beside aerial from A+');
    expect(oscillates(text)).toBe(true);
    expect(heard(text)).toEqual([]);
  });
});

describe('it is only information', () => {
  test('where a stabilizing potentiometer stops it', () => {
    const text = lossers('wire', {
      returns: 'RET',
      returnLines: `bus RET
  potentiometer P1 400 ohms from NEG to A+ arm to RET set 0 %
  condenser C8 .5 mfd from RET to NEG`,
    });
    const { severity, cure, related } = only(text);
    expect(severity).toBe('information');
    expect(cure).toMatch(/quiet with P1 turned to/);
    expect(related.at(-1)?.place).toEqual(circuitOf(text).partNamed.get('P1')?.place);
  });

  test('where a resistance before the plates stops it', () => {
    const text = lossers('wire', {
      plates: 'RB',
      feed: `bus RB
  rheostat R9 100 kilohms from B+67 to RB set 0 ohms
  condenser C6 .5 mfd from RB to NEG`,
    });
    const { severity, cure } = only(text);
    expect(severity).toBe('information');
    expect(cure).toMatch(/quiet with R9 turned to/);
  });

  describe('where a rheostat stops it', () => {
    const shared = (title: string): string =>
      lossers('wire')
        .replace('rheostat RH1 20 ohms', `rheostat RH1 ${title}60 ohms`)
        .replace('rheostat RH2 20 ohms from A+ set 4 ohms', '')
        .replace('set 4 ohms', 'set 2 ohms')
        .replace('NEG to RH2', 'NEG to RH1');

    test('that is the volume control', () => {
      const { severity, cure } = only(shared('"volume" '));
      expect(severity).toBe('information');
      expect(cure).toMatch(/quiet with RH1 turned to/);
    });

    test('but not one that would have to starve its tubes', () => {
      expect(only(shared('')).severity).toBe('warning');
    });
  });

  test('where an aerial winding that turns can be coupled closer', () => {
    const text = neutralizedExample({})
      .replace(/condenser CN1 .*\n/, '\n')
      .replace(
        'aerial 8 turns of 30 DSC over grid at start',
        'aerial 20 turns of 30 DSC inside grid on form 2 3/4 in set 0 %',
      );
    const { severity, cure } = only(text);
    expect(severity).toBe('information');
    expect(cure).toMatch(/quiet with L1\.aerial turned to 50 %/);
  });

  test('where a neutralizing condenser is told to stand wrong', () => {
    const { severity, cure } = only(neutralizedExample({ range: '2 to 15 mmfd set 2 mmfd' }));
    expect(severity).toBe('information');
    expect(cure).toMatch(/quiet with CN1 at 8\.5 mmfd/);
  });

  test('where another tap of the aerial coil stops it', () => {
    const text = example('five-tube-trf.receiver').replaceAll('1500 ohms', '300 ohms');
    const { severity, cure } = only(text);
    expect(severity).toBe('information');
    expect(cure).toMatch(/quiet with S2 at/);
  });

  test('where it oscillates with the losses of the wire alone', () => {
    const text = bridged(/R1/);
    const { severity, message, cure } = only(text);
    expect(severity).toBe('information');
    expect(message).toMatch(/may oscillate.*wire alone, not with coils of a Q of 100\.$/);
    expect(cure).toMatch(/^Nothing, if it is quiet\. Put a losser into .*: \d+ ohms should do/);
  });
});

test.each(readdirSync(examples).filter((name) => name.endsWith('.receiver')))(
  'the example %s is good practice: no warning',
  (name) => {
    const serious = findingsOf(stageOscillates, example(name)).filter(
      ({ severity }) => severity === 'error' || severity === 'warning',
    );
    expect(serious.map(({ message }) => message)).toEqual([]);
  },
);
