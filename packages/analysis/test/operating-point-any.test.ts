import type { Circuit, PartDraft, PartKindName } from '@setwright/circuit';
import { builtInTubeTypes } from '@setwright/language';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { battery, ohms, onOff, part, setOf, value } from '../../../test/support/drafts.ts';
import { type OperatingPoint, operatingPoint } from '../src/index.ts';
import type { TubeLaws } from '../src/tube-law.ts';

const laws: TubeLaws = new WeakMap();
const types = [...builtInTubeTypes().values()];

/** Every number in a result, however deep, with the way to it. */
function numbersIn(result: unknown, way = ''): (readonly [string, number])[] {
  if (typeof result === 'number') return [[way, result]];
  if (typeof result !== 'object' || result === null) return [];
  if (way.endsWith('.point')) return [];
  return Object.entries(result).flatMap(([key, inner]) => numbersIn(inner, `${way}.${key}`));
}

function soundly(circuit: Circuit): OperatingPoint {
  const point = operatingPoint(circuit, undefined, { laws });
  for (const [way, found] of numbersIn(point)) {
    if (!Number.isFinite(found)) throw new Error(`${way} is ${found}`);
  }
  for (const from of circuit.endNamed.keys()) {
    const volts = point.voltage(from, [...circuit.endNamed.keys()][0]!);
    const amperes = point.current(from);
    if (volts !== undefined) expect(Number.isFinite(volts)).toBe(true);
    if (amperes !== undefined) expect(Number.isFinite(amperes)).toBe(true);
  }
  expect(point.converged || point.failures.length > 0).toBe(true);
  for (const { junction, why } of point.failures)
    expect(junction.length * why.length).toBeGreaterThan(0);
  return point;
}

/** What flows into the junctions of a set and not out again, as a share of what flows. */
function imbalance(circuit: Circuit, point: OperatingPoint): number {
  const flowsAt = circuit.junctions.map(({ terminals }) =>
    terminals.map((terminal) => point.current(terminal) ?? 0),
  );
  // Where next to nothing flows, what rounding leaves of the set's largest current is no fault.
  const none = 1e-13 * Math.max(1e-2, ...flowsAt.flat().map(Math.abs));
  let worst = 0;
  for (const flows of flowsAt) {
    const size = flows.reduce((sum, flow) => sum + Math.abs(flow), 0);
    const left = Math.abs(flows.reduce((sum, flow) => sum + flow, 0));
    if (left > none) worst = Math.max(worst, left / size);
  }
  return worst;
}

const ordinary = fc.oneof(
  fc.constantFrom(0, 0.5, 4, 20, 800, 2000, 1e4, 2.5e5, 2e6),
  fc.double({ min: 1e-3, max: 1e7, noNaN: true }),
);
const absurd = fc.oneof(
  fc.constantFrom(0, 1e-12, 1e-9, 1e-6, 1e12, 1e30, 1e300),
  fc.double({ min: 0, max: 1e12, noNaN: true }),
);

/** A part by number, with every kind of part that direct current has anything to say to. */
function partsFrom(amount: fc.Arbitrary<number>, volts: fc.Arbitrary<number>) {
  const resistive: PartKindName[] = ['resistor', 'leak', 'lead', 'phones', 'rheostat', 'fuse'];
  return (index: number): fc.Arbitrary<PartDraft> =>
    fc.oneof(
      fc
        .tuple(fc.constantFrom(...resistive), amount)
        .map(([kind, size]) => ohms(kind, `R${index}`, size)),
      fc
        .tuple(volts, volts, amount)
        .map(([first, second, size]) =>
          battery(
            `B${index}`,
            { [`a${index}`]: 0, [`b${index}`]: first, [`c${index}`]: first + second },
            { values: { resistance: value(size, 'resistance') } },
          ),
        ),
      fc.constantFrom(...types).map((tubeType) =>
        part('tube', `V${index}`, {
          tubeType,
          typeName: tubeType.name,
          ends: [
            'grid',
            'plate',
            'filament-',
            'filament+',
            ...(tubeType.screen ? ['screen'] : []),
            ...(tubeType.heated ? ['cathode'] : []),
          ],
        }),
      ),
      fc.constant(part('crystal', `CR${index}`)),
      fc.constant(part('condenser', `C${index}`)),
      fc.constant(part('lamp', `L${index}`)),
      amount.map((size) =>
        part('ballast', `K${index}`, { values: { ratedCurrent: value(size, 'current') } }),
      ),
      amount.map((size) => ohms('potentiometer', `P${index}`, size)),
      fc.constant(onOff(`S${index}`, 'closed')),
    );
}

