import type { Circuit, Conduction, Settings, SettingsOn } from '@setwright/circuit';
import type { DcTube } from '../dc-tubes.ts';
import type { Element } from '../network.ts';
import type { SignalPoint, SignalTube } from '../small-signal/signal-point.ts';
import { conductancesOf } from '../tube-at-work.ts';
import { BY_GRID, noTubeCurrents, tubeCurrents } from '../tube-currents.ts';
import type { TubeLaw } from '../tube-law.ts';
import { withDraw } from '../tube-wear.ts';
import { deviceState, tubeDevice } from './devices.ts';
import type { NamedElements } from './element-changes.ts';
import { meterOn, sourceOhms } from './metered-volts.ts';
import type { State } from './state.ts';

/** Something of a set that may be a little otherwise than it is written. */
export interface Parameter {
  /**
   * `ohms` of a part, of a supply inside; `volts` of a supply; of a tube what its plate draws, its
   * grid draws, its filament draws.
   */
  readonly kind: 'ohms' | 'volts' | 'draw' | 'grid' | 'filament';
  readonly part: string;
}

/** What a small change of a parameter, as a share of itself, would make flow out of points. */
export interface Push {
  readonly parameter: Parameter;
  readonly points: readonly number[];
  readonly amperes: readonly number[];
}

/** A number that can be read off a set, and how it goes by its parameters. */
export interface Reckoning {
  /** Volts or amperes. */
  readonly value: number;
  /** Change of the value by the parameter's share: its slope by the logarithm. */
  by(push: Push): number;
}

/** What a changed set is made of. */
export interface ChangedParts {
  readonly circuit: Circuit;
  readonly settings: Settings | SettingsOn;
  readonly conduction: Conduction;
  readonly state: State;
  readonly elements: NamedElements;
  readonly ohms: ReadonlyMap<string, { readonly ohms: number; readonly volts: number }>;
  readonly tubes: readonly { readonly tube: DcTube; readonly law: TubeLaw }[];
  /** What current or tubes tie together, by junction; and what hangs on nothing but a tube. */
  readonly groups: { of(junction: number): number; readonly loose: ReadonlySet<number> };
  readonly islands: Int32Array;
  pointOf(junction: number): number;
}

/** A set at rest with some of its parts otherwise. */
export interface ChangedRest {
  readonly base: ChangedParts;
  /** Volts of one terminal above another; undefined where that cannot be told. */
  voltage(terminal: string, reference: string): number | undefined;
  /**
   * Volts that a meter of so many ohms shows between two terminals, with what it draws counted;
   * endless ohms draw nothing. Undefined where the volts cannot be told without the meter.
   */
  metered(terminal: string, reference: string, ohms: number): Reckoning | undefined;
  /** Amperes out of a supply's tap into its lead. */
  supplyCurrent(terminal: string): Reckoning | undefined;
  /** Amperes through a part, of its sections the one that carries most, and watts in all. */
  through(part: string): { readonly amperes: number; readonly watts: number } | undefined;
  /** What a small change of a parameter pushes. */
  push(parameter: Parameter): Push;
  readonly tubes: readonly TubeInChange[];
  /** The same for small signals. */
  readonly signalPoint: SignalPoint;
}

/** A tube of a changed set: volts from its cathode or F−, amperes. */
export interface TubeInChange {
  readonly tube: string;
  readonly filamentVolts: number;
  readonly gridVolts: number | undefined;
  /** Whether nothing leads to its grid. */
  readonly isGridFree: boolean;
  readonly plateVolts: number | undefined;
  readonly plateAmperes: number;
  readonly gridAmperes: number;
}

/** A step of a law by which its slope is had. */
const STEP = 1e-4;
/** Filament, screen and plate points of a tube's device, in its order. */
const GRID = 0;
const PLATE = 1;

/** Amperes at which an eliminator's tap gives what is stated, whatever its ohms; 0 for all else. */
function atLoadOf({ part, branch }: Element): number {
  if (part.kind !== 'eliminator') return 0;
  const name = branch.to.slice(part.name.length + 1);
  return part.supplyTaps.find(({ end }) => end === name)?.atLoad ?? 0;
}

