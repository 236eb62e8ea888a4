import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as physics from '../src/index.ts';

/** Numbers as they come out of half-typed texts and failed arithmetic. */
const anyNumber = fc.oneof(
  { weight: 4, arbitrary: fc.double({ min: -10, max: 1000, noNaN: true }) },
  { weight: 2, arbitrary: fc.double() },
  { weight: 1, arbitrary: fc.constantFrom(0, -0, 1, NaN, Infinity, -Infinity, 1e-300, 1e300) },
);
const record = <K extends string>(...names: readonly K[]) =>
  fc.record(
    Object.fromEntries(names.map((name) => [name, anyNumber])) as Record<K, typeof anyNumber>,
  );

const coil = record('turns', 'radius', 'pitch', 'wireDiameter');
const winding = record('turns', 'radius', 'length', 'position', 'depth');
const section = record('from', 'to');
const triode = record('perveance', 'mu', 'offset');
const triodeVoltages = record('plate', 'grid', 'filament');
const screenGrid = record('perveance', 'screenMu', 'offset', 'kneeVoltage', 'plateShare');
const screenVoltages = record('plate', 'screen', 'grid', 'filament');
const grid = record('zeroCurrent', 'slopeVoltage', 'perveance');
const gridSlopes = record('current', 'conductance', 'curvature');
const stage = record('mu', 'plateResistance', 'frequency', 'secondary', 'q');
const law = fc.constantFrom<physics.PlateLaw>('capacity', 'wavelength', 'frequency');
const condenser = fc
  .tuple(record('minimum', 'maximum', 'stray'), law)
  .map(([values, plates]) => ({ ...values, law: plates }));
const cathode = fc.constantFrom<physics.CathodeKind>('tungsten', 'thoriated', 'oxide');
const covering = fc.constantFrom<physics.WireCovering>('bare', 'enamel', 'SSC', 'SCC', 'DCC');
const gauge = fc.constantFrom<physics.GaugeSystem>('B&S', 'SWG');
const turn = record('radius', 'position');
const turns = fc.array(turn, { maxLength: 4 });
const triodePoints = fc.array(record('plate', 'grid', 'current', 'transconductance'), {
  maxLength: 3,
});
const screenPoints = fc.array(
  record('plate', 'screen', 'grid', 'current', 'screenCurrent', 'plateResistance'),
  { maxLength: 2 },
);

/** Functions that take something besides numbers, with what they take. */
const SPECIAL: Readonly<Record<string, readonly fc.Arbitrary<unknown>[]>> = {
  coilResistance: [coil, anyNumber],
  coilQ: [coil, anyNumber],
  singleLayerInductance: [coil],
  turnByTurnInductance: [coil],
  stretchInductance: [coil, anyNumber],
  sectionMutualInductance: [coil, section, section],
  mutualInductance: [winding, winding],
  thickCoilInductance: [winding, anyNumber],
  sectionOf: [winding, anyNumber, anyNumber],
  turnsOf: [winding, anyNumber],
  mutualOfTurns: [turns, turns],
  selfOfTurns: [turns, anyNumber],
  turnField: [turn, anyNumber, anyNumber],
  fieldProximityRatio: [turns, anyNumber],
  singleTurnInductance: [anyNumber, anyNumber, fc.boolean()],
  wavelength: [anyNumber, fc.boolean()],
  dialReading: [anyNumber, anyNumber, anyNumber, fc.boolean()],
  dialFraction: [anyNumber, anyNumber, anyNumber, fc.boolean()],
  capacitanceAtDial: [condenser, anyNumber],
  dialAtCapacitance: [condenser, anyNumber],
  emissionRatio: [cathode, anyNumber],
  emissionState: [cathode, anyNumber],
  emissionInto: [cathode, anyNumber, fc.constant({})],
  limitedInto: [anyNumber, anyNumber, fc.constant({})],
  typicalSaturation: [cathode, anyNumber],
  wireDiameter: [anyNumber, gauge],
  tabledTurnsPerInch: [anyNumber, covering],
  coveredDiameter: [anyNumber, covering],
  triodeState: [triode, triodeVoltages, anyNumber],
  triodeInto: [triode, anyNumber, anyNumber, anyNumber, anyNumber, fc.constant({})],
  plateResistance: [record('plateConductance')],
  fitTriode: [triodePoints, anyNumber, anyNumber],
  screenGridState: [screenGrid, screenVoltages, anyNumber],
  fitScreenGrid: [screenPoints, anyNumber],
  gridState: [grid, anyNumber],
  gridInto: [grid, anyNumber, fc.constant({})],
  gridLeakRest: [grid, anyNumber, anyNumber],
  gridDetectionShift: [gridSlopes, anyNumber, anyNumber],
  gridDetectionAudio: [gridSlopes, anyNumber, anyNumber, anyNumber],
  tunedTransformerGain: [stage, anyNumber],
  bestMutualInductance: [stage],
  bestTunedTransformerGain: [stage],
  loadedSecondaryQ: [stage, anyNumber],
};

/** Every number anywhere in an answer. */
function numbersIn(value: unknown): readonly number[] {
  if (typeof value === 'number') {
    return [value];
  }
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersIn) : [];
}

describe('no input whatever makes it throw or answer with no number', () => {
  const functions = Object.entries(physics as Record<string, unknown>).flatMap(
    ([name, exported]) =>
      typeof exported === 'function'
        ? [[name, exported as (...values: readonly unknown[]) => unknown] as const]
        : [],
  );

  it.each(functions)('%s', (name, physicsFunction) => {
    const plain = Array.from({ length: physicsFunction.length }, () => anyNumber);
    const takes: readonly fc.Arbitrary<unknown>[] = SPECIAL[name] ?? plain;
    fc.assert(
      fc.property(fc.tuple(...takes), (values) => {
        for (const number of numbersIn(physicsFunction(...values))) {
          expect(Number.isFinite(number)).toBe(true);
        }
      }),
      { seed: 21, numRuns: name === 'fitScreenGrid' ? 20 : 400 },
    );
  });
});