function anySet(amount: fc.Arbitrary<number>, volts: fc.Arbitrary<number>): fc.Arbitrary<Circuit> {
  const of = partsFrom(amount, volts);
  return fc
    .tuple(
      fc
        .integer({ min: 1, max: 9 })
        .chain((count) => fc.tuple(...Array.from({ length: count }, (_, index) => of(index)))),
      fc.integer({ min: 1, max: 6 }),
      fc.array(fc.nat(), { minLength: 50, maxLength: 50 }),
    )
    .map(([parts, buses, choices]) => {
      const wires: string[][] = Array.from({ length: buses }, () => []);
      let at = 0;
      for (const draft of parts) {
        for (const end of draft.ends) {
          const choice = choices[at++ % choices.length]! % (buses + 1);
          wires[choice]?.push(draft.kind === 'battery' ? end : `${draft.name}.${end}`);
        }
      }
      return setOf(
        parts,
        wires.filter(({ length }) => length > 1).map((wire) => wire.join(' ')),
      );
    });
}

describe('any set at all', () => {
  it('of ordinary parts wired anyhow has finite numbers or a failure with a name', () => {
    let settled = 0;
    let runs = 0;
    fc.assert(
      fc.property(
        anySet(ordinary, fc.constantFrom(-45, -4.5, 0, 1.5, 6, 22.5, 45, 180)),
        (circuit) => {
          runs++;
          if (soundly(circuit).converged) settled++;
        },
      ),
      { numRuns: 600, seed: 1926 },
    );
    // Wired anyhow they still obey the laws, so a state of rest is there to be found.
    expect(settled).toBe(runs);
  });

  it('of ordinary parts obeys Kirchhoff wherever it came to rest', () => {
    fc.assert(
      fc.property(anySet(ordinary, fc.constantFrom(1.5, 6, 45)), (circuit) => {
        const point = operatingPoint(circuit, undefined, { laws });
        const hasRing = circuit.parts.some(
          ({ kind, values }) => kind === 'switch' || values.resistance?.value === 0,
        );
        if (!point.converged || hasRing) return;
        expect(imbalance(circuit, point)).toBeLessThan(1e-9);
      }),
      { numRuns: 300, seed: 1927 },
    );
  });

  it('with absurd values has finite numbers or a failure with a name', () => {
    fc.assert(
      fc.property(
        anySet(absurd, fc.oneof(fc.constantFrom(0, 1e-12, 6, 1e12, -1e12, 1e300), absurd)),
        (circuit) => {
          soundly(circuit);
        },
      ),
      { numRuns: 600, seed: 1928 },
    );
  });

  it('with 10¹² volts, ohms and amperes has finite numbers or a failure with a name', () => {
    const [tubeType] = types;
    const circuit = setOf(
      [
        battery('A', { 'A-': 0, 'A+': 1e12 }),
        battery(
          'B',
          { 'B-': 0, 'B+': 1e12 },
          { values: { resistance: value(1e12, 'resistance') } },
        ),
        ohms('leak', 'R1', 1e12),
        part('tube', 'V1', { tubeType, typeName: tubeType?.name }),
      ],
      ['A- B- V1.filament-', 'A+ V1.filament+ R1.start', 'R1.finish V1.grid', 'B+ V1.plate'],
    );
    soundly(circuit);
  });

  it('with numbers beyond reckoning is a failure that names a junction and the steps taken', () => {
    const tubeType = types.find(({ name }) => name === '01-A');
    const circuit = setOf(
      [battery('A', { 'A-': 0, 'A+': 1e200 }), part('tube', 'V1', { tubeType, typeName: '01-A' })],
      ['A- V1.filament- V1.grid', 'A+ V1.filament+ V1.plate'],
    );
    const point = soundly(circuit);
    expect(point.converged).toBe(false);
    expect(point.failures[0]?.junction).toBe('A+');
    expect(point.failures[0]?.why).toContain(`${point.iterations} steps`);
    expect(point.voltage('V1.plate', 'V1.filament-')).toBeUndefined();
    expect(point.tubes[0]?.plateCurrent).toBeUndefined();
  });

  it('with nothing in it has nothing to say', () => {
    const point = soundly(setOf([], []));
    expect(point.converged).toBe(true);
    expect(point.tubes).toEqual([]);
  });
});
