import { describe, expect, it } from 'vitest';
import { operatingPoint } from '../src/operating-point.ts';
import { windingValues } from '../src/winding-values.ts';
import { setFrom } from './reading-set.ts';

/** A coil of 40 turns across a cell of 1.5 V, as it is at rest. */
function across(winding: string, from = 'L1.grid.start', more = ''): number {
  const circuit = setFrom(
    'battery A dry {\n tap A- 0 V\n tap A+ 1.5 V\n resistance 1 ohms\n}',
    `coil L1 {\n form 3 in\n winding grid 40 turns ${winding}\n}`,
    `wire A+ to ${from}`,
    'wire L1.grid.finish to A-',
    more,
  );
  const amperes = Math.abs(operatingPoint(circuit).current('A.A+') ?? Number.NaN);
  // What the cell itself loses is known: the rest lies across the winding.
  return (1.5 - amperes) / amperes;
}

describe('the ohms of a winding at rest', () => {
  it('are those of its wire where the text gives its make alone', () => {
    // 40 turns on 3 inches are 32 feet of No. 22, 16.1 ohms to 1000 feet at 20 degrees: copper
    // wire tables, NBS Circular 31 (1914), from memory.
    expect(across('of 22 DCC')).toBeCloseTo(0.0161 * 32, 1);
    expect(across('of 22 DCC')).toBeGreaterThan(0.5);
  });

  it('are as stated where they are stated', () => {
    expect(across('of 22 DCC 3 ohms')).toBeCloseTo(3, 6);
  });

  it('go by the turns from a tap on', () => {
    const whole = across('of 22 DCC tap 10');
    expect(across('of 22 DCC tap 10', 'L1.grid.tap10')).toBeCloseTo(0.75 * whole, 6);
  });

  it('are usual ones where the wire is not told', () => {
    expect(across('length 2 in')).toBeCloseTo(1, 6);
  });

  it('are the same as the winding by itself has', () => {
    const circuit = setFrom('coil L1 {\n form 3 in\n winding grid 40 turns of 22 DCC\n}');
    const part = circuit.partNamed.get('L1.grid')!;
    expect(across('of 22 DCC')).toBeCloseTo(windingValues(circuit, part).resistance.value!, 6);
  });
});
