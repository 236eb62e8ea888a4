import { describe, expect, it } from 'vitest';
import { operatingPoint } from '../../src/operating-point.ts';
import { alignedAt } from '../../src/small-signal/aligned-at.ts';
import { neutralized } from '../../src/small-signal/neutralizing.ts';
import { response } from '../../src/small-signal/response.ts';
import { selectivity } from '../../src/small-signal/selectivity.ts';
import { smallSignal, solveAt } from '../../src/small-signal/small-signal.ts';
import { stability } from '../../src/small-signal/stability.ts';
import { exampleSets, setFrom } from '../reading-set.ts';
import { threeDialSet } from './three-dial-set.ts';

function made(name: string) {
  const circuit = exampleSets.get(name)!;
  return { circuit, point: operatingPoint(circuit) };
}

describe('a set in tune with a station', () => {
  it('has the capacity that resonates its coil, by the formula of Lord Kelvin', () => {
    // 240 µH wants 105.5 mmfd at 1000 kc: 2.53302959e10/(L f²) in µH, mmfd and kc. With the
    // stray 10 mmfd of wiring, 95.5 are the condenser's own.
    const circuit = setFrom(
      'post ANT aerial 200 mmfd\npost GND ground',
      'coil L1 {\n winding first 1 uH .1 ohms from GND to ANT\n winding grid 240 uH 6 ohms from GND\n}',
      'condenser C1 variable 14 to 365 mmfd across L1.grid',
    );
    const set = smallSignal(circuit, operatingPoint(circuit));
    const [tuned] = alignedAt(set, 1e6).circuits;
    expect(tuned!.reaches).toBe(true);
    expect(tuned!.farads * 1e12).toBeCloseTo(95.5, 0);
  });

  it('is louder there than with any condenser moved', () => {
    const { circuit, point } = made('crystal');
    const set = smallSignal(circuit, point);
    const { tuning, circuits } = alignedAt(set, 900e3);
    const volts = (by: number): number => {
      const moved = new Map([...tuning].map(([name, farads]) => [name, by * farads]));
      const at = solveAt(set, 900e3, [{ kind: 'aerial', volts: 1 }], moved)!;
      const condenser = circuits[0]!.condenser;
      const part = circuit.partNamed.get(condenser)!;
      const across = at.voltage(part.ends[0]!.id, part.ends[1]!.id)!;
      return Math.hypot(across.re, across.im);
    };
    expect(volts(1)).toBeGreaterThan(volts(1.1));
    expect(volts(1)).toBeGreaterThan(volts(0.9));
  });

  it('says when a condenser does not reach the station', () => {
    const { circuit, point } = made('five-tube-trf');
    const [tuned] = alignedAt(smallSignal(circuit, point), 200e3).circuits;
    expect(tuned!.reaches).toBe(false);
  });
});

describe('neutralizing', () => {
  it('wants the capacity from grid to plate by the turns of plate over balancing winding', () => {
    // Cn = Cgp n(plate)/n(neutral): handbooks. The set's two windings have 7 turns each, its
    // tubes 8.1 mmfd (tube manuals, from memory); leakage between them makes it a little less.
    const { circuit, point } = made('neutralized-five');
    const found = neutralized(smallSignal(circuit, point), 1e6);
    expect(found.map(({ tube }) => tube)).toEqual(['V1', 'V2']);
    for (const { wanted, reaches } of found) {
      expect(reaches).toBe(true);
      expect(wanted / 8.1e-12).toBeGreaterThan(0.8);
      expect(wanted / 8.1e-12).toBeLessThan(1.1);
    }
  });

  it('makes a set quiet that oscillates with its condensers half way', () => {
    const { circuit, point } = made('neutralized-five');
    expect(stability(circuit, point).verdict).toBe('steady');
  });
});

describe('response', () => {
  it('of a set that oscillates has no gain', () => {
    const circuit = threeDialSet({});
    const found = response(circuit, operatingPoint(circuit), { quality: 150, stations: [1e6] });
    expect(found.stations[0]!.oscillates!.unmeant).toBeGreaterThan(0);
    expect(found.stations[0]!.detectorVolts).toBeUndefined();
  });

  it('follows the radio tubes to the detector', () => {
    const { circuit, point } = made('five-tube-trf');
    const [station] = response(circuit, point, { stations: [1e6] }).stations;
    expect(station!.stages!.map(({ tube }) => tube)).toEqual(['V1', 'V2', 'V3']);
  });

  it('of one circuit of Q 100 is 6 decibels down at the width of 1.73 percent', () => {
    // |1 + jQ(f/f₀ − f₀/f)| = 10^(6/20), so the width is f₀/Q times the root of that squared
    // less 1: universal resonance curve of the handbooks.
    const strength = (f: number) => 1 / Math.hypot(1, 100 * (f / 1e6 - 1e6 / f));
    const { width6, width20 } = selectivity(strength, 1e6);
    expect(width6! / (1e4 * Math.sqrt(10 ** 0.6 - 1))).toBeCloseTo(1, 6);
    expect(width20! / (1e4 * Math.sqrt(99))).toBeCloseTo(1, 6);
  });

  it('of transformers falls at the low notes, first where the primary is as the plate', () => {
    // f = R/(2πL) is 3 decibels down: handbooks. 14 H beside about 13 kilohms: near 150 cycles.
    const { circuit, point } = made('five-tube-trf');
    const { audio } = response(circuit, point, { stations: [1e6] });
    expect(audio!.output).toBe('H1');
    expect(audio!.low).toBeGreaterThan(60);
    expect(audio!.low).toBeLessThan(300);
  });

  it('says what is taken of a transformer of which the text tells the ratio alone', () => {
    const text = (ratio: string) =>
      setFrom(
        'battery B dry {\n tap B-\n tap B+90 90 V\n}',
        'battery A storage {\n tap A- 0 V\n tap A+ 6 V\n}\nwire B- to A-',
        'tube V1 01-A {\n filament from A- to A+\n plate to T1.primary.start\n}',
        `transformer T1 ${ratio} {\n winding primary to B+90\n winding secondary from A-\n}`,
      );
    const taken = (ratio: string) => {
      const circuit = text(ratio);
      const { assumed } = smallSignal(circuit, operatingPoint(circuit));
      return assumed.filter((words) => words.includes('audio transformer'));
    };
    expect(taken('ratio 1 to 6')).toEqual(['a usual audio transformer’s 12 H in T1.primary']);
    expect(taken('')).toEqual([
      'a usual audio transformer’s 1 to 3 in T1',
      'a usual audio transformer’s 12 H in T1.primary',
    ]);
  });

  it('of an intermediate amplifier is best near the frequency that the text says', () => {
    const { circuit, point } = made('superheterodyne');
    const { intermediate } = response(circuit, point, { stations: [1e6] });
    expect(intermediate!.mixer).toBe('V1');
    expect(intermediate!.detector).toBe('V5');
    expect(intermediate!.frequency / 45e3).toBeCloseTo(1, 1);
    expect(intermediate!.gain!).toBeGreaterThan(100);
  });

  it('of a superheterodyne is not stopped by its oscillator', () => {
    const { circuit, point } = made('superheterodyne');
    const { verdict, stations } = stability(circuit, point, { stations: [1e6] });
    expect(stations[0]!.aligned.count).toBe(2);
    expect(verdict).toBe('steady');
  });
});
