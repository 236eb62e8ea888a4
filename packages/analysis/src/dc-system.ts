import { crystalCurrent } from './crystal-law.ts';
import { type DcTube, ELECTRODES, type Tie } from './dc-tubes.ts';
import { coefficientAt } from './directed-elimination.ts';
import { type EliminationPlan, type NetworkEdge, planElimination } from './elimination.ts';
import { type FilamentLaw, filamentCurrent } from './filament-law.ts';
import type { Element } from './network.ts';
import { BY_FILAMENT, BY_GRID, BY_PLATE, BY_SCREEN, tubeCurrents } from './tube-currents.ts';

/** How an element carries current: by Ohm's law, or by a curve of its own. */
export type Curve =
  | { readonly kind: 'ohmic' }
  | { readonly kind: 'filament'; readonly law: FilamentLaw }
  | { readonly kind: 'crystal' };

/** An electrode held at some volts from its tube's cathode, instead of a current law. */
export interface HeldElectrode extends Tie {
  readonly volts: number;
}

/** The equations of a set at rest, with room for their numbers. */
export interface DcSystem {
  readonly points: number;
  readonly elements: readonly Element[];
  readonly curves: readonly Curve[];
  readonly tubes: readonly DcTube[];
  /** The point that stands for each junction. */
  readonly pointOf: (junction: number) => number;
  readonly plan: EliminationPlan;
  /** Points of every element's two ends. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** Ohms of every element; those of controls are written before each solution. */
  readonly ohms: Float64Array;
  /** Volts of every point and amperes of every element, the unknowns. */
  readonly volts: Float64Array;
  readonly amperes: Float64Array;
  /** What is left of Kirchhoff's second law in every ohmic element, volts. */
  readonly gaps: Float64Array;
  readonly coefficients: Float64Array;
  readonly right: Float64Array;
  /** By tube: where the coefficients of its six points in each other's equations are kept. */
  readonly tubePlaces: readonly Int32Array[];
  readonly elementPlaces: Int32Array;
  held: readonly HeldElectrode[];
  /** For every held electrode the places of its point's equation. */
  heldRows: readonly (readonly number[])[];
  /** For every held electrode the place of the cathode's volts in that equation; -1 for none. */
  heldPlaces: readonly number[];
  readonly edges: readonly NetworkEdge[];
}

/** Six points of a tube: grid, plate, screen, reference, F+, F−. */
const TUBE_POINTS = 6;
const REFERENCE = 3;
const PLUS = 4;
const MINUS = 5;

/** The points of a tube in order; -1 for what it has not got. */
function pointsOfTube(tube: DcTube, pointOf: (junction: number) => number): number[] {
  return [...tube.electrodes, tube.reference, tube.plus, tube.minus].map((junction) =>
    junction < 0 ? -1 : pointOf(junction),
  );
}

/** Sets up the equations. @param isHeld whether a point's volts are the zero of its group */
export function dcSystem(
  junctions: number,
  elements: readonly Element[],
  curves: readonly Curve[],
  tubes: readonly DcTube[],
  pointOf: (junction: number) => number,
  isHeld: (point: number) => boolean,
): DcSystem {
  const from = Int32Array.from(elements, ({ branch }) => pointOf(branch.fromJunction));
  const to = Int32Array.from(elements, ({ branch }) => pointOf(branch.toJunction));
  const edges: NetworkEdge[] = elements.map((_, index) => ({
    a: from[index] as number,
    b: to[index] as number,
  }));
  const tubePoints = tubes.map((tube) => pointsOfTube(tube, pointOf));
  const pairs: { tube: number; i: number; j: number }[] = [];
  for (const [tube, points] of tubePoints.entries()) {
    for (let i = 0; i < TUBE_POINTS; i++) {
      for (let j = i + 1; j < TUBE_POINTS; j++) {
        const a = points[i] as number;
        const b = points[j] as number;
        if (a < 0 || b < 0 || a === b) continue;
        edges.push({ a, b });
        pairs.push({ tube, i, j });
      }
    }
  }
  const plan = planElimination(junctions, edges, isHeld);
  const elementPlaces = new Int32Array(2 * elements.length).fill(-1);
  for (let index = 0; index < elements.length; index++) {
    const slot = plan.slotOfEdge[index] as number;
    if (slot < 0) continue;
    const { a, b } = edges[index] as NetworkEdge;
    elementPlaces[2 * index] = coefficientAt(slot, a, b);
    elementPlaces[2 * index + 1] = coefficientAt(slot, b, a);
  }
  const tubePlaces = tubes.map(() => new Int32Array(TUBE_POINTS * TUBE_POINTS).fill(-1));
  for (const [index, { tube, i, j }] of pairs.entries()) {
    const slot = plan.slotOfEdge[elements.length + index] as number;
    const { a, b } = edges[elements.length + index] as NetworkEdge;
    const places = tubePlaces[tube] as Int32Array;
    places[i * TUBE_POINTS + j] = coefficientAt(slot, a, b);
    places[j * TUBE_POINTS + i] = coefficientAt(slot, b, a);
  }
  return {
    points: junctions,
    elements,
    curves,
    tubes,
    pointOf,
    plan,
    from,
    to,
    ohms: Float64Array.from(elements, ({ ohms }) => ohms),
    volts: new Float64Array(junctions),
    amperes: new Float64Array(elements.length),
    gaps: new Float64Array(elements.length),
    coefficients: new Float64Array(2 * plan.slots),
    right: new Float64Array(junctions),
    tubePlaces,
    elementPlaces,
    held: [],
    heldRows: [],
    heldPlaces: [],
    edges,
  };
}

