// Facts of the trade that the checks must never contradict. "Charts" are the period charts of
// about 1926-27, which were written down from memory; "practice" is common practice.

import type { Finding, TubeType } from '@setwright/circuit';
import { describe, expect, it } from 'vitest';
import { gridBiasedPositive } from '../src/checks/grid-biased-positive.ts';
import { gridCondenserBypassed } from '../src/checks/grid-condenser-bypassed.ts';
import { gridCondenserWithoutLeak } from '../src/checks/grid-condenser-without-leak.ts';
import { gridReturnSide } from '../src/checks/grid-return-side.ts';
import { gridWithoutDcReturn } from '../src/checks/grid-without-dc-return.ts';
import { plateVoltageOnGrid } from '../src/checks/plate-voltage-on-grid.ts';
import { plateWithoutSupply } from '../src/checks/plate-without-supply.ts';
import { socketMirrored } from '../src/checks/socket-mirrored.ts';
import { checkCircuit } from '../src/run.ts';
import { circuitOf } from './support.ts';

const checks = [
  gridWithoutDcReturn,
  gridCondenserWithoutLeak,
  gridReturnSide,
  gridBiasedPositive,
  gridCondenserBypassed,
  plateVoltageOnGrid,
  plateWithoutSupply,
  socketMirrored,
];

/** What the checks of grids and plates say of a set together, all that the reader says included. */
function said(text: string): readonly Finding[] {
  const circuit = circuitOf(text);
  return [...circuit.remarks, ...checkCircuit(circuit, checks).findings];
}

const ids = (text: string): string[] => said(text).map(({ check }) => check);

/** How a type is lit: the battery in volts, and what its rheostat stands at. */
interface Light {
  readonly battery: number;
  readonly ohms: number;
}

const lights: Readonly<Record<string, Light>> = {
  '00-A': { battery: 6, ohms: 4 },
  '01-A': { battery: 6, ohms: 4 },
  '99': { battery: 4.5, ohms: 19 },
  '11': { battery: 1.5, ohms: 1.6 },
  '12': { battery: 1.5, ohms: 1.6 },
  '12-A': { battery: 6, ohms: 4 },
  '40': { battery: 6, ohms: 4 },
  '30': { battery: 3, ohms: 16.7 },
};
const detectors = Object.keys(lights);
const gas = ['00-A'];
const hard = detectors.filter((type) => !gas.includes(type));

interface Detector {
  readonly type: string;
  readonly leak?: string;
  readonly condenser?: string;
  readonly returnTo: string;
}

/** A detector with phones; its rheostat lies in the negative lead, as most did. */
function detector({ type, leak = '3 meg', condenser = '.00025 mfd', returnTo }: Detector): string {
  const { battery, ohms } = lights[type] as Light;
  return `receiver "Cove Detector" {
  battery A dry {
    tap A- 0 V
    tap A+ ${battery} V
  }
  battery B dry {
    tap B-
    tap B+45 45 V
    tap B+135 135 V
  }
  post ANT aerial
  post GND ground
  wire B- to A- to GND
  rheostat RH1 30 ohms from A- set ${ohms} ohms
  detector stage DET {
    coil L1 {
      winding aerial 20 uH from GND to ANT
      winding grid 240 uH from GND
    }
    condenser C1 variable 14 to 365 mmfd rotor to L1.grid.start stator to L1.grid.finish
    condenser C2 ${condenser} from L1.grid.finish to V1.grid
    leak R1 ${leak} from V1.grid to ${returnTo}
    tube V1 ${type} {
      filament from RH1 to A+
    }
    phones PH1 2000 ohms from V1.plate to B+45
    condenser C3 .001 mfd from V1.plate to A-
  }
}
`;
}

/** An audio amplifier on 90 V; its rheostat lies in the negative lead. */
function amplifier(gridReturn: string): string {
  return `receiver "Cove Amplifier" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+90 90 V
  }
  battery C dry {
    tap C+
    tap C-4.5
  }
  wire B- to A- to C+
  rheostat RH1 20 ohms from A- set 4 ohms
  audio stage AF1 {
    post IN1 alternative
    post IN2 alternative
    transformer T1 ratio 1 to 3 {
      winding primary 800 ohms from IN1 to IN2
      winding secondary 5000 ohms from ${gridReturn} to V1.grid
    }
    tube V1 01-A {
      filament from RH1 to A+
    }
    phones PH1 2000 ohms from V1.plate to B+90
  }
}
`;
}

const typeOf = (type: string): TubeType => {
  const found = circuitOf(detector({ type, returnTo: 'A+' })).partNamed.get('V1')?.tubeType;
  if (!found) throw new Error(`the library has no ${type}`);
  return found;
};

