import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { drainWhenOff } from '../../src/checks/drain-when-off.ts';
import { plateVoltageOnGrid as check } from '../../src/checks/plate-voltage-on-grid.ts';
import { checkCircuit } from '../../src/run.ts';
import { edited } from '../edited.ts';
import { circuitOf, findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

const sound = check.passes;
const coupling = 'condenser C4 .006 mfd 200 V from V1.plate to V2.grid';

describe('plate voltage on a grid', () => {
  it('where the coupling condenser is missing and a wire is in its place', () => {
    const findings = findingsOf(check, check.fails);
    expect(told(check.fails, findings)).toEqual(['plate-voltage-on-grid error @ tube V2 01-A']);
    expect(findings[0]?.message).toBe(
      'B+90 reaches the grid of V2 through R2 and holds it 80 V above its filament.',
    );
    expect(findings[0]?.cure).toBe(
      'Put a blocking condenser of .006 mfd between V1.plate and V2.grid.',
    );
    expect(findings[0]?.parts).toEqual(['V2', 'R2']);
  });

  it('and says all of it: that the same way drains the batteries with the set off follows', () => {
    const set = readFileSync(
      new URL('../../../../examples/five-tube-trf.receiver', import.meta.url),
      'utf8',
    );
    const text = edited(set, ['20 % from V4.plate to B+90', '20 % from V4.grid to B+90']);
    const checks = [check, drainWhenOff];
    expect(findingsOf(drainWhenOff, text)).not.toEqual([]);
    expect(checkCircuit(circuitOf(text), checks).findings.map((each) => each.check)).toEqual([
      'plate-voltage-on-grid',
    ]);
  });

  it('and tells of exchanged leads of a transformer as of one fault', () => {
    const set = readFileSync(
      new URL('../../../../examples/at-work/storm-glass-as-copied.receiver', import.meta.url),
      'utf8',
    );
    const [fault, ...others] = checkCircuit(circuitOf(set)).findings.filter(
      ({ severity, parts }) => severity === 'error' && !parts.includes('V2'),
    );
    expect(others).toEqual([]);
    expect(fault?.cure).toBe(
      'The leads of T1.secondary.start and T1.primary.finish are exchanged: B+67 belongs on T1.primary.finish, C-4.5 on T1.secondary.start.',
    );
  });

  it('where a wire was left soldered round the condenser', () => {
    const text = edited(sound, [coupling, `${coupling}\n    wire V1.plate to V2.grid`]);
    expect(findingsOf(check, text)[0]?.cure).toBe(
      'Take off the wire round C4, which should keep V2.grid apart.',
    );
  });

  it('through any resistance that leaves it positive', () => {
    const text = edited(sound, [coupling, `${coupling}\n    leak R9 5 meg across C4`]);
    expect(heard(check, text)).toEqual([
      'B+90 reaches the grid of V2 through R2 and R9 and holds it 10 V above its filament.',
    ]);
  });

  it('where nothing else ties the grid down, though the volts are not known', () => {
    const text = edited(
      check.fails,
      ['tap B+90 90 V', 'tap B+DET'],
      ['from V1.plate to B+90', 'from V1.plate to B+DET'],
      ['from V2.plate to B+90', 'from V2.plate to B+DET'],
      ['    leak R3 1 meg from V2.grid to C-4.5\n', ''],
    );
    expect(heard(check, text)).toEqual(['B+DET reaches the grid of V2 through R2.']);
  });

  it('as drawn, where another position of a switch takes it off: information', () => {
    const text = edited(sound, [
      coupling,
      `${coupling}\n    switch S1 "test" from V1.plate to V2.grid closed`,
    ]);
    const [found] = findingsOf(check, text);
    expect(found?.severity).toBe('information');
    expect(found?.cure).toBe('Nothing, if it is meant: it is otherwise with S1 open.');
  });
});

describe('no plate voltage is on a grid', () => {
  it('from the positive side of the filament battery', () => {
    expect(heard(check, edited(sound, ['from V2.grid to C-4.5', 'from V2.grid to A+']))).toEqual(
      [],
    );
  });

  it('of a diode', () => {
    const text = edited(
      sound,
      [`    ${coupling}\n`, ''],
      ['    leak R3 1 meg from V2.grid to C-4.5\n', ''],
      ['phones PH1', 'wire V2.grid to V2.plate\n    phones PH1'],
    );
    expect(heard(check, text)).toEqual([]);
  });

  it('of a space-charge tube’s inner grid', () => {
    const text = edited(
      sound,
      ['from V1.plate to V2.grid', 'from V1.plate to V2.screen'],
      ['leak R3 1 meg from V2.grid', 'leak R3 1 meg from V2.screen'],
      ['tap B+90 90 V', 'tap B+22 22.5 V\n    tap B+90 90 V'],
      ['tube V2 01-A {', 'tube V2 22 {\n      grid to B+22'],
    );
    expect(heard(check, text)).toEqual([]);
  });

  it('of a direct-coupled tube that is lifted as high', () => {
    const own =
      '  battery A2 storage {\n    tap F- 0 V\n    tap F+ 6 V\n  }\n  wire F- to B+90\n  battery C dry';
    const battery = edited(
      check.fails,
      ['  battery C dry', own],
      ['filament from RH2 to A+', 'filament from RH2 to F+'],
      ['rheostat RH2 20 ohms from A-', 'rheostat RH2 20 ohms from F-'],
      ['    leak R3 1 meg from V2.grid to C-4.5\n', ''],
      ['tap B+90 90 V', 'tap B+90 90 V\n    tap B+180 180 V'],
      ['from V2.plate to B+90', 'from V2.plate to B+180'],
    );
    expect(heard(check, battery)).toEqual([]);
    const cathode = edited(
      check.fails,
      [
        'tube V2 01-A {\n      filament from RH2 to A+',
        'resistor R7 20 kilohms from V2.cathode to A-\n    tube V2 27 {\n      heater from RH2 to A+',
      ],
      ['    leak R3 1 meg from V2.grid to C-4.5\n', ''],
    );
    expect(heard(check, cathode)).toEqual([]);
  });

  it('where one coil carries plate and grid, with a condenser ahead of the grid', () => {
    const text = edited(
      sound,
      ['winding grid 240 uH from GND', 'winding grid 240 uH tap 50 % to B+90'],
      ['rotor to L1.grid.start', 'rotor to L1.grid.start'],
      ['resistor R2 100 kilohms from V1.plate to B+90', 'wire V1.plate to L1.grid.start'],
    );
    expect(heard(check, text)).toEqual([]);
  });

  it('where by the numbers it is below its filament', () => {
    const text = edited(
      sound,
      ['tap C-4.5', 'tap C-45 -45 V'],
      ['from V2.grid to C-4.5', 'from V2.grid to C-45\n    leak R9 10 meg from V2.grid to B+90'],
    );
    expect(heard(check, text)).toEqual([]);
  });

  it('by way of a condenser', () => {
    expect(heard(check, sound)).toEqual([]);
  });
});
