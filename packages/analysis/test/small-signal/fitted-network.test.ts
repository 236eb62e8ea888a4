import { describe, expect, it } from 'vitest';
import { operatingPoint } from '../../src/operating-point.ts';
import { alignedAt, type TunedSet, tunedSet } from '../../src/small-signal/aligned-at.ts';
import { radioWay } from '../../src/small-signal/detector-port.ts';
import { fedModes } from '../../src/small-signal/fed-modes.ts';
import {
  type FittedPlane,
  fittedCourse,
  fittedPlane,
} from '../../src/small-signal/fitted-plane.ts';
import {
  frequencyOf,
  type Place,
  RIGHT_ANGLE,
  wrapped,
} from '../../src/small-signal/log-derivative.ts';
import { reducedNetwork } from '../../src/small-signal/reduced-network.ts';
import { mistuned, shaftsOf } from '../../src/small-signal/shafts.ts';
import type { Tuning } from '../../src/small-signal/signal-system.ts';
import { type SmallSignal, smallSignal } from '../../src/small-signal/small-signal.ts';
import { strengthIn, strengthOf } from '../../src/small-signal/strength.ts';
import { determinantAt, tunedSystem } from '../../src/small-signal/tuned-system.ts';
import { exampleSets } from '../reading-set.ts';
import { threeDialSet } from './three-dial-set.ts';

/*
 * The network drawn together onto its tuning condensers and fitted by polynomials must say what
 * the whole equations say.
 */

const LOW = 110e3;
const HIGH = 7.5e6;
const STATIONS = [600e3, 1e6, 1.4e6];

/** Of a slope by difference. */
const STEP = 1e-5;

interface Prepared {
  readonly set: SmallSignal;
  readonly tuned: TunedSet;
  readonly plane: FittedPlane;
  readonly tunings: readonly Tuning[];
}

function prepared(set: SmallSignal): Prepared {
  const tuned = tunedSet(set);
  const shafts = shaftsOf(tuned);
  const aligned = STATIONS.map((station) => alignedAt(set, station, new Map(), tuned));
  const apart = aligned.map((each) =>
    mistuned(
      tuned,
      shafts,
      each,
      shafts.map((_, at) => (at % 2 === 0 ? 0.02 : -0.01)),
    ),
  );
  return {
    set,
    tuned,
    plane: fittedPlane(reducedNetwork(set.system, tuned.condensers, new Map()), LOW, HIGH),
    tunings: [...aligned.map(({ tuning }) => tuning), ...apart],
  };
}

const sets = [
  ...[...exampleSets].map(([name, circuit]) => [name, circuit] as const),
  ['three dials without lossers', threeDialSet({})] as const,
].map(([name, circuit]) => [name, smallSignal(circuit, operatingPoint(circuit))] as const);

/** Places along the axis and on the arcs at both ends. */
const places: readonly Place[] = [
  ...Array.from({ length: 97 }, (_, at) => ({
    size: Math.log(2 * Math.PI * LOW) + (Math.log(HIGH / LOW) * (at + 0.4)) / 97,
    angle: RIGHT_ANGLE,
  })),
  ...[LOW, HIGH].flatMap((frequency) =>
    Array.from({ length: 7 }, (_, at) => ({
      size: Math.log(2 * Math.PI * frequency),
      angle: (RIGHT_ANGLE * at) / 7,
    })),
  ),
];

