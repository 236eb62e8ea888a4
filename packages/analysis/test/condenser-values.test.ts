import { asDrawn } from '@setwright/circuit';
import { describe, expect, it } from 'vitest';
import { condenserValues, radioGroups, strayCapacities } from '../src/index.ts';
import { exampleSets, setFrom } from './reading-set.ts';

function condenser(line: string) {
  const circuit = setFrom(line);
  const part = circuit.partNamed.get('C1');
  const values = part && condenserValues(circuit, part);
  if (!values) throw new Error('no condenser');
  const mmfd = (farads: number | undefined) => (farads ?? Number.NaN) * 1e12;
  return { ...values, mmfd: [mmfd(values.least.value), mmfd(values.most.value)] as const };
}

describe('a condenser', () => {
  it('of .00025 mfd and 20 % is that, give or take a fifth', () => {
    const { now } = condenser('condenser C1 .00025 mfd 20 %');
    expect(now.value).toBeCloseTo(250e-12, 16);
    expect(now.value === undefined ? undefined : now.because.relativeError).toBeCloseTo(0.2, 9);
  });

  it('that is variable spans its range and stands nowhere until it is set', () => {
    const { mmfd, now } = condenser('condenser C1 variable 14 to 365 mmfd');
    expect(mmfd[0]).toBeCloseTo(14, 9);
    expect(mmfd[1]).toBeCloseTo(365, 9);
    expect(now).toEqual({ value: undefined, missing: ['where C1 stands'] });
  });

  it('of half-round plates set half way stands half way in capacity', () => {
    const { now } = condenser('condenser C1 variable 20 to 500 mmfd law capacity set 50 %');
    expect((now.value ?? 0) * 1e12).toBeCloseTo(260, 6);
  });

  it('of 17 plates is the .00035 of the trade, and that is said', () => {
    // 17 plates .00035, 23 plates .0005 mfd: common practice.
    const { mmfd, most } = condenser('condenser C1 variable 17 plates');
    expect(mmfd[1]).toBeCloseTo(350, 6);
    expect(most.value === undefined ? [] : most.because.assumed).toHaveLength(1);
  });

  it('of which nothing is said has no value', () => {
    expect(condenser('condenser C1').most).toEqual({
      value: undefined,
      missing: ['the capacity of C1'],
    });
  });

  it('that is a trimmer nobody set is taken as backed off', () => {
    expect((condenser('condenser C1 trimmer 2 to 30 mmfd').now.value ?? 0) * 1e12).toBeCloseTo(
      2,
      9,
    );
  });
});

describe('strays', () => {
  it('stand at the live ends of windings and at grids and plates, not on the ground side', () => {
    const circuit = exampleSets.get('one-tube-regenerative');
    if (!circuit) throw new Error('no such set');
    const points = radioGroups(circuit, asDrawn);
    const strays = strayCapacities(circuit, points);
    const at = (terminal: string) =>
      (strays.find(({ point }) => point === points.ofEnd(terminal))?.farads ?? 0) * 1e12;
    expect(at('L1.grid.finish')).toBeCloseTo(10, 9);
    expect(at('V1.grid')).toBeCloseTo(5, 9);
    expect(at('L1.grid.start')).toBe(0);
  });
});
