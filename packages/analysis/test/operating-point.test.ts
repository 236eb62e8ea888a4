import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Circuit, PartDraft, TubeType } from '@setwright/circuit';
import { builtInTubeTypes, readReceivers } from '@setwright/language';
import { describe, expect, it } from 'vitest';
import { bigSet } from '../../../test/support/big-set.ts';
import {
  battery,
  filamentType,
  nowhere,
  ohms,
  part,
  setOf,
  tube,
  type99,
  value,
} from '../../../test/support/drafts.ts';
import { type OperatingPoint, operatingPoint } from '../src/index.ts';
import { type TubeLaws, tubeLawOf } from '../src/tube-law.ts';

const laws: TubeLaws = new WeakMap();
const types = builtInTubeTypes();

function type(name: string): TubeType {
  const found = types.get(name);
  if (!found) throw new Error(`no type ${name}`);
  return found;
}

/** A battery of next to no resistance. */
function stiff(name: string, taps: Record<string, number>): PartDraft {
  return battery(name, taps, { values: { resistance: value(1e-3, 'resistance') } });
}

/** A tube of a type with all the ends that the type has. */
function tubeOf(name: string, tubeType: TubeType): PartDraft {
  const ends = ['grid', 'plate', 'filament-', 'filament+'];
  if (tubeType.screen) ends.push('screen');
  if (tubeType.heated) ends.push('cathode');
  return part('tube', name, { tubeType, typeName: tubeType.name, ends });
}

function read(text: string): Circuit {
  return readReceivers(text, 'test.receiver').circuits[0]!;
}

function example(name: string, edit: (text: string) => string = (text) => text): Circuit {
  const file = join(import.meta.dirname, '../../../examples', name);
  return read(edit(readFileSync(file, 'utf8')));
}

function rest(circuit: Circuit): OperatingPoint {
  return operatingPoint(circuit, undefined, { laws });
}

function named(point: OperatingPoint, name: string) {
  const found = point.tubes.find((each) => each.tube === name);
  if (!found) throw new Error(`no tube ${name}`);
  return found;
}

const milliamperes = (amperes: number | undefined): number => 1e3 * (amperes ?? Number.NaN);

function tap(point: OperatingPoint, supply: string, name: string) {
  return point.supplies
    .find((each) => each.supply === supply)
    ?.taps.find((each) => each.tap === name);
}

/** One tube of a type with stiff batteries on every electrode. */
function alone(tubeType: TubeType, plate: number, grid: number, screen = 0): Circuit {
  const volts = tubeType.filamentVolts ?? 0;
  const home = tubeType.heated ? 'V1.cathode' : 'V1.filament-';
  return setOf(
    [
      stiff('A', { 'A-': 0, 'A+': volts }),
      stiff('B', { 'B-': 0, 'B+': plate }),
      stiff('C', { 'C-': grid, 'C+': 0 }),
      ...(tubeType.screen ? [stiff('S', { 'S-': 0, 'S+': screen })] : []),
      tubeOf('V1', tubeType),
    ],
    [
      `A- V1.filament- B- C+${tubeType.heated ? ' V1.cathode' : ''}`,
      'A+ V1.filament+',
      'B+ V1.plate',
      'C- V1.grid',
      ...(tubeType.screen ? [`S- ${home}`, 'S+ V1.screen'] : []),
    ],
  );
}

