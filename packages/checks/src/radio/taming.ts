import {
  condenserValues,
  type OperatingPoint,
  operatingPoint,
  type StabilityOptions,
  stability,
} from '@setwright/analysis';
import type { Circuit, Part, Settings } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Study } from '../study.ts';
import { standingWords } from '../wiring/positions.ts';
import { isQuietAt } from './squealing.ts';

/** What is to be tamed: stations in hertz, by which tubes, and how it is judged. */
export interface Wild {
  readonly stations: readonly number[];
  /** Names of all tubes that should only amplify. */
  readonly amplifiers: ReadonlySet<string>;
  /** Condensers that tune to the station, by name. */
  readonly tuners: ReadonlySet<string>;
  readonly options: StabilityOptions;
}

/** What quietens a set. */
export interface Tamer {
  /** The part to be turned; undefined where switches or plugs do it. */
  readonly control: Part | undefined;
  /** How it is to stand, as in `P1 turned to 50 %`, `CN1 at 8 mmfd` or `S2 at tap4`. */
  readonly words: string;
}

/** One way in which a control can stand. */
interface Stand {
  readonly words: string;
  readonly settings: Settings;
  readonly options: StabilityOptions;
}

/** Shares of their way that controls are tried at. */
const SHARES: readonly number[] = [0.5, 0, 1, 0.25, 0.75];
/** Controls and positions that are tried at most. */
const MOST_CONTROLS = 12;
const MOST_POSITIONS = 8;
/** What filaments must keep of their rated volts to work as they should; common practice. */
const DIM = 0.9;
const BRIGHT = 1.1;
/** Share of their rating by which filaments may change and still count as left alone. */
const UNCHANGED = 0.01;
/** Tubes that keep less than this share of their slope are put out, not tamed. */
const ALIVE = 0.5;

/**
 * A control that keeps a set quiet throughout the stations, turned for each of them as one does
 * by ear: a potentiometer, a plate resistor, a rheostat within what its filaments bear, a winding
 * that turns, a condenser that does not tune. Else a position of a switch, selector or jack.
 * Undefined where none does.
 */
export function tamerOf(study: Study, wild: Wild): Tamer | undefined {
  for (const control of controlsOf(study.circuit, wild.tuners).slice(0, MOST_CONTROLS)) {
    let left = wild.stations;
    const used: Stand[] = [];
    for (const stand of standsOf(study, control)) {
      const point = operatingPoint(study.circuit, stand.settings, { laws: study.laws });
      if (!point.converged || !isBearable(study, control, point)) continue;
      const still = loudAt(study.circuit, point, { ...wild, stations: left }, stand.options);
      if (still.length < left.length) used.push(stand);
      left = still;
      if (left.length === 0) return { control, words: turnedWords(control, used) };
    }
  }
  return positionThatTames(study, wild);
}

function loudAt(
  circuit: Circuit,
  point: OperatingPoint,
  { stations, amplifiers, options }: Wild,
  more: StabilityOptions,
): readonly number[] {
  const found = stability(circuit, point, { ...options, ...more, stations });
  return found.stations
    .filter((each) => !isQuietAt(each, amplifiers))
    .map(({ frequency }) => frequency);
}

function controlsOf(circuit: Circuit, tuners: ReadonlySet<string>): readonly Part[] {
  const driven = new Set(circuit.dials.flatMap(({ drives }) => drives));
  return circuit.parts.filter((part) => {
    switch (part.kind) {
      case 'potentiometer':
      case 'rheostat':
        return true;
      case 'resistor':
        return part.words.has('variable');
      case 'winding':
        return part.setting !== undefined || driven.has(part.name);
      case 'condenser':
        return isThrottle(part) && !tuners.has(part.name);
      default:
        return false;
    }
  });
}

/** A condenser to be turned by hand, or a neutralizing one that the text sets. */
const isThrottle = (part: Part): boolean =>
  part.words.has('variable') ||
  (part.words.has('neutralizing') && (part.setting !== undefined || part.values.set !== undefined));

function standsOf({ circuit, on }: Study, control: Part): readonly Stand[] {
  const { settings } = on;
  return SHARES.flatMap((share): readonly Stand[] => {
    const words = `${control.name} turned to ${Math.round(100 * share)} %`;
    switch (control.kind) {
      case 'winding':
        return [{ words, settings, options: { turned: new Map([[control.name, share]]) } }];
      case 'condenser': {
        const values = condenserValues(circuit, control);
        const [least, most] = [values?.least.value, values?.most.value];
        if (least === undefined || most === undefined) return [];
        const farads = least + share * (most - least);
        const size = formatQuantity(farads, 'capacitance', 'period', 2);
        const condensers = new Map([[control.name, farads]]);
        return [{ words: `${control.name} at ${size}`, settings, options: { condensers } }];
      }
      default: {
        const { positions, removed } = settings;
        const travels = new Map([...settings.travels, [control.name, share] as const]);
        return [{ words, settings: { positions, removed, travels }, options: {} }];
      }
    }
  });
}

/**
 * Whether the tubes still work as they should: the filaments that the control changes between 90
 * and 110 percent of their rating. One that is called a volume control may dim them at will.
 */
function isBearable(study: Study, control: Part, { tubes }: OperatingPoint): boolean {
  const { circuit } = study;
  const least = isVolumeControl(circuit, control) ? 0 : DIM;
  const drawn = new Map(
    study.operating.tubes.map(({ tube, filamentVolts }) => [tube, filamentVolts?.value]),
  );
  return tubes.every(({ tube, filamentVolts }) => {
    const rated = circuit.partNamed.get(tube)?.tubeType?.filamentVolts;
    if (rated === undefined || filamentVolts?.value === undefined) return true;
    const change = Math.abs(filamentVolts.value - (drawn.get(tube) ?? 0));
    if (change < UNCHANGED * rated) return true;
    const share = Math.abs(filamentVolts.value) / rated;
    return share >= least && share <= BRIGHT;
  });
}

function isVolumeControl(circuit: Circuit, control: Part): boolean {
  const dials = circuit.dials.filter(({ drives }) => drives.includes(control.name));
  return [control, ...dials].some(({ title }) => /volume|stabili/i.test(title ?? ''));
}

function turnedWords({ name }: Part, used: readonly Stand[]): string {
  const [only] = used;
  return only && used.length === 1 ? only.words : `${name} turned to suit the station`;
}

function positionThatTames(study: Study, wild: Wild): Tamer | undefined {
  const { circuit } = study;
  for (const { settings } of study.everyPosition.slice(1, 1 + MOST_POSITIONS)) {
    const point = operatingPoint(circuit, settings, { laws: study.laws });
    if (!point.converged || !areAlive(study, wild.amplifiers, point)) continue;
    if (loudAt(circuit, point, wild, {}).length > 0) continue;
    return { control: undefined, words: standingWords(circuit, study.on.settings, settings) };
  }
  return undefined;
}

/** Whether the tubes amplify about as they do as drawn: a set switched off is not tamed. */
function areAlive(study: Study, amplifiers: ReadonlySet<string>, point: OperatingPoint): boolean {
  const slopes = new Map(
    study.operating.tubes.map(({ tube, transconductance }) => [tube, transconductance?.value]),
  );
  return point.tubes.every(
    ({ tube, transconductance }) =>
      !amplifiers.has(tube) ||
      (transconductance?.value ?? 0) >= ALIVE * (slopes.get(tube) ?? Number.POSITIVE_INFINITY),
  );
}