describe('the fitted determinant', () => {
  it.each(sets)('changes with the tuning as the whole one does: %s', (_name, set) => {
    const { plane, tunings } = prepared(set);
    const [first, ...others] = tunings.map((tuning) => ({
      fitted: fittedCourse(plane, tuning),
      whole: tunedSystem(set.system, tuning),
    }));
    const ways = (place: Place, each: typeof first) => ({
      fitted: each!.fitted(place)!,
      whole: determinantAt(each!.whole, frequencyOf(place))!,
    });
    for (const place of places) {
      // What an island held by nothing but insulation makes of the digits is in both alike.
      const one = ways(place, first);
      for (const each of others) {
        const other = ways(place, each);
        const size = other.fitted.logarithm - one.fitted.logarithm;
        const turn = other.fitted.phase - one.fitted.phase;
        expect(Math.abs(size - (other.whole.logarithm - one.whole.logarithm))).toBeLessThan(1e-9);
        expect(Math.abs(wrapped(turn - (other.whole.angle - one.whole.angle)))).toBeLessThan(1e-9);
      }
      const off = Math.abs(wrapped(one.fitted.phase - one.whole.angle));
      expect(off).toBeLessThan(1e-5);
      expect(Math.abs(one.fitted.logarithm - one.whole.logarithm)).toBeLessThan(1e-5);
    }
  });

  it.each(sets)('goes with the frequency as its slope says: %s', (_name, set) => {
    const { plane, tunings } = prepared(set);
    const course = fittedCourse(plane, tunings[1]!);
    for (const place of places.filter((_, at) => at % 10 === 5)) {
      const here = course(place)!;
      // Along the axis the logarithm grows with the size, along an arc with j times the angle.
      const isOnAxis = place.angle === RIGHT_ANGLE;
      const next = course(
        isOnAxis ? { ...place, size: place.size + STEP } : { ...place, angle: place.angle + STEP },
      )!;
      const grown = (next.logarithm - here.logarithm) / STEP;
      const turned = wrapped(next.phase - here.phase) / STEP;
      const slope = Math.hypot(here.slopeRe, here.slopeIm);
      const off = isOnAxis
        ? Math.hypot(grown - here.slopeRe, turned - here.slopeIm)
        : Math.hypot(grown + here.slopeIm, turned - here.slopeRe);
      expect(off / slope).toBeLessThan(0.005);
    }
  });
});

describe('growing modes by the fitted network', () => {
  it.each(sets)('are those of the whole equations: %s', (_name, set) => {
    const { plane, tunings } = prepared(set);
    for (const tuning of tunings) {
      for (const [low, high] of [
        [LOW, HIGH],
        [300e3, 5e6],
      ] as const) {
        const whole = fedModes(set, tuning, low, high);
        const fitted = fedModes(set, tuning, low, high, plane);
        expect(fitted.count).toBe(whole.count);
        expect(fitted.unmeant).toBe(whole.unmeant);
        expect(fitted.modes.length).toBe(whole.modes.length);
        for (const [at, mode] of whole.modes.entries()) {
          const same = fitted.modes[at]!;
          expect(same.frequency / mode.frequency).toBeCloseTo(1, 8);
          expect(same.growth / mode.growth).toBeCloseTo(1, 6);
          expect(same.tubes).toEqual(mode.tubes);
        }
      }
    }
  });
});

describe('the strength of a signal by the fitted network', () => {
  it.each(sets)('is that of the whole equations: %s', (_name, set) => {
    const { tuned, tunings } = prepared(set);
    const { detector } = radioWay(set, 1e6, tunings[1]!);
    if (!detector || !set.entrance) return;
    const question = { series: set.entrance.series, plus: detector.plus, minus: detector.minus };
    const network = reducedNetwork(set.system, tuned.condensers, new Map(), question);
    const plane = fittedPlane(network, LOW, HIGH);
    for (const tuning of tunings) {
      const fitted = strengthIn(plane, set.system, question, tuning);
      const whole = strengthOf(set.system, question, tuning);
      for (let frequency = 200e3; frequency < 5e6; frequency *= 1.07)
        expect(fitted(frequency)! / whole(frequency)!).toBeCloseTo(1, 8);
    }
  });
});

describe('a set without anything to tune', () => {
  it('is followed all the same', () => {
    const set = smallSignal(threeDialSet({}), operatingPoint(threeDialSet({})));
    const plane = fittedPlane(reducedNetwork(set.system, [], new Map()), LOW, HIGH);
    const whole = fedModes(set, new Map(), LOW, HIGH);
    expect(fedModes(set, new Map(), LOW, HIGH, plane).count).toBe(whole.count);
  });
});

describe('a tuning that turns more than the network was drawn together for', () => {
  it('is judged by the whole equations', () => {
    const set = smallSignal(threeDialSet({}), operatingPoint(threeDialSet({})));
    const plane = fittedPlane(reducedNetwork(set.system, ['C1'], new Map()), LOW, HIGH);
    const { tuning } = alignedAt(set, 1e6);
    expect(fedModes(set, tuning, LOW, HIGH, plane)).toEqual(fedModes(set, tuning, LOW, HIGH));
  });
});