describe('a tube in a plain circuit at a published point of its type', () => {
  const points = [...types.values()].flatMap((tubeType) =>
    tubeLawOf(tubeType, laws).fitted.map(({ point }) => ({
      name: tubeType.name,
      tubeType,
      point,
      plate: point.plateVolts,
      grid: point.gridVolts,
    })),
  );

  // The sources stand beside the points in the tube library.
  it.each(points)(
    'of type $name draws at $plate and $grid volts what is printed, within 10 %',
    ({ tubeType, point }) => {
      const circuit = alone(tubeType, point.plateVolts, point.gridVolts, point.screenVolts);
      const found = named(rest(circuit), 'V1').plateCurrent?.value ?? 0;
      expect(Math.abs(found / (point.plateAmperes ?? 0) - 1)).toBeLessThan(0.1);
    },
  );

  it('every type of the library has a law, and most of its points stand', () => {
    for (const tubeType of types.values()) {
      const law = tubeLawOf(tubeType, laws);
      expect(law.plate, tubeType.name).toBeDefined();
      expect(law.leftOut.length, tubeType.name).toBeLessThan(law.fitted.length);
    }
  });

  it('a point that is left out is contradicted by one that stands at the same volts', () => {
    let compared = 0;
    for (const tubeType of types.values()) {
      const { fitted, leftOut } = tubeLawOf(tubeType, laws);
      for (const { plateVolts, gridVolts, plateAmperes } of leftOut) {
        const differs = fitted.some(
          ({ point }) =>
            point.plateVolts === plateVolts &&
            point.gridVolts === gridVolts &&
            Math.abs((plateAmperes ?? 0) / (point.plateAmperes ?? Number.NaN) - 1) > 0.1,
        );
        expect(differs, `${tubeType.name} at ${plateVolts} volts`).toBe(true);
        compared++;
      }
    }
    expect(compared).toBeGreaterThan(3);
  });
});

describe('the five-tube set of 01-A', () => {
  const point = rest(example('five-tube-trf.receiver'));

  // Computed roughly for such a set with the three-halves law; common practice, within 20 %.
  it.each([
    ['B+45', 1.74],
    ['B+67', 5.58],
    ['B+90', 3.45],
    ['B-', -10.8],
  ])('gives in the %s lead about %f mA', (name, expected) => {
    const found = milliamperes(tap(point, 'B', name)?.amperes?.value);
    expect(Math.abs(found / expected - 1)).toBeLessThan(0.2);
  });

  it.each([
    ['V5', 84.8],
    ['V4', 87],
    ['V3', 42.3],
    ['V2', 66.2],
    ['V1', 66.2],
  ])('stands at the plate of %s at about %f volts', (name, expected) => {
    // A quarter of what lies between tap and plate, and a volt for the rheostat: 2 volts.
    expect(Math.abs((named(point, name).plateVolts?.value ?? 0) - expected)).toBeLessThan(2);
  });

  it('has 5.5 volts of bias on the audio tubes: the C battery and a volt from the rheostat', () => {
    expect(named(point, 'V4').bias?.value).toBeCloseTo(-5.5, 1);
    expect(named(point, 'V5').bias?.value).toBeCloseTo(-5.5, 1);
  });

  it('has a volt of bias on the radio tubes, from the rheostat alone', () => {
    expect(named(point, 'V1').bias?.value).toBeCloseTo(-1, 1);
  });

  it('draws a quarter ampere for each tube, and 80 hours from 100 Ah', () => {
    expect(point.supplies[0]?.drain?.value).toBeCloseTo(1.24, 2);
    // 100 Ah over 1.2426 A.
    expect(point.supplies[0]?.hours?.value).toBeCloseTo(80.5, 0);
  });

  it('says why: the bias names both terminals and where the text joins them', () => {
    const because = named(point, 'V4').bias?.because;
    expect(because?.formula).toBe('V(V4.grid) − V(V4.filament-)');
    expect(because?.facts.map(({ place }) => place?.file)).toEqual([
      'test.receiver',
      'test.receiver',
    ]);
  });

  it('a flat C battery about doubles the audio tubes, and the primary hides it', () => {
    const flat = rest(
      example('five-tube-trf.receiver', (text) => text.replace('tap C-4.5', 'tap C-4.5 0 V')),
    );
    const before = named(point, 'V4');
    const after = named(flat, 'V4');
    const ratio = (after.plateCurrent?.value ?? 0) / (before.plateCurrent?.value ?? 1);
    expect(ratio).toBeGreaterThan(1.8);
    expect(ratio).toBeLessThan(3);
    const fall = (before.plateVolts?.value ?? 0) - (after.plateVolts?.value ?? 0);
    expect(fall).toBeGreaterThan(0.5);
    expect(fall).toBeLessThan(4);
  });

  it('a dead filament raises its own plate to the tap', () => {
    const dead = rest(
      example('five-tube-trf.receiver', (text) =>
        text.replace(
          'tube V5 01-A {\n      filament from RH3 to A+\n',
          'tube V5 01-A {\n      filament from RH3\n',
        ),
      ),
    );
    const v5 = named(dead, 'V5');
    expect(v5.filamentVolts?.value).toBeCloseTo(0, 9);
    expect(milliamperes(v5.plateCurrent?.value)).toBeCloseTo(0, 9);
    // Its own F− is at the end of a rheostat with less current in it.
    expect(dead.voltage('V5.plate', 'B.B-')).toBeCloseTo(
      dead.voltage('B.B+90', 'B.B-') ?? Number.NaN,
      6,
    );
  });
});

