import { describe, expect, it } from 'vitest';
import { tubeOutOverVoltage } from '../../src/checks/tube-out-over-voltage.ts';
import { studyOf } from '../../src/study.ts';
import { filamentSet } from '../filament-set.ts';
import { circuitOf, findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

const say = (text: string): string[] => told(text, findingsOf(tubeOutOverVoltage, text));
const behindOne = (battery: string, type: string, count: number, rheostat: string): string =>
  filamentSet(
    battery,
    `rheostat RH1 ${rheostat} from NEG`,
    ...Array.from(
      { length: count },
      (_, index) => `tube V${index + 1} ${type} { filament from RH1 to A+ }`,
    ),
  );

describe('tubes that share a rheostat', () => {
  it('are over-run when one of two small tubes is pulled', () => {
    const text = tubeOutOverVoltage.fails;
    expect(say(text)).toEqual(['tube-out-over-voltage warning @ rheostat RH1 30 ohms from NEG']);
    expect(heard(tubeOutOverVoltage, text)).toEqual([
      'With V1 out of its socket V2 gets 3.77 V, 14 % over the 3.3 V of the 99, for they share RH1.',
    ]);
    expect(findingsOf(tubeOutOverVoltage, text)[0]?.parts).toEqual(['RH1', 'V2', 'V1']);
    expect(heard(tubeOutOverVoltage, tubeOutOverVoltage.passes)).toEqual([]);
  });

  it('are in danger when four of five 99 on 6 V are pulled', () => {
    const text = behindOne('storage 6 V', '99', 5, '20 ohms');
    expect(say(text)).toEqual(['tube-out-over-voltage error @ rheostat RH1 20 ohms from NEG']);
    expect(heard(tubeOutOverVoltage, text)[0]).toMatch(
      /^With V2, V3, V4 and V5 out of their sockets V1 gets 5\.1\d V, 5[67] % over/,
    );
  });

  it('are over-run when four of five 01-A are pulled', () => {
    const text = behindOne('storage 6 V', '01-A', 5, '6 ohms');
    expect(say(text)).toEqual(['tube-out-over-voltage warning @ rheostat RH1 6 ohms from NEG']);
    expect(heard(tubeOutOverVoltage, text)[0]).toMatch(/gets 5\.7\d V, 15 % over/);
  });

  it('may share a fixed resistor or a long lead as well', () => {
    const text = filamentSet(
      'dry 4.5 V',
      'bus SET',
      'wire NEG to SET 10 ohms',
      'tube V1 99 { filament from SET to A+ }',
      'tube V2 99 { filament from SET to A+ }',
    );
    expect(say(text)).toEqual(['tube-out-over-voltage warning @ wire NEG to SET 10 ohms']);
  });
});

describe('tubes may be pulled', () => {
  it('where each has a resistance of its own', () => {
    const text = filamentSet(
      'storage 6 V',
      ...['V1', 'V2', 'V3'].flatMap((name, index) => [
        `resistor R${index} 4 ohms from NEG to ${name}.filament-`,
        `tube ${name} 01-A { filament to A+ }`,
      ]),
    );
    expect(heard(tubeOutOverVoltage, text)).toEqual([]);
  });

  it('where two 01-A on one rheostat stay within 10 %', () => {
    expect(
      heard(tubeOutOverVoltage, behindOne('storage 6 V', '01-A', 2, '10 ohms set 2 ohms')),
    ).toEqual([]);
  });

  it('from a series string, which goes out', () => {
    const text = filamentSet(
      'storage 12 V',
      'resistor R1 33 ohms from NEG to V1.filament-',
      'tube V1 99 { filament to V2.filament- }',
      'tube V2 99 { filament to V3.filament- }',
      'tube V3 99 { filament to A+ }',
    );
    expect(heard(tubeOutOverVoltage, text)).toEqual([]);
  });

  it('where they are over-run with all tubes in, which is told as that', () => {
    expect(
      heard(tubeOutOverVoltage, behindOne('storage 6 V', '01-A', 2, '10 ohms set .2 ohms')),
    ).toEqual([]);
  });
});

it('is settled in good time for a thousand tubes behind one cable', () => {
  const tubes = Array.from({ length: 1000 }, (_, index) => [
    `resistor R${index} 4 ohms from SET to V${index}.filament-`,
    `tube V${index} 01-A { filament to A+ }`,
  ]).flat();
  const study = studyOf(
    circuitOf(filamentSet('storage 6 V', 'bus SET', 'wire NEG to SET .0001 ohms', ...tubes)),
  );
  expect(study.filamentGroups).toHaveLength(1);
  expect(tubeOutOverVoltage.find(study)).toEqual([]);
  // A solution of the whole for every tube would take minutes, past the runner's bound.
});
