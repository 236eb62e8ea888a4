import { describe, expect, it } from 'vitest';
import { operatingPoint } from '../src/operating-point.ts';
import { regeneration, regenerationControls } from '../src/regeneration.ts';
import { selfOscillation } from '../src/self-oscillation.ts';
import { tunedCircuits } from '../src/tuned-circuits.ts';
import { exampleSets } from './reading-set.ts';

/** How the one control of an example regenerates. */
function of(name: string) {
  const circuit = exampleSets.get(name)!;
  const [control] = regenerationControls(circuit);
  return { control, by: regeneration(circuit, operatingPoint(circuit), control) };
}

describe('the control of regeneration', () => {
  it('is a tickler that turns, or a condenser that tunes nothing', () => {
    const names = (name: string) =>
      regenerationControls(exampleSets.get(name)!).map((part) => part.name);
    expect(names('one-tube-regenerative')).toEqual(['L1.tickler']);
    expect(names('two-tube')).toEqual(['C3']);
    expect(names('five-tube-trf')).toEqual([]);
  });

  it.each(['one-tube-regenerative', 'two-tube'])('of %s governs from quiet to loud', (name) => {
    const { by } = of(name);
    for (const station of [600e3, 1e6, 1.4e6]) {
      expect(by.at(station, 0)).toEqual({ tubes: [], reaches: true });
      expect(by.at(station, 1)?.tubes).toEqual(['V1']);
    }
  });

  it('begins between a stand that is quiet and one that is loud', () => {
    const { by } = of('one-tube-regenerative');
    const begins = by.begins(1e6, 'V1')!;
    expect(by.at(1e6, begins - 0.03)?.tubes).toEqual([]);
    expect(by.at(1e6, begins + 0.03)?.tubes).toEqual(['V1']);
  });

  it('begins later with coils that lose more', () => {
    const circuit = exampleSets.get('one-tube-regenerative')!;
    const [control] = regenerationControls(circuit);
    const poor = regeneration(circuit, operatingPoint(circuit), control, { quality: 60 });
    expect(poor.begins(1e6, 'V1')!).toBeGreaterThan(
      of('one-tube-regenerative').by.begins(1e6, 'V1')!,
    );
  });

  it('begins nowhere for a tube that it does not govern', () => {
    expect(of('two-tube').by.begins(1e6, 'V2')).toBeUndefined();
  });

  it('says where a circuit does not reach the station', () => {
    expect(of('two-tube').by.at(300e3, 0)?.reaches).toBe(false);
  });
});

describe('a local oscillator', () => {
  const circuit = exampleSets.get('superheterodyne')!;
  const own = tunedCircuits(circuit).find(({ name }) => name === 'L1.grid')!;
  const { oscillates } = selfOscillation(circuit, operatingPoint(circuit));

  it('oscillates over its range', () => {
    for (const frequency of [600e3, 1e6, 1.5e6])
      expect(oscillates('V2', own, frequency)).toBe(true);
  });

  it('is not known beyond its reach', () => {
    expect(oscillates('V2', own, 300e3)).toBeUndefined();
  });

  it('is no other tube', () => {
    expect(oscillates('V3', own, 1e6)).toBe(false);
  });
});