describe('filaments', () => {
  const shared = (names: readonly string[], tubeType: TubeType, volts: number) =>
    setOf(
      [
        stiff('A', { 'A-': 0, 'A+': volts }),
        ohms('rheostat', 'RH1', 60),
        ...names.map((name) => tube(name, tubeType)),
      ],
      [
        'A- RH1.start',
        `RH1.finish ${names.map((name) => `${name}.filament-`).join(' ')}`,
        `A+ ${names.map((name) => `${name}.filament+`).join(' ')}`,
      ],
    );
  const type01A = type('01-A');
  const five = ['V1', 'V2', 'V3', 'V4', 'V5'];

  // Common practice, computed roughly: one tube left of five or two on a shared rheostat.
  it.each([
    ['five 99 on 6 V, four pulled', five, type99, 6, 60],
    ['two 99 on 4.5 V, one pulled', ['V1', 'V2'], type99, 4.5, 16],
    ['five 01-A on 6 V, four pulled', five, type01A, 6, 16],
  ] as const)('%s', (_, names, tubeType, volts, percent) => {
    const point = rest(shared(names, tubeType, volts));
    const rated = tubeType.filamentVolts ?? 0;
    expect(named(point, 'V1').filamentVolts?.value).toBeCloseTo(rated, 5);
    const left = point.solveWithout(names.slice(1)).tubes;
    expect(left).toHaveLength(1);
    const rise = 100 * ((left[0]?.filamentVolts?.value ?? 0) / rated - 1);
    expect(Math.abs(rise - percent)).toBeLessThan(2);
  });

  it('a rheostat with no setting counts what the plates add to the filament lead', () => {
    const point = rest(example('bare-wiring.receiver'));
    for (const { filamentVolts } of point.tubes) expect(filamentVolts?.value).toBeCloseTo(5, 5);
    for (const { outcome } of point.controls) expect(outcome).toBe('rated');
  });

  it('are cold far below hot: at a fifth of a volt more than a quarter of the current', () => {
    const circuit = setOf(
      [stiff('A', { 'A-': 0, 'A+': 0.2 }), tube('V1')],
      ['A- V1.filament-', 'A+ V1.filament+'],
    );
    const amperes = named(rest(circuit), 'V1').filamentAmperes?.value ?? 0;
    // At its hot resistance of 20 ohms it would take 0.01 A.
    expect(amperes).toBeGreaterThan(0.02);
    expect(amperes).toBeLessThan(0.25);
  });

  it('too cold to emit leave the plate without current', () => {
    const cold = { ...type('01-A'), filamentVolts: 5 };
    const circuit = setOf(
      [stiff('A', { 'A-': 0, 'A+': 2 }), stiff('B', { 'B-': 0, 'B+': 90 }), tubeOf('V1', cold)],
      ['A- B- V1.filament- V1.grid', 'A+ V1.filament+', 'B+ V1.plate'],
    );
    const lit = named(rest(alone(type('01-A'), 90, 0)), 'V1').plateCurrent?.value ?? 0;
    expect(named(rest(circuit), 'V1').plateCurrent?.value ?? 1).toBeLessThan(lit / 50);
  });

  it('bend the plate current down a little at 10 % under', () => {
    const at = (volts: number) => {
      const circuit = setOf(
        [
          stiff('A', { 'A-': 0, 'A+': volts }),
          stiff('B', { 'B-': 0, 'B+': 90 }),
          tubeOf('V1', type('01-A')),
        ],
        ['A- B- V1.filament- V1.grid', 'A+ V1.filament+', 'B+ V1.plate'],
      );
      return named(rest(circuit), 'V1').plateCurrent?.value ?? 0;
    };
    expect(Math.abs(at(4.5) / at(5) - 1)).toBeLessThan(0.1);
    expect(at(3)).toBeLessThan(0.7 * at(5));
  });
});

