import {
  type FitRoom,
  fitPolynomials,
  fitRoom,
  type Polynomials,
  places,
  polynomialsAt,
  polynomialValuesAt,
  SAMPLES,
} from './polynomial-fit.ts';
import { matrixLength, type ReducedNetwork, reduceAt, remainderLength } from './reduced-network.ts';
import type { ComplexFrequency } from './tuned-system.ts';

/** A path through the plane of complex frequencies, by one variable. */
export interface Path {
  placeAt(along: number): ComplexFrequency;
  /** Ends of its stretches, rising: within each the network is smooth. */
  readonly bounds: readonly number[];
}

/**
 * A reduced network along a path, as polynomials stretch by stretch. A stretch is fitted when it is
 * first wanted; one that no polynomial follows is halved, and reckoned exactly where halving does
 * not help.
 */
export interface FittedPath {
  readonly network: ReducedNetwork;
  readonly path: Path;
  readonly stretches: readonly Stretch[];
  /** What was asked for last; written anew every time. */
  readonly values: Float64Array;
  readonly slopes: Float64Array;
  /** Room for the fits: samples, tolerances and greatest entries. */
  readonly samples: Float64Array;
  readonly tolerances: Float64Array;
  readonly bearable: Float64Array;
  readonly greatest: Float64Array;
  readonly room: FitRoom;
  /** Stretches that no polynomial follows, so far. */
  rough: number;
}

interface Stretch {
  readonly low: number;
  readonly high: number;
  readonly halvings: number;
  polynomials?: Polynomials;
  halves?: readonly [Stretch, Stretch];
  /** No polynomial follows it. */
  isRough?: boolean;
}

/** How far off a fit may be, as a share of an entry's greatest value on its stretch. */
const TOLERANCE = 1e-11;

/**
 * How far off logarithm and angle of the rest's determinant may be where rounding leaves no more
 * of them, as with an island that nothing but its insulation holds: only turns are counted by it.
 */
const BEARABLE = 1e-5;

/** What rounding leaves in any entry, as a share of the diagonal. */
const ROUNDING = 1e-12;

/** Times that a stretch is halved at most. */
const MOST_HALVINGS = 6;

/** Rough stretches after which none is halved any more, and after which the path is given up. */
const MANY_ROUGH = 8;
const MOST_ROUGH = 16;

/** Step of a slope where it is reckoned by difference, in the path's own variable. */
const STEP = 1e-6;

export function fittedPath(network: ReducedNetwork, path: Path): FittedPath {
  const { bounds } = path;
  const length = remainderLength(network);
  return {
    network,
    path,
    stretches: bounds.slice(1).map((high, at) => ({ low: bounds[at] ?? high, high, halvings: 0 })),
    values: new Float64Array(length),
    slopes: new Float64Array(length),
    samples: new Float64Array(SAMPLES * length),
    tolerances: new Float64Array(length),
    bearable: new Float64Array(length),
    greatest: new Float64Array(length),
    room: fitRoom(length),
    rough: 0,
  };
}

/**
 * What is left of the network at a place on the path, into `values`, and how its matrix and the
 * rest's determinant go with the path's variable, into `slopes`; without the question. False off
 * the path's ends and where it cannot be had.
 */
export function fitAt(fitted: FittedPath, along: number): boolean {
  const stretch = smoothAt(fitted, along);
  if (!stretch) return false;
  const { low, high, polynomials } = stretch;
  if (!polynomials) return exactAt(fitted, along);
  const { network, values, slopes } = fitted;
  const many = matrixLength(network);
  const half = (high - low) / 2;
  polynomialsAt(polynomials, (along - low) / half - 1, many, values, slopes);
  for (let each = 0; each < many; each++) slopes[each] = (slopes[each] as number) / half;
  return true;
}

/** What is left of the network at a place on the path, the question too, without how it goes. */
export function valuesAt(fitted: FittedPath, along: number): boolean {
  const stretch = smoothAt(fitted, along);
  if (!stretch) return false;
  const { low, high, polynomials } = stretch;
  if (!polynomials) return reduceAt(fitted.network, fitted.path.placeAt(along), fitted.values);
  const half = (high - low) / 2;
  polynomialValuesAt(polynomials, (along - low) / half - 1, fitted.values);
  return true;
}