/** Says which electrodes are held instead of taking current. */
export function holdElectrodes(system: DcSystem, held: readonly HeldElectrode[]): void {
  system.held = held;
  const placesOf = new Map(system.tubes.map((tube, at) => [tube, system.tubePlaces[at]]));
  system.heldPlaces = held.map(
    ({ tube, electrode }) => placesOf.get(tube)?.[electrode * TUBE_POINTS + REFERENCE] ?? -1,
  );
  const rowOf = new Map<number, number[]>();
  for (const { tube, electrode } of held)
    rowOf.set(system.pointOf(tube.electrodes[electrode] as number), []);
  if (rowOf.size > 0) {
    for (const [index, { a, b }] of system.edges.entries()) {
      const slot = system.plan.slotOfEdge[index] as number;
      if (slot < 0) continue;
      rowOf.get(a)?.push(coefficientAt(slot, a, b));
      rowOf.get(b)?.push(coefficientAt(slot, b, a));
    }
  }
  system.heldRows = held.map(
    ({ tube, electrode }) => rowOf.get(system.pointOf(tube.electrodes[electrode] as number)) ?? [],
  );
}

/**
 * Writes the equations for a small change of all volts: what is left of Kirchhoff's first law at
 * every point, and how it changes with the volts of the others.
 *
 * @param share of the supplies' volts that is counted, 0 to 1
 * @param lit whether filaments and tubes count with their own laws; else filaments with their hot
 * resistance and tubes not at all, which is a place to begin from
 */
export function writeEquations(system: DcSystem, share: number, lit: boolean): void {
  const { coefficients, right } = system;
  coefficients.fill(0);
  right.fill(0);
  writeElements(system, share, lit);
  for (let index = 0; index < system.tubes.length; index++) writeTube(system, index, lit);
  for (const [index, { tube, electrode, volts }] of system.held.entries()) {
    for (const place of system.heldRows[index] ?? []) coefficients[place] = 0;
    const here = system.pointOf(tube.electrodes[electrode] as number);
    const there = system.pointOf(tube.reference);
    const place = system.heldPlaces[index] ?? -1;
    if (place >= 0) coefficients[place] = -1;
    right[here] = volts - (system.volts[here] as number) + (system.volts[there] as number);
  }
}

function writeElements(system: DcSystem, share: number, lit: boolean): void {
  const { elements, curves, from, to, ohms, volts, amperes, gaps, coefficients, right } = system;
  for (let index = 0; index < elements.length; index++) {
    const a = from[index] as number;
    const b = to[index] as number;
    const resistance = ohms[index] as number;
    const curve = curves[index] as Curve;
    const source = (elements[index] as Element).volts * share;
    if (a === b) {
      // Shorted upon itself: a wire, or a supply with nothing but its own resistance.
      amperes[index] = resistance > 0 ? source / resistance : 0;
      continue;
    }
    const across = (volts[a] as number) - (volts[b] as number);
    let slope: number;
    let leaving: number;
    if (curve.kind === 'ohmic' || !lit) {
      slope = 1 / resistance;
      const gap = across + source - resistance * (amperes[index] as number);
      gaps[index] = gap;
      leaving = (amperes[index] as number) + slope * gap;
    } else {
      if (curve.kind === 'filament') {
        const found = filamentCurrent(curve.law, across);
        slope = found.slope;
        leaving = found.amperes;
      } else {
        // Its first end is the mineral; the law counts from the whisker.
        const found = crystalCurrent(-across);
        slope = found.slope;
        leaving = -found.amperes;
      }
      amperes[index] = leaving;
    }
    right[a] = (right[a] as number) - leaving;
    right[b] = (right[b] as number) + leaving;
    const ab = system.elementPlaces[2 * index] as number;
    const ba = system.elementPlaces[2 * index + 1] as number;
    coefficients[ab] = (coefficients[ab] as number) - slope;
    coefficients[ba] = (coefficients[ba] as number) - slope;
  }
}