describe('where grids return', () => {
  it('amplifier grids go to A- or to a C battery (practice)', () => {
    expect(ids(amplifier('A-'))).toEqual([]);
    expect(ids(amplifier('C-4.5'))).toEqual([]);
  });

  it('amplifier grids do not go to A+ (practice)', () => {
    expect(ids(amplifier('A+'))).toEqual(['grid-return-side']);
  });

  it.each(hard)('a grid-leak detector %s, a hard tube, returns to A+ (charts)', (type) => {
    expect(ids(detector({ type, returnTo: 'A+' }))).toEqual([]);
    expect(ids(detector({ type, returnTo: 'V1.filament+' }))).toEqual([]);
    expect(ids(detector({ type, returnTo: 'A-' }))).toEqual(['grid-return-side']);
  });

  it.each(gas)('a gas detector %s returns to A- or its own F- (charts)', (type) => {
    expect(ids(detector({ type, returnTo: 'A-' }))).toEqual([]);
    expect(ids(detector({ type, returnTo: 'V1.filament-' }))).toEqual([]);
    expect(ids(detector({ type, returnTo: 'A+' }))).toEqual(['grid-return-side']);
  });

  it('a 27 returns to its cathode (charts)', () => {
    const heater = detector({ type: '01-A', returnTo: 'V1.cathode' })
      .replace('tube V1 01-A', 'tube V1 27')
      .replace('filament from RH1', 'heater from A-')
      .replace('      heater', '      cathode to A-\n      heater')
      .replace('  rheostat RH1 30 ohms from A- set 4 ohms\n', '')
      .replace('tap A+ 6 V', 'tap A+ 2.5 V');
    expect(ids(heater)).toEqual([]);
  });

  it('the side is told in the words of the type’s own data', () => {
    const [found] = said(detector({ type: '12-A', returnTo: 'A-' }));
    expect(found?.message).toBe(
      'The grid of V1 returns to A-, but the 12-A as a detector wants it on A+.',
    );
    expect(found?.cure).toContain('data of the 12-A: return to A+, leak 3 megohms to 5 megohms');
  });
});

describe('leaks and grid condensers', () => {
  const leaks = ['1 meg', '2 meg', '3 meg', '4 meg', '5 meg'];

  it.each(leaks)('a leak of %s is a leak (charts: 1 to 5 megohms, some to 9)', (leak) => {
    for (const type of detectors) {
      const returnTo = gas.includes(type) ? 'A-' : 'A+';
      expect(ids(detector({ type, leak, returnTo }))).toEqual([]);
    }
  });

  it.each(detectors)('the data of the %s ask for a leak of 1 to 9 megohms (charts)', (type) => {
    const [least, most] = typeOf(type).detector?.leak ?? [0, 0];
    expect(least).toBeGreaterThanOrEqual(1e6);
    expect(most).toBeLessThanOrEqual(9e6);
    expect(least).toBeLessThanOrEqual(5e6);
    expect(most).toBeGreaterThanOrEqual(least);
  });

  it.each(detectors)('the data of the %s ask for .00025 mfd (charts)', (type) => {
    expect(typeOf(type).detector?.condenser).toBeCloseTo(250e-12, 15);
  });

  it('a grid condenser of .00025 mfd with no leak leaves a hard tube floating (practice)', () => {
    const text = detector({ type: '01-A', returnTo: 'A+' }).replace(/ {4}leak .*\n/, '');
    expect(ids(text)).toEqual(['grid-condenser-without-leak']);
  });

  it('the leak that is advised is one that the type’s data allow (charts)', () => {
    for (const type of hard) {
      const text = detector({ type, returnTo: 'A+' }).replace(/ {4}leak .*\n/, '');
      const advised = Number(/a leak of ([\d.]+) meg/.exec(said(text)[0]?.cure ?? '')?.[1]) * 1e6;
      const [least, most] = typeOf(type).detector?.leak ?? [0, 0];
      expect(advised).toBeGreaterThanOrEqual(least);
      expect(advised).toBeLessThanOrEqual(most);
    }
  });

  it('a leak may lie across its condenser, where the coil returns to the right side (practice)', () => {
    const text = detector({ type: '01-A', returnTo: 'A+' })
      .replace('from V1.grid to A+', 'across C2')
      .replace('winding grid 240 uH from GND', 'winding grid 240 uH from A+')
      .replace('rotor to L1.grid.start', 'rotor to GND');
    expect(ids(text)).toEqual([]);
  });
});