/** The stretch of a place, halved until it is fitted or found rough. */
function smoothAt(fitted: FittedPath, along: number): Stretch | undefined {
  // All but noise: the plain way is no worse then, and sooner.
  if (fitted.rough > MOST_ROUGH) return undefined;
  let stretch = stretchAt(fitted.stretches, along);
  while (stretch && !stretch.polynomials && !stretch.isRough) {
    if (stretch.halves) stretch = stretch.halves[along < stretch.halves[0].high ? 0 : 1];
    else fitStretch(fitted, stretch);
  }
  return stretch;
}

function stretchAt(stretches: readonly Stretch[], along: number): Stretch | undefined {
  let first = 0;
  let last = stretches.length - 1;
  if (!(along >= (stretches[first]?.low ?? Number.POSITIVE_INFINITY))) return undefined;
  if (!(along <= (stretches[last]?.high ?? Number.NEGATIVE_INFINITY))) return undefined;
  while (first < last) {
    const middle = (first + last) >> 1;
    if (along > (stretches[middle] as Stretch).high) first = middle + 1;
    else last = middle;
  }
  return stretches[first];
}

function fitStretch(fitted: FittedPath, stretch: Stretch): void {
  const { low, high, halvings } = stretch;
  const polynomials = polynomialsOf(fitted, stretch);
  if (polynomials) stretch.polynomials = polynomials;
  else if (halvings >= MOST_HALVINGS || fitted.rough >= MANY_ROUGH) {
    stretch.isRough = true;
    fitted.rough++;
  } else {
    const middle = (low + high) / 2;
    stretch.halves = [
      { low, high: middle, halvings: halvings + 1 },
      { low: middle, high, halvings: halvings + 1 },
    ];
  }
}

function polynomialsOf(fitted: FittedPath, { low, high }: Stretch): Polynomials | undefined {
  const { network, path, samples, tolerances, bearable, room } = fitted;
  const count = tolerances.length;
  const half = (high - low) / 2;
  const angle = matrixLength(network) - 1;
  for (let row = 0; row < SAMPLES; row++) {
    const at = path.placeAt(low + half * (1 + (places[row] as number)));
    if (!reduceAt(network, at, samples, row * count)) return undefined;
    if (row > 0) unwind(samples, row * count + angle, count);
  }
  setTolerances(fitted);
  return fitPolynomials(samples, count, tolerances, bearable, room);
}

/** Brings an angle within half a turn of that of the sample before. */
function unwind(samples: Float64Array, at: number, count: number): void {
  const off = (samples[at] as number) - (samples[at - count] as number);
  samples[at] = (samples[at] as number) - 2 * Math.PI * Math.round(off / (2 * Math.PI));
}

/** Logarithm and angle count by themselves, entries by their greatest and by the diagonal. */
function setTolerances(fitted: FittedPath): void {
  const { network, samples, tolerances, bearable, greatest } = fitted;
  const { size } = network;
  const count = tolerances.length;
  greatest.fill(0);
  for (let row = 0; row < samples.length; row += count) {
    for (let each = 0; each < count; each++) {
      const size = Math.abs(samples[row + each] as number);
      if (size > (greatest[each] as number)) greatest[each] = size;
    }
  }
  const ofEntry = (at: number) => Math.max(greatest[at] as number, greatest[at + 1] as number);
  for (let at = 0; at < count; at += 2) {
    const entry = at / 2;
    const row = Math.floor(entry / size);
    let most = TOLERANCE * ofEntry(at);
    if (row < size) {
      const between = ofEntry(2 * (row * size + row)) * ofEntry(2 * (entry % size) * (size + 1));
      most = Math.max(most, ROUNDING * Math.sqrt(between));
    } else if (entry === size * size) most = TOLERANCE;
    tolerances[at] = most;
    tolerances[at + 1] = most;
    bearable.fill(entry === size * size ? BEARABLE : most, at, at + 2);
  }
}

function exactAt({ network, path, values, slopes }: FittedPath, along: number): boolean {
  if (!reduceAt(network, path.placeAt(along), values)) return false;
  if (!reduceAt(network, path.placeAt(along + STEP), slopes)) return false;
  const many = matrixLength(network);
  for (let each = 0; each < many; each++) {
    let change = (slopes[each] as number) - (values[each] as number);
    if (each === many - 1) change -= 2 * Math.PI * Math.round(change / (2 * Math.PI));
    slopes[each] = change / STEP;
  }
  return true;
}