/** Works out a tube's currents at the volts as they stand. */
function reckonTube(system: DcSystem, tube: DcTube): void {
  const { volts, pointOf } = system;
  const at = (junction: number): number =>
    junction < 0 ? 0 : (volts[pointOf(junction)] as number);
  const zero = at(tube.reference);
  const [grid, plate, screen] = tube.electrodes;
  const filament = at(tube.plus) - at(tube.minus);
  const { currents, law, leakage, closed } = tube;
  const above = [grid, plate, screen].map((junction) => (junction < 0 ? 0 : at(junction) - zero));
  const [gridVolts = 0, plateVolts = 0, screenVolts = 0] = above;
  tubeCurrents(law, gridVolts, plateVolts, screenVolts, filament, currents);
  for (const [electrode, name] of ELECTRODES.entries()) {
    if (!closed[electrode]) {
      currents[name] = 0;
      currents.slopes.fill(0, 4 * electrode, 4 * electrode + 4);
    } else if (leakage[electrode]) {
      currents[name] += (leakage[electrode] as number) * (above[electrode] as number);
      const at = 4 * electrode + electrode;
      currents.slopes[at] = (currents.slopes[at] as number) + (leakage[electrode] as number);
    }
  }
}

function writeTube(system: DcSystem, index: number, lit: boolean): void {
  const tube = system.tubes[index] as DcTube;
  const places = system.tubePlaces[index] as Int32Array;
  const { currents, law } = tube;
  if (lit) reckonTube(system, tube);
  else {
    currents.grid = currents.plate = currents.screen = 0;
    currents.slopes.fill(0);
    for (let electrode = 0; electrode < 3; electrode++)
      currents.slopes[5 * electrode] = tube.leakage[electrode] as number;
  }
  const { slopes } = currents;
  const toPlus = law.heated ? 0 : law.positiveShare;
  for (const [electrode, name] of ELECTRODES.entries()) {
    if (!tube.closed[electrode]) continue;
    const amperes = currents[name];
    flow(system, tube.electrodes[electrode] as number, amperes);
    flow(system, tube.reference, -amperes * (1 - toPlus));
    if (toPlus > 0) flow(system, tube.plus, -amperes * toPlus);
    const row = 4 * electrode;
    const byGrid = slopes[row + BY_GRID] as number;
    const byPlate = slopes[row + BY_PLATE] as number;
    const byScreen = slopes[row + BY_SCREEN] as number;
    const byFilament = slopes[row + BY_FILAMENT] as number;
    for (let target = 0; target < 3; target++) {
      const weight = target === 0 ? 1 : target === 1 ? toPlus - 1 : -toPlus;
      if (weight === 0) continue;
      const line = (target === 0 ? electrode : target === 1 ? REFERENCE : PLUS) * TUBE_POINTS;
      add(system, places[line + 0] as number, weight * byGrid);
      add(system, places[line + 1] as number, weight * byPlate);
      add(system, places[line + 2] as number, weight * byScreen);
      add(system, places[line + REFERENCE] as number, -weight * (byGrid + byPlate + byScreen));
      add(system, places[line + PLUS] as number, weight * byFilament);
      add(system, places[line + MINUS] as number, -weight * byFilament);
    }
  }
}

function flow({ right, pointOf }: DcSystem, junction: number, leaving: number): void {
  const point = pointOf(junction);
  right[point] = (right[point] as number) - leaving;
}

function add({ coefficients }: DcSystem, place: number, value: number): void {
  if (place >= 0) coefficients[place] = (coefficients[place] as number) + value;
}
