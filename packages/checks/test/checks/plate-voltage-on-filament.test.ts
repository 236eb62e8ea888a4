import { supplyReachingFilament } from '@setwright/circuit';
import { describe, expect, it } from 'vitest';
import { plateVoltageOnFilament } from '../../src/checks/plate-voltage-on-filament.ts';
import { circuitOf, findingsOf, told } from '../support.ts';

const say = (text: string): string[] => told(text, findingsOf(plateVoltageOnFilament, text));
const messages = (text: string): string[] =>
  findingsOf(plateVoltageOnFilament, text).map(({ message }) => message);

const set = (lines: string): string => `receiver "x" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+45
    tap B+90
  }
  wire B- to A-
  tube V1 01-A {
    filament from A- to A+
  }
${lines}
}
`;

describe('plate voltage on a filament', () => {
  it('comes by the B+ lead on the A+ post', () => {
    const text = plateVoltageOnFilament.fails;
    expect(say(text)).toEqual(['plate-voltage-on-filament error @ wire B+45 to A+']);
    expect(messages(text)).toEqual(['B+45, 45 V, reaches V1.filament+ by wire alone.']);
    expect(findingsOf(plateVoltageOnFilament, text)[0]?.parts).toEqual(['B', 'A', 'V1']);
    expect(findingsOf(plateVoltageOnFilament, text)[0]?.cure).toContain('Take B+45 off A+');
    expect(say(plateVoltageOnFilament.passes)).toEqual([]);
  });

  it('names all the tubes that it takes', () => {
    const text = set('  tube V2 01-A {\n    filament from A- to A+\n  }\n  wire B+90 to A+');
    expect(messages(text)).toEqual([
      'B+90, 90 V, reaches the filaments of V1 and V2 by wire alone.',
    ]);
  });

  it('comes through a winding whose other end is on the wrong side', () => {
    const text = set('  coil L1 {\n    winding plate 3 ohms from B+90 to A+\n  }');
    expect(say(text)).toEqual([
      'plate-voltage-on-filament error @ winding plate 3 ohms from B+90 to A+',
    ]);
    expect(messages(text)).toEqual([
      'B+90, 90 V, reaches V1.filament+ through L1.plate, 3 ohms in all.',
    ]);
  });

  it('comes at a position that the set is not drawn in, which is named', () => {
    const text = set('  post X\n  selector S2 from B+45 to X, A+ set X');
    expect(messages(text)).toEqual(['With S2 at A+, B+45, 45 V, reaches V1.filament+ through S2.']);
  });

  it('comes through a control turned down, which is named', () => {
    const text = set('  rheostat RH9 5000 ohms from B+45 to A+ set 5000 ohms');
    expect(messages(text)).toEqual([
      'With RH9 turned down, B+45, 45 V, reaches V1.filament+ through RH9.',
    ]);
  });

  it('is told of a lead on the wrong filament pin by its own line', () => {
    const text = set('  tube V2 01-A {\n    filament from A- to B+45\n  }');
    expect(say(text)).toEqual(['plate-voltage-on-filament error @ B+45']);
  });
});

describe('no plate voltage on a filament is', () => {
  it('B- on A+', () => {
    const text = set('').replace('wire B- to A-', 'wire B- to A+');
    expect(say(text)).toEqual([]);
  });

  it('a series string at its rated current from an eliminator', () => {
    const string = [2, 3, 4].map(
      (n) => `  tube V${n} 99 {\n    filament from V${n - 1}.filament+\n  }`,
    );
    const text = `receiver "x" {
  eliminator E {
    tap E-
    tap E+90 90 V
  }
  tube V1 99 {
    filament from E-
  }
${string.join('\n')}
  resistor R1 1220 ohms from E+90 to V4.filament+
}
`;
    expect(say(text)).toEqual([]);
  });

  it('a bleeder, a neon lamp or a meter of many ohms', () => {
    const text = set(
      '  resistor R1 10 kilohms from B+90 to A-\n  lamp NE 100 kilohms from B+45 to A+',
    );
    expect(say(text)).toEqual([]);
  });

  it('the plate current of the tube itself', () => {
    expect(say(set('  wire V1.plate to B+90'))).toEqual([]);
  });

  it('a C battery counted from its minus, with its plus on the filament', () => {
    const text = set(
      '  battery C dry {\n    tap C- 0 V\n    tap C+22 22.5 V\n  }\n  wire C+22 to A-\n  leak R1 1 meg from C- to V1.grid\n  wire V1.plate to B+90',
    );
    expect(say(text)).toEqual([]);
  });

  it('a way through a transformer winding of unknown ohms', () => {
    const text = set('  transformer T1 {\n    winding primary from B+90 to A+\n  }');
    expect(say(text)).toEqual([]);
  });
});

it('the finding and the answer about B and filaments never differ', () => {
  for (const text of [
    plateVoltageOnFilament.fails,
    plateVoltageOnFilament.passes,
    set('  wire B+90 to A-'),
    set('  resistor R1 150 ohms from B+90 to A+'),
    set('  resistor R1 2 kilohms from B+90 to A+'),
  ])
    expect(say(text).length > 0).toBe(supplyReachingFilament(circuitOf(text)).reaches);
});
