import { describe, expect, it } from 'vitest';
import { standingOf } from '../src/chart/rest-source.ts';
import { edited } from '../src/index.ts';
import { setOf } from './example-set.ts';

const circuit = setOf(`receiver "supplies" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+22
    tap B+45 45 V
    resistance 20 ohms
  }
  battery C dry {
    tap C+
    tap C-4.5
  }
  wire B- to A- to C+
}`);
const standing = standingOf(circuit, { laws: new WeakMap(), wires: new WeakMap() });

function weak(target: string) {
  const { circuit: tired, refused } = edited(standing, [{ verb: 'weak', target }]);
  expect(refused).toEqual([]);
  return (tap: string): number | undefined => {
    for (const { supplyTaps } of tired.parts)
      for (const each of supplyTaps) if (each.end === tap) return each.volts;
    return undefined;
  };
}

describe('a tired battery', () => {
  // From memory: the convention of the United States; British dealers of 1926 threw a block of 45
  // volts out at 38, those of 1928 at 36.
  it('of 45 volts is thrown out at 34: 17 volts for each 22.5', () =>
    expect(weak('B')('B+45')).toBeCloseTo(34, 6));

  it('of lead cells is down at 1.8 volts each: common practice', () =>
    expect(weak('A')('A+')).toBeCloseTo(5.4, 6));

  it('has gone up in resistance: hundreds of ohms, common practice', () => {
    const { circuit: tired } = edited(standing, [{ verb: 'weak', target: 'B' }]);
    expect(tired.partNamed.get('B')?.values.resistance?.value).toBeGreaterThan(100);
  });

  it('may be one block of a battery: the taps above it come down with it', () => {
    const volts = weak('B.B+22');
    const lost = 22 * (1 - 17 / 22.5);
    expect(volts('B+22')).toBeCloseTo(22 - lost, 6);
    expect(volts('B+45')).toBeCloseTo(45 - lost, 6);
  });
});
