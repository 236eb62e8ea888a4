import { describe, expect, it } from 'vitest';
import { effectOfFault } from '../src/effects/effect-of.ts';
import { soundSet } from '../src/effects/sound-set.ts';
import { faultsOf } from '../src/faults/faults-of.ts';
import { exampleSet } from './example-set.ts';

/** The tubes of a set that still click with a fault in it, in the order of the text. */
function clicking(name: string): (id: string) => string {
  const sound = soundSet(exampleSet(name));
  const faults = faultsOf(exampleSet(name));
  return (id) => {
    const fault = faults.find((each) => each.id === id);
    if (!fault) throw new Error(`${name} has no fault ${id}`);
    const { clicks } = effectOfFault(sound, fault);
    return [...clicks].flatMap(([tube, isHeard]) => (isHeard ? [tube] : [])).join(' ');
  };
}

// Common practice: a set is gone through by clicks from the loudspeaker backwards.
describe('a tap on a grid of the five-tube set', () => {
  const tubes = clicking('five-tube-trf');

  it('is heard from every tube while nothing is cut off', () => {
    expect(tubes('open ANT')).toBe('V1 V2 V3 V4 V5');
  });

  it('is heard behind an open winding, and not before it', () => {
    expect(tubes('open T2.primary')).toBe('V5');
    expect(tubes('open T1.primary')).toBe('V4 V5');
    expect(tubes('open L3.plate')).toBe('V3 V4 V5');
    expect(tubes('open L2.plate')).toBe('V2 V3 V4 V5');
  });

  it('is heard of the detector and not of the radio tubes with the grid condenser open', () => {
    expect(tubes('open C4')).toBe('V3 V4 V5');
  });

  it('is not heard of a dark tube, nor of those before it', () => {
    expect(tubes('open V3')).toBe('V4 V5');
  });

  it('is not heard where the grid lies on the filament', () => {
    expect(tubes('join V2.grid to V2.filament-')).toBe('V3 V4 V5');
  });

  it('is heard by no tube with the horn open', () => {
    expect(tubes('open H1')).toBe('');
  });

  it('is heard in a set that is only weak', () => {
    expect(tubes('weak V1 50 %')).toBe('V1 V2 V3 V4 V5');
  });
});

describe('a tap on a grid of the superheterodyne', () => {
  const tubes = clicking('superheterodyne');

  it('comes through by the intermediate frequency though the oscillator is dead', () => {
    expect(tubes('open V2')).toBe('V1 V3 V4 V5 V6 V7');
  });

  it('is cut off by an intermediate transformer', () => {
    expect(tubes('open T2.primary')).toBe('V4 V5 V6 V7');
  });
});