describe('grids', () => {
  const floating = (extra: readonly PartDraft[], wires: readonly string[]) =>
    setOf(
      [
        stiff('A', { 'A-': 0, 'A+': 5 }),
        stiff('B', { 'B-': 0, 'B+': 45 }),
        tubeOf('V1', type('01-A')),
        ...extra,
      ],
      ['A- B- V1.filament-', 'A+ V1.filament+', 'B+ V1.plate', ...wires],
    );

  it('behind a condenser with no leak are free, and told so instead of a voltage', () => {
    const point = rest(floating([part('condenser', 'C1')], ['C1.finish V1.grid', 'C1.start A-']));
    const v1 = named(point, 'V1');
    expect(point.converged).toBe(true);
    expect(v1.bias).toBeUndefined();
    expect(point.voltage('V1.grid', 'V1.filament-')).toBeUndefined();
    expect(v1.gridCurrent?.value).toBe(0);
    // Common practice: -1.2 to -1.5 volts.
    expect(v1.freeGrid?.value).toBeLessThan(-1.2);
    expect(v1.freeGrid?.value).toBeGreaterThan(-1.5);
    expect(v1.plateCurrent?.value).toBeGreaterThan(0);
  });

  it('with the C battery lead off hang on it together: the highest is free, the others below', () => {
    const point = rest(
      example('neutralized-five.receiver', (text) =>
        text.replace('wire B- to A- to C+ to GND', 'wire B- to A- to GND'),
      ),
    );
    const free = named(point, 'V4').freeGrid?.value ?? 0;
    expect(free).toBeLessThan(-1.2);
    expect(free).toBeGreaterThan(-1.5);
    // Their filaments stand within a tenth of a volt of each other.
    expect(Math.abs((named(point, 'V5').freeGrid?.value ?? 0) - (free - 4.5))).toBeLessThan(0.1);
    expect(named(point, 'V5').bias).toBeUndefined();
    // Between themselves their volts are known.
    expect(point.voltage('V4.grid', 'V5.grid')).toBeCloseTo(4.5, 6);
  });

  it('with a leak to A+ draw what brings them to the foot of their current', () => {
    const point = rest(floating([ohms('leak', 'R1', 2e6)], ['R1.start V1.grid', 'R1.finish A+']));
    const v1 = named(point, 'V1');
    const bias = v1.bias?.value ?? Number.NaN;
    expect(bias).toBeGreaterThan(-0.5);
    expect(bias).toBeLessThan(0.6);
    expect(v1.gridCurrent?.value).toBeCloseTo((5 - bias) / 2e6, 9);
  });

  it('put straight on A+ draw from it, and a grid 4.5 volts down draws nothing', () => {
    const high = named(rest(floating([], ['V1.grid A+'])), 'V1').gridCurrent?.value ?? 0;
    const low = named(rest(alone(type('01-A'), 45, -4.5)), 'V1').gridCurrent?.value ?? 1;
    expect(high).toBeGreaterThan(1e-4);
    expect(low).toBeLessThan(1e-12);
  });
});

