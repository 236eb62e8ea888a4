import { describe, expect, it } from 'vitest';
import { operatingPoint } from '../../src/operating-point.ts';
import { stability } from '../../src/small-signal/stability.ts';
import { exampleSets, setFrom } from '../reading-set.ts';

describe('a regenerative detector whose tickler turns', () => {
  const circuit = exampleSets.get('one-tube-regenerative')!;
  const turned = (share: number) =>
    stability(circuit, operatingPoint(circuit), {
      stations: [1e6],
      turned: new Map([['L1.tickler', share]]),
    }).stations[0]!.aligned;

  it('oscillates with it full in', () => {
    expect(turned(1).count).toBe(2);
  });

  it('is quiet with it at right angles', () => {
    expect(turned(0).count).toBe(0);
  });

  it('is quiet with it the other way round', () => {
    expect(turned(-1).count).toBe(0);
  });

  it('oscillates near the frequency that its grid circuit is tuned to', () => {
    expect(turned(0.3).modes[0]!.frequency / 1e6).toBeCloseTo(1, 1);
  });
});

describe('a regenerative detector with a throttle condenser', () => {
  const circuit = exampleSets.get('two-tube')!;
  const throttled = (farads: number) =>
    stability(circuit, operatingPoint(circuit), {
      stations: [1e6],
      condensers: new Map([['C3', farads]]),
    }).stations[0]!.aligned;

  it('oscillates with its plates in', () => {
    expect(throttled(300e-12).count).toBe(2);
  });

  it('is quiet with it taken out', () => {
    expect(throttled(0).count).toBe(0);
  });
});

describe('two audio stages and a detector that share the resistance of a tired battery', () => {
  const howls = (ohms: number, reversed: boolean): boolean => {
    const ends = reversed ? 'from B+90 to V2.plate' : 'from V2.plate to B+90';
    const circuit = setFrom(
      'battery A storage {\n tap A- 0 V\n tap A+ 6 V\n}',
      `battery B dry {\n tap B-\n tap B+90 90 V\n resistance ${ohms} ohms\n}`,
      'battery C dry {\n tap C+\n tap C-4.5\n}',
      'wire B- to A- to C+',
      'rheostat RH1 6 ohms from A- set 1.3 ohms',
      'leak R1 2 meg from V1.grid to A-',
      'tube V1 01-A {\n filament from RH1 to A+\n}',
      'tube V2 01-A {\n filament from RH1 to A+\n}',
      'tube V3 01-A {\n filament from RH1 to A+\n}',
      'transformer T1 ratio 1 to 3.5 {\n winding primary 14 H 800 ohms from V1.plate to B+90\n winding secondary 5200 ohms from C-4.5 to V2.grid\n}',
      `transformer T2 ratio 1 to 3.5 {\n winding primary 14 H 800 ohms ${ends}\n winding secondary 5200 ohms from C-4.5 to V3.grid\n}`,
      'horn H1 2000 ohms from V3.plate to B+90',
    );
    return stability(circuit, operatingPoint(circuit)).audio.count! > 0;
  };

  // Whether it howls hangs on the way round of one primary, and on a resistance of some tens to
  // hundreds of ohms: common practice.
  it('are quiet on a fresh block', () => {
    expect([howls(5, false), howls(5, true)]).toEqual([false, false]);
  });

  it('howl one way round of a primary when the block has aged', () => {
    const found = [howls(600, false), howls(600, true)];
    expect(found).toContain(true);
  });
});