/** Volts across a filament that are none. */
const DARK_VOLTS = 1e-6;

/** A step of the grid's volts by which a bend is had. */
const BEND_STEP = 1e-3;

/** Room for what is written down of one tube before the next has its turn. */
const [here, above, below] = [noTubeCurrents(), noTubeCurrents(), noTubeCurrents()];

/** The bend of grid and plate current by the grid's volts, by a difference of the slopes. */
function curvaturesAt(
  law: TubeLaw,
  [grid, plate, screen, filament]: readonly [number, number, number, number],
  [gridFlows, plateFlows]: readonly [boolean, boolean],
): { readonly grid: number; readonly plate: number } {
  tubeCurrents(law, grid + BEND_STEP, plate, screen, filament, above);
  tubeCurrents(law, grid - BEND_STEP, plate, screen, filament, below);
  const bend = (at: number): number =>
    ((above.slopes[at] as number) - (below.slopes[at] as number)) / (2 * BEND_STEP);
  return { grid: gridFlows ? bend(BY_GRID) : 0, plate: plateFlows ? bend(4 + BY_GRID) : 0 };
}

/** Makes a changed set ready to be asked. */
export function changedRest(base: ChangedParts): ChangedRest {
  const { circuit, state, elements, ohms, pointOf } = base;
  const { size, volts, transfer } = state;
  const indicesOf = new Map<string, number[]>();
  for (const [index, { part }] of elements.elements.entries()) {
    const own = indicesOf.get(part.name);
    if (own) own.push(index);
    else indicesOf.set(part.name, [index]);
  }
  const placedOf = new Map(state.devices.map((each) => [each.device.key, each]));
  const placeOf = (terminal: string): number | undefined =>
    circuit.endNamed.get(terminal)?.junction;
  const at = (junction: number): number => volts[pointOf(junction)] as number;

  const isTogether = (a: number, b: number): boolean => base.groups.of(a) === base.groups.of(b);
  const isLoose = (junction: number): boolean => base.groups.loose.has(base.groups.of(junction));

  /** Amperes from end to end of a piece; undefined in a wire of no resistance. */
  const amperesOf = (index: number): number | undefined => {
    const key = elements.keys[index] as string;
    const element = elements.elements[index];
    if (!element) return undefined;
    const device = placedOf.get(key);
    if (device) return device.rest.leaving[0];
    const now = ohms.get(key);
    if (!now || now.ohms === 0) return undefined;
    const { fromJunction, toJunction } = element.branch;
    return (at(fromJunction) - at(toJunction) + now.volts) / now.ohms;
  };

  const row = (a: number, b: number, push: Push): number => {
    const { points, amperes } = push;
    const [first, second] = [a * size, b * size];
    let sum = 0;
    for (let index = 0; index < points.length; index++) {
      const point = points[index] as number;
      sum -=
        ((transfer[first + point] as number) - (transfer[second + point] as number)) *
        (amperes[index] as number);
    }
    return sum;
  };

  const pushOfPart = (part: string, what: 'ohms' | 'volts'): [number, number][] =>
    (indicesOf.get(part) ?? []).flatMap((index) => {
      const element = elements.elements[index];
      const now = ohms.get(elements.keys[index] as string);
      const amperes = amperesOf(index);
      if (!element || !now || now.ohms === 0 || amperes === undefined) return [];
      // An eliminator's volts are told at its load: what it has without one follows from its ohms.
      const load = atLoadOf(element);
      const leaving = what === 'ohms' ? load - amperes : now.volts / now.ohms - load;
      const from = pointOf(element.branch.fromJunction);
      const to = pointOf(element.branch.toJunction);
      return from === to || leaving === 0
        ? []
        : [
            [from, leaving],
            [to, 0 - leaving],
          ];
    });

  const pushOfTube = (name: string, changed: (law: TubeLaw) => TubeLaw): [number, number][] => {
    const found = base.tubes.find(({ tube }) => tube.part.name === name);
    const placed = placedOf.get(`tube ${name}`);
    if (!found || !placed) return [];
    const device = tubeDevice(found.tube, changed(found.law), pointOf);
    const after = deviceState(device.points.length);
    device.reckon(
      Float64Array.from(device.points, (point) => (point < 0 ? 0 : (volts[point] as number))),
      after,
    );
    return device.points.flatMap((point, index) =>
      point < 0
        ? []
        : [
            [
              point,
              ((after.leaving[index] as number) - (placed.rest.leaving[index] as number)) /
                Math.log1p(STEP),
            ],
          ],
    );
  };

  const pushed = ({ kind, part }: Parameter): [number, number][] => {
    switch (kind) {
      case 'ohms':
      case 'volts':
        return pushOfPart(part, kind);
      case 'draw':
        return pushOfTube(part, (law) => withDraw(law, 1 + STEP));
      case 'grid':
        return pushOfTube(part, (law) => ({
          ...law,
          grid: { ...law.grid, zeroCurrent: law.grid.zeroCurrent * (1 + STEP) },
        }));
      case 'filament':
        return (indicesOf.get(part) ?? []).flatMap((index) => {
          const key = elements.keys[index] as string;
          const placed = placedOf.get(key);
          return placed
            ? placed.device.points.map((point, end): [number, number] => [
                point,
                placed.rest.leaving[end] as number,
              ])
            : [];
        });
    }
  };

  let meter: ReturnType<typeof meterOn> | undefined;
  // Many terminals lie on one point, and are measured against one other.
  const metersRead = new Map<number, { load: number; value: number | undefined }[]>();
  const loaded = (from: number, to: number, load: number): number | undefined => {
    const place = from * size + to;
    const readings = metersRead.get(place) ?? [];
    const known = readings.find((each) => each.load === load);
    if (known) return known.value;
    meter ??= meterOn(state);
    const value = meter(from, to, load);
    metersRead.set(place, [...readings, { load, value }]);
    return value;
  };
  const metered = (terminal: string, reference: string, load: number): Reckoning | undefined => {
    const [a, b] = [placeOf(terminal), placeOf(reference)];
    if (a === undefined || b === undefined) return undefined;
    const [from, to] = [pointOf(a), pointOf(b)];
    if (from === to) return { value: 0, by: () => 0 };
    if (!isTogether(a, b)) {
      // Through a meter alone between two circuits nothing flows, but where a tube feeds one.
      const isMeter = Number.isFinite(load) && !isLoose(a) && !isLoose(b);
      return isMeter ? { value: 0, by: () => 0 } : undefined;
    }
    if (load === Number.POSITIVE_INFINITY)
      return {
        value: (volts[from] as number) - (volts[to] as number),
        by: (push) => row(from, to, push),
      };
    const value = loaded(from, to, load);
    if (value === undefined) return undefined;
    const share = load / (load + sourceOhms(state, from, to));
    return {
      value,
      by: (push) => share * row(from, to, push),
    };
  };

  const supplyCurrent = (terminal: string): Reckoning | undefined => {
    const part = circuit.partOfEnd.get(terminal);
    const own = (indicesOf.get(part?.name ?? '') ?? []).flatMap((index) => {
      const { from, to } = elements.elements[index]?.branch ?? {};
      return from === terminal || to === terminal
        ? [{ index, sign: from === terminal ? -1 : 1 }]
        : [];
    });
    if (!part || own.length === 0) return undefined;
    let value = 0;
    for (const { index, sign } of own) value += sign * (amperesOf(index) ?? Number.NaN);
    if (!Number.isFinite(value)) return undefined;
    return {
      value,
      by(push) {
        let sum = 0;
        for (const { index, sign } of own) {
          const element = elements.elements[index];
          const now = ohms.get(elements.keys[index] as string);
          if (!element || !now || now.ohms === 0) continue;
          const { fromJunction, toJunction } = element.branch;
          const follows = row(pointOf(fromJunction), pointOf(toJunction), push) / now.ohms;
          const { kind, part: of } = push.parameter;
          const itself =
            of !== part.name
              ? 0
              : kind === 'ohms'
                ? atLoadOf(element) - (amperesOf(index) ?? 0)
                : kind === 'volts'
                  ? now.volts / now.ohms - atLoadOf(element)
                  : 0;
          sum += sign * (follows + itself);
        }
        return sum;
      },
    };
  };

  const tubes = base.tubes.map(({ tube, law }): TubeInChange => {
    const volt = (junction: number): number | undefined =>
      junction < 0 || !isTogether(junction, tube.reference) || isLoose(junction)
        ? undefined
        : at(junction) - at(tube.reference);
    const placed = placedOf.get(`tube ${tube.part.name}`);
    return {
      tube: tube.part.name,
      filamentVolts: at(tube.plus) - at(tube.minus),
      gridVolts: volt(tube.electrodes[0]) ?? law.freeGridVolts,
      isGridFree: volt(tube.electrodes[0]) === undefined,
      plateVolts: volt(tube.electrodes[1]),
      plateAmperes: placed?.rest.leaving[PLATE] ?? 0,
      gridAmperes: placed?.rest.leaving[GRID] ?? 0,
    };
  });

  const signalTubes = (): readonly SignalTube[] =>
    base.tubes.map(({ tube, law }) => {
      const currents = here;
      const zero = at(tube.reference);
      const voltsOf = (electrode: number): number => {
        const junction = tube.electrodes[electrode] as number;
        return junction < 0 ? 0 : at(junction) - zero;
      };
      const filament = at(tube.plus) - at(tube.minus);
      tubeCurrents(law, voltsOf(0), voltsOf(1), voltsOf(2), filament, currents);
      for (const electrode of [0, 1, 2])
        if (!tube.closed[electrode]) currents.slopes.fill(0, 4 * electrode, 4 * electrode + 4);
      const hasPlate = law.plate !== undefined && tube.electrodes[1] >= 0;
      const wire = indicesOf.get(tube.part.name)?.[0];
      const amperes = wire === undefined ? undefined : amperesOf(wire);
      // Of a filament without current nothing but rounding is left to make ohms of.
      const isDark = Math.abs(filament) < DARK_VOLTS;
      return {
        tube: tube.part.name,
        conductances: conductancesOf(currents.slopes),
        transconductance: hasPlate ? { value: currents.slopes[4 + BY_GRID] as number } : undefined,
        filamentVolts: isDark ? undefined : { value: filament },
        filamentAmperes: isDark || amperes === undefined ? undefined : { value: 0 - amperes },
        curvatures: curvaturesAt(
          law,
          [voltsOf(0), voltsOf(1), voltsOf(2), filament],
          [tube.closed[0], tube.closed[1]],
        ),
      };
    });

  const ballasts = elements.elements.flatMap(({ part, control, branch }, index) => {
    const amperes = control === 'ballast' ? amperesOf(index) : undefined;
    const across = at(branch.fromJunction) - at(branch.toJunction);
    return amperes === undefined || amperes === 0
      ? []
      : { part: part.name, ohms: across / amperes, travel: undefined, outcome: 'rated' as const };
  });
  let ofSignals: readonly SignalTube[] | undefined;

  const voltage = (terminal: string, reference: string): number | undefined => {
    const [a, b] = [placeOf(terminal), placeOf(reference)];
    if (a === undefined || b === undefined || !isTogether(a, b)) return undefined;
    return at(a) - at(b);
  };
  return {
    base,
    voltage,
    metered,
    supplyCurrent,
    through(part) {
      const own = indicesOf.get(part);
      if (!own) return undefined;
      let amperes = 0;
      let watts = 0;
      for (const index of own) {
        const each = amperesOf(index);
        const element = elements.elements[index];
        if (each === undefined || !element) continue;
        const { fromJunction, toJunction } = element.branch;
        watts += each * (at(fromJunction) - at(toJunction));
        if (Math.abs(each) > Math.abs(amperes)) amperes = each;
      }
      return { amperes, watts };
    },
    push(parameter) {
      const all = pushed(parameter);
      return {
        parameter,
        points: all.map(([point]) => point),
        amperes: all.map(([, amperes]) => amperes),
      };
    },
    tubes,
    signalPoint: {
      converged: true,
      failures: [],
      settings: base.settings,
      controls: ballasts,
      get tubes() {
        ofSignals ??= signalTubes();
        return ofSignals;
      },
      voltage,
    },
  };
}