describe('batteries', () => {
  it('what B+90 gives flows through the 45 volt block as well', () => {
    const circuit = setOf(
      [
        battery(
          'B',
          { 'B-': 0, 'B+45': 45, 'B+90': 90 },
          { values: { resistance: value(30, 'resistance'), capacity: value(18_000, 'charge') } },
        ),
        ohms('resistor', 'R1', 9000),
        ohms('resistor', 'R2', 9000),
      ],
      ['B- R1.start R2.start', 'B+45 R1.finish', 'B+90 R2.finish'],
    );
    const point = rest(circuit);
    const low = tap(point, 'B', 'B+45');
    const high = tap(point, 'B', 'B+90');
    // Meshes: 45 = 15 (i + j) + 9000 i and 90 = 15 (i + j) + 15 j + 9000 j, by hand.
    const determinant = 9015 * 9030 - 15 * 15;
    const i = (45 * 9030 - 90 * 15) / determinant;
    const j = (90 * 9015 - 45 * 15) / determinant;
    expect(low?.amperes?.value).toBeCloseTo(i, 12);
    expect(high?.amperes?.value).toBeCloseTo(j, 12);
    expect(tap(point, 'B', 'B-')?.amperes?.value).toBeCloseTo(-i - j, 12);
    expect(low?.volts?.value).toBeCloseTo(45 - 15 * (i + j), 9);
    expect(point.supplies[0]?.drain?.value).toBeCloseTo(i + j, 12);
    // 5 Ah.
    expect(point.supplies[0]?.hours?.value).toBeCloseTo(5 / (i + j), 6);
  });

  it('an eliminator stands at its stated volts at its stated load, and higher without', () => {
    const eliminator = part('eliminator', 'B', {
      ends: ['B-', 'B+90'],
      supplyTaps: [
        { end: 'B-', volts: 0, said: undefined, resistance: undefined, atLoad: undefined },
        { end: 'B+90', volts: 90, said: undefined, resistance: 8000, atLoad: 3e-3 },
      ].map((each) => ({ ...each, place: nowhere })),
    });
    const loaded = rest(
      setOf([eliminator, ohms('resistor', 'R1', 30_000)], ['B- R1.start', 'B+90 R1.finish']),
    );
    expect(tap(loaded, 'B', 'B+90')?.volts?.value).toBeCloseTo(90, 6);
    expect(milliamperes(tap(loaded, 'B', 'B+90')?.amperes?.value)).toBeCloseTo(3, 9);
    expect(tap(rest(setOf([eliminator], [])), 'B', 'B+90')?.volts?.value).toBeCloseTo(114, 6);
  });

  it('an eliminator has to give what all its taps give together', () => {
    const taps = [
      { end: 'B-', volts: 0, resistance: undefined, atLoad: undefined },
      { end: 'B+45', volts: 45, resistance: 10_000, atLoad: 1e-3 },
      { end: 'B+90', volts: 90, resistance: 5_000, atLoad: 5e-3 },
    ];
    const eliminator = part('eliminator', 'B', {
      ends: taps.map(({ end }) => end),
      supplyTaps: taps.map((each) => ({ ...each, said: undefined, place: nowhere })),
    });
    const circuit = setOf(
      [eliminator, ohms('resistor', 'R1', 45_000), ohms('resistor', 'R2', 18_000)],
      ['B- R1.start R2.start', 'B+45 R1.finish', 'B+90 R2.finish'],
    );
    // 45 volts over 45 kilohms and 90 over 18, as stated: 1 and 5 milliamperes.
    expect(milliamperes(rest(circuit).supplies[0]?.drain?.value)).toBeCloseTo(6, 9);
  });

  it('two with no common point float: no plate current, and no volts between them', () => {
    const circuit = setOf(
      [
        stiff('A', { 'A-': 0, 'A+': 5 }),
        stiff('B', { 'B-': 0, 'B+': 90 }),
        tubeOf('V1', type('01-A')),
      ],
      ['A- V1.filament- V1.grid', 'A+ V1.filament+', 'B+ V1.plate'],
    );
    const point = rest(circuit);
    expect(point.converged).toBe(true);
    expect(point.voltage('B.B-', 'A.A-')).toBeUndefined();
    expect(point.voltage('B.B+', 'B.B-')).toBeCloseTo(90, 6);
    expect(named(point, 'V1').plateCurrent?.value).toBe(0);
    expect(named(point, 'V1').plateVolts).toBeUndefined();
    expect(named(point, 'V1').filamentVolts?.value).toBeGreaterThan(4.99);
  });

  it('in a ring drive what their difference drives through their resistances', () => {
    const circuit = setOf(
      [
        battery('B1', { 'P-': 0, 'P+': 45 }, { values: { resistance: value(10, 'resistance') } }),
        battery('B2', { 'Q-': 0, 'Q+': 40 }, { values: { resistance: value(30, 'resistance') } }),
      ],
      ['P- Q-', 'P+ Q+'],
    );
    const point = rest(circuit);
    expect(tap(point, 'B1', 'P+')?.amperes?.value).toBeCloseTo(5 / 40, 12);
    expect(tap(point, 'B2', 'Q+')?.amperes?.value).toBeCloseTo(-5 / 40, 12);
    expect(point.supplies[1]?.drain?.value).toBeCloseTo(-5 / 40, 12);
  });

  it('shorted by a wire give what their own resistance lets through', () => {
    const circuit = setOf(
      [battery('B', { 'B-': 0, 'B+': 45 }, { values: { resistance: value(15, 'resistance') } })],
      ['B- B+'],
    );
    expect(tap(rest(circuit), 'B', 'B+')?.amperes?.value).toBeCloseTo(3, 9);
  });

  it('of volts that nobody knows, where they would drive current, are a failure with a name', () => {
    const circuit = setOf(
      [battery('B', { 'B-': 0, 'B+': undefined }), ohms('resistor', 'R1', 1000)],
      ['B- R1.start', 'B+ R1.finish'],
    );
    const point = rest(circuit);
    expect(point.converged).toBe(false);
    expect(point.failures[0]).toMatchObject({ junction: 'B+' });
    expect(point.voltage('R1.finish', 'R1.start')).toBeUndefined();
  });
});

