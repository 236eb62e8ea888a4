import { describe, expect, it } from 'vitest';
import { effectOfFault } from '../src/effects/effect-of.ts';
import { soundSet } from '../src/effects/sound-set.ts';
import { broadDialsOf, clickOf } from '../src/effects/symptoms.ts';
import { faultsOf } from '../src/faults/faults-of.ts';
import { exampleSet } from './example-set.ts';

/** What a fault of a set does to its clicks and dials. */
function effects(name: string): (id: string) => ReturnType<typeof effectOfFault> {
  const sound = soundSet(exampleSet(name));
  const faults = faultsOf(exampleSet(name));
  return (id) => {
    const fault = faults.find((each) => each.id === id);
    if (!fault) throw new Error(`${name} has no fault ${id}`);
    return effectOfFault(sound, fault);
  };
}

/** The tubes of a set that still click with a fault in it, in the order of the text. */
function clicking(name: string, but: readonly string[] = ['silent']): (id: string) => string {
  const effectOf = effects(name);
  return (id) =>
    [...effectOf(id).clicks]
      .flatMap(([tube, louder]) => (but.includes(clickOf(louder)) ? [] : [tube]))
      .join(' ');
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

describe('a tap on a grid that is heard less than it was', () => {
  const faint = clicking('five-tube-trf', ['silent', 'heard']);

  it('tells where loudness is lost: behind that tube, and not before it', () => {
    expect(faint('turns 7000 shorted in T1.secondary')).toBe('V1 V2 V3');
    expect(faint('turns 6000 shorted in T2.secondary')).toBe('V1 V2 V3 V4');
  });

  it('is told of no tube where the aerial is what fails', () => {
    expect(faint('open ANT')).toBe('');
  });
});

// Common practice: a damp coil or a bad rotor contact tunes broadly, and its own dial tells it.
describe('a station on the dials of the five-tube set', () => {
  const effectOf = effects('five-tube-trf');
  const broad = (id: string): string => broadDialsOf(effectOf(id)).join(' ');

  it('is broad on the dial of the coil that is damp', () => {
    expect(broad('damped L1.grid to Q 20')).toBe('D1');
    expect(broad('damped L2.grid to Q 20')).toBe('D2');
    expect(broad('damped L3.grid to Q 20')).toBe('D3');
  });

  it('is broad on the dial of the condenser whose rotor makes bad contact', () => {
    expect(broad('change C2.rotor to 50 ohms')).toBe('D2');
  });

  it('is as sharp as ever where the audio is what fails', () => {
    expect(broad('turns 7000 shorted in T1.secondary')).toBe('');
    expect(broad('weak V5 50 %')).toBe('');
  });

  it('does not come in at all, sharp or broad, on a dial without effect', () => {
    const { deadDials, dialsLeft } = effectOf('open C2');
    expect(deadDials).toEqual(['D2']);
    expect(dialsLeft.get('D2')).toBeLessThan(0.1);
    expect(broad('open C2')).not.toContain('D2');
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
