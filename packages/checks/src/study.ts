import {
  type DirectCurrent,
  directCurrent,
  type OperatingPoint,
  operatingPoint,
  type TubeLaws,
} from '@setwright/analysis';
import { benchReadings, type ReadBench } from '@setwright/bench';
import {
  asFound,
  asOn,
  type Circuit,
  type Conduction,
  conductionOf,
  directIslands,
  type SetOn,
  type Settings,
  settingsOverPositions,
} from '@setwright/circuit';
import { type FilamentGroup, filamentGroupsOf } from './filaments/filament-groups.ts';
import { type RadioStudy, radioStudyOf } from './radio/radio-study.ts';
import { foundOf } from './sizes/found-parts.ts';
import { type TubeAt, tubesOf } from './tubes/tubes.ts';

/** A set with what the checks ask of it, each computed once and only when asked for. */
export interface Study {
  readonly circuit: Circuit;
  readonly tubes: readonly TubeAt[];
  /** The set as drawn, but switched on. */
  readonly on: SetOn;
  /** What conducts with the set on, controls as drawn. */
  readonly conduction: Conduction;
  /** Junction to island number, over everything that passes direct current, with the set on. */
  readonly islands: readonly number[];
  /**
   * The set on, then every position of switches, jacks and selectors that differs electrically,
   * with what conducts at each. The first is as drawn. Bounded; see positions.ts.
   */
  readonly everyPosition: readonly {
    readonly settings: Settings;
    readonly conduction: Conduction;
  }[];
  /**
   * Voltages and currents with the set on and its controls as set; a rheostat with no setting
   * stands where its tubes get their rated volts. Plates, screens and grids carry no current in it.
   */
  readonly solved: DirectCurrent;
  /**
   * The same set at work: what its plates, screens and grids draw as well. It costs more than
   * `solved`, so a check looks first whether it has anything to judge by it.
   */
  readonly operating: OperatingPoint;
  /** Laws of tube types met so far, for whoever reckons another state of the set. */
  readonly laws: TubeLaws;
  /** The filament circuits that can be judged apart from one another, as solved. */
  readonly filamentGroups: readonly FilamentGroup[];
  /** Tuned circuits, windings and the ways of radio current, with the set on. */
  readonly radio: RadioStudy;
  /**
   * What every bench of the text read, beside what its meter should have shown of the set with its
   * parts as they were found.
   */
  readonly benches: readonly ReadBench[];
}

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

/**
 * Makes the study of a set.
 *
 * @param laws laws of tube types found before, kept by the caller; those of new types are entered.
 * @param reckons told whenever something is asked for that goes by the sizes of parts
 */
export function studyOf(
  circuit: Circuit,
  laws: TubeLaws = new WeakMap(),
  reckons: () => void = () => {},
): Study {
  const tubes = once(() => tubesOf(circuit));
  const on = once(() => asOn(circuit));
  const conduction = once(() => conductionOf(circuit, on().settings));
  const islands = once(() => directIslands(conduction()));
  const everyPosition = once(() => {
    const first = { settings: on().settings as Settings, conduction: conduction() };
    const all: { settings: Settings; conduction: Conduction }[] = [first];
    for (const settings of settingsOverPositions(circuit, on().settings).settings) {
      if (settings === on().settings) continue;
      all.push({ settings, conduction: conductionOf(circuit, settings) });
    }
    return all;
  });
  const solved = once(() => directCurrent(circuit, on().settings));
  const operating = once(() => operatingPoint(circuit, on().settings, { laws }));
  const filamentGroups = once(() => filamentGroupsOf(circuit, solved()));
  const radio = once(() => radioStudyOf(conduction(), tubes()));
  const benches = once(() => {
    if (circuit.benches.length === 0) return [];
    const isFound = circuit.parts.some((part) => foundOf(part) !== undefined);
    const standing = isFound ? asFound(circuit) : circuit;
    return circuit.benches.map((bench) => benchReadings(standing, bench, laws));
  });
  return {
    circuit,
    laws,
    get tubes() {
      return tubes();
    },
    get on() {
      return on();
    },
    get conduction() {
      return conduction();
    },
    get islands() {
      return islands();
    },
    get everyPosition() {
      return everyPosition();
    },
    get solved() {
      reckons();
      return solved();
    },
    get operating() {
      reckons();
      return operating();
    },
    get filamentGroups() {
      reckons();
      return filamentGroups();
    },
    get radio() {
      reckons();
      return radio();
    },
    get benches() {
      reckons();
      return benches();
    },
  };
}