describe('other parts', () => {
  it('a lead of no ohms is a wire', () => {
    const circuit = setOf(
      [stiff('B', { 'B-': 0, 'B+': 45 }), ohms('lead', 'W1', 0), ohms('resistor', 'R1', 4500)],
      ['B+ W1.start', 'W1.finish R1.start', 'R1.finish B-'],
    );
    const point = rest(circuit);
    expect(point.voltage('W1.start', 'W1.finish')).toBe(0);
    expect(point.current('W1.start')).toBeCloseTo(0.01, 8);
    expect(point.parts.find((each) => each.part === 'R1')?.watts?.value).toBeCloseTo(0.45, 6);
  });

  it('a crystal passes one way better than the other', () => {
    const through = (wires: readonly string[]) =>
      Math.abs(
        rest(setOf([stiff('B', { 'B-': 0, 'B+': 1.5 }), part('crystal', 'CR1')], wires)).current(
          'CR1.mineral',
        ) ?? Number.NaN,
      );
    const good = through(['B+ CR1.whisker', 'B- CR1.mineral']);
    const bad = through(['B- CR1.whisker', 'B+ CR1.mineral']);
    expect(good / bad).toBeGreaterThan(20);
  });

  it('a heater tube with its cathode open draws nothing from the plate', () => {
    const tubeType = type('27');
    const circuit = setOf(
      [
        stiff('A', { 'A-': 0, 'A+': 2.5 }),
        stiff('B', { 'B-': 0, 'B+': 90 }),
        tubeOf('V1', tubeType),
      ],
      ['A- B- V1.filament- V1.grid', 'A+ V1.filament+', 'B+ V1.plate'],
    );
    const point = rest(circuit);
    expect(point.converged).toBe(true);
    expect(named(point, 'V1').plateCurrent?.value).toBe(0);
  });

  it('a cathode resistor biases its tube by its own plate current', () => {
    const point = rest(example('heater-tubes.receiver'));
    const v4 = named(point, 'V4');
    const drop = 2500 * ((v4.plateCurrent?.value ?? 0) + (v4.gridCurrent?.value ?? 0));
    expect(v4.bias?.value).toBeCloseTo(-drop, 6);
  });

  it('a tube of a type without points is told of, and draws no plate current', () => {
    const circuit = alone({ ...filamentType('X', 5, 0.25), amplification: 8 }, 90, -4.5);
    const point = rest(circuit);
    expect(point.taken.map(({ part: name }) => name)).toContain('V1');
    expect(named(point, 'V1').plateCurrent).toBeUndefined();
    expect(named(point, 'V1').plateVolts?.value).toBeCloseTo(90, 3);
  });

  it('one tube as another is cathode: the current of both is one current', () => {
    // The plate of V2 hangs on nothing but the cathode of V1.
    const tubeType = type('27');
    const circuit = setOf(
      [
        stiff('A', { 'A-': 0, 'A+': 2.5 }),
        stiff('B', { 'B-': 0, 'B+': 180 }),
        tubeOf('V1', tubeType),
        tubeOf('V2', tubeType),
      ],
      [
        'A- B- V1.filament- V2.filament- V2.cathode V2.grid',
        'A+ V1.filament+ V2.filament+',
        'B+ V1.plate',
        'V1.cathode V1.grid V2.plate',
      ],
    );
    const point = rest(circuit);
    expect(point.converged).toBe(true);
    const [upper, lower] = point.tubes;
    expect(upper?.plateCurrent?.value).toBeGreaterThan(1e-3);
    expect(lower?.plateCurrent?.value).toBeCloseTo(upper?.plateCurrent?.value ?? 0, 9);
  });
});

