import { describe, expect, it } from 'vitest';
import { readingsOf } from '../src/index.ts';
import { suspectsOf } from '../src/suspects/suspects-of.ts';
import { exampleText, setOf } from './example-set.ts';

/** The two-tube set with a tube of which no plate current is known, and a bench. */
const circuit = setOf(
  `${exampleText('two-tube')
    .replace(/tube V2 \S+/, 'tube V2 997')
    .replace(/ {2}bench "[\s\S]*$/, '')}
  bench "strange" {
    meter 10 megohms 1 %
    reading V1.plate 0 V
    reading T1.primary 900 ohms lifted
  }
}

tube type 997 "what nobody measured" {
  base UX
  filament 5 V 0.25 A
}
`,
);
const [bench] = circuit.benches;

describe('a tube of which it is not known what it draws', () => {
  const { readings } = readingsOf(circuit, { bench });
  const of = (at: string) => readings.find((each) => each.at.startsWith(at));

  it('leaves the volts of the set unknown, and says why', () => {
    expect(of('V1.plate')?.expected).toBeUndefined();
    expect(of('V1.plate')?.why).toBe('what V2 draws is not known');
  });

  it('does not touch ohms', () => {
    expect(of('T1.primary')?.expected?.value).toBeCloseTo(900, -1);
  });

  it('makes no suspect of a reading that cannot be told', () => {
    if (!bench) throw new Error('the set has no bench');
    const { suspects, sound } = suspectsOf(circuit, bench);
    for (const { speaksFor } of suspects.slice(0, 5))
      expect(speaksFor.join()).not.toMatch(/V1.plate/);
    expect(sound).toBeGreaterThan(0);
  });
});