describe('a tube for its signal', () => {
  it.each([
    ['01-A', 90, -4.5, 0],
    ['27', 135, -9, 0],
    ['22', 135, -1.5, 67.5],
    ['33', 135, -13.5, 135],
    ['01-A', 45, 0.3, 0],
  ] as const)('type %s at %f and %f volts: as small changes of its batteries show', (...row) => {
    const [name, plate, grid, screen] = row;
    const at = (dPlate: number, dGrid: number, dScreen: number) => {
      const v1 = named(
        rest(alone(type(name), plate + dPlate, grid + dGrid, screen + dScreen)),
        'V1',
      );
      return [v1.gridCurrent, v1.plateCurrent, v1.screenCurrent].map((each) => each?.value ?? 0);
    };
    const { siemens } = named(rest(alone(type(name), plate, grid, screen)), 'V1').conductances;
    const step = 1e-3;
    const columns = [at(0, step, 0), at(step, 0, 0), at(0, 0, step)].map((up, column) => {
      const down = [at(0, -step, 0), at(-step, 0, 0), at(0, 0, -step)][column] ?? [];
      return up.map((amperes, row) => (amperes - (down[row] ?? 0)) / (2 * step));
    });
    for (const [column, slopes] of columns.entries()) {
      if (column === 2 && screen === 0) continue;
      // The batteries' milliohm takes a few parts in a million.
      for (const [row, slope] of slopes.entries())
        expect(Math.abs((siemens[row]?.[column] ?? 0) - slope)).toBeLessThan(
          1e-4 * Math.abs(slope) + 1e-10,
        );
    }
    for (let index = 0; index < 4; index++) {
      const inRow = siemens[index]?.reduce((sum, each) => sum + each, 0);
      const inColumn = siemens.reduce((sum, each) => sum + (each[index] ?? 0), 0);
      expect(inRow).toBeCloseTo(0, 15);
      expect(inColumn).toBeCloseTo(0, 15);
    }
  });

  it('has the transconductance and plate resistance of its printed point, within 12 %', () => {
    // Receiving-tube manuals of 1933 to 1940 (from memory), as in the tube library.
    const v1 = named(rest(alone(type('01-A'), 90, -4.5)), 'V1');
    expect(Math.abs((v1.transconductance?.value ?? 0) / 725e-6 - 1)).toBeLessThan(0.12);
    expect(Math.abs((v1.plateResistance?.value ?? 0) / 11_000 - 1)).toBeLessThan(0.12);
    expect(v1.amplification?.value).toBeCloseTo(8, 6);
    expect(v1.nearest?.point.plateVolts).toBe(90);
    expect(v1.plateDissipation?.value).toBeCloseTo(90 * (v1.plateCurrent?.value ?? 0), 5);
  });
});

describe('the time it takes', () => {
  it('is a dozen steps of the iteration at most for five tubes with their rheostats set', () => {
    expect(rest(example('five-tube-trf.receiver')).iterations).toBeLessThanOrEqual(12);
  });

  it('comes to rest for a thousand stages', () => {
    expect(rest(read(bigSet(1000))).converged).toBe(true);
  });
});
