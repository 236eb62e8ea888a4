import {
  type Conduction,
  type Finding,
  type Fix,
  type Part,
  partsAt,
  rolesOf,
  type SupplyTap,
} from '@setwright/circuit';
import { ironTransformers } from '../audio/iron-transformers.ts';
import type { Check } from '../check.ts';
import { retargeted } from '../fixes/retarget.ts';
import { floatingGrids } from '../grids/floating-grid.ts';
import { gridHomeOf } from '../grids/grid-home.ts';
import { type ReturnEnd, returnEnds, wayTo } from '../grids/return-path.ts';
import type { Study } from '../study.ts';
import { isCPost } from '../supplies/c-post.ts';
import { type Rails, railsOf } from '../supplies/rails.ts';
import { isDiode, type TubeAt } from '../tubes/tubes.ts';
import { contactJunctions, joinedEnds } from '../wiring/joined-ends.ts';
import { regionsOf } from '../wiring/regions.ts';
import { isSaidSpare } from '../wiring/said-spare.ts';
import { isUnwired } from '../wiring/unwired.ts';
import { alsoPart, finding, junctionName, listed, nameOf } from '../words/finding.ts';
import { sentence } from '../words/position-words.ts';
import { tapJunction, tapTerminal, tapWords } from '../words/supply-words.ts';

const set = (gridReturn: string) => `receiver "Cove Gig" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+45 45 V
    tap B+90 90 V
  }
  battery C dry {
    tap C+
    tap C-4.5
  }
  post ANT aerial
  post GND ground
  wire B- to A- to GND to C+
  rheostat RH1 20 ohms from A+ set 4 ohms
  rheostat RH2 20 ohms from A+ set 4 ohms
  detector stage DET {
    coil L1 {
      winding aerial 20 uH from GND to ANT
      winding grid 240 uH from GND
    }
    condenser C1 variable 14 to 365 mmfd rotor to L1.grid.start stator to L1.grid.finish
    condenser C2 .00025 mfd from L1.grid.finish to V1.grid
    leak R1 2 meg from V1.grid to A+
    tube V1 01-A {
      filament from A- to RH1
    }
    condenser C3 .001 mfd from V1.plate to A-
  }
  audio stage AF1 {
    transformer T1 ratio 1 to 3 {
      winding primary 800 ohms from V1.plate to B+45
      winding secondary 5000 ohms from ${gridReturn} to V2.grid
    }
    tube V2 01-A {
      filament from A- to RH2
    }
    phones PH1 2000 ohms from V2.plate to B+90
  }
}
`;

/** Less than this many volts below the filament is no bias to speak of. */
const LEAST_BIAS = 1.5;

/** A C battery that is in the set and biases no grid. */
export const cBatteryIdle: Check = {
  id: 'c-battery-idle',
  group: 'Batteries',
  severity: 'warning',
  summary: 'A C battery is in the set, and no grid gets its bias from it.',
  why: 'Most often a grid return was left on C+ or A-, a post further than where it belongs. The set plays, but the tube distorts on loud notes and empties the B battery, and the C battery is taken for the cure that it is not.',
  silent: [
    'Whatever is joined to a negative tap counts as use: a winding, a leak, a resistance, a choke, a potentiometer, a switch, another battery. Only condensers and posts for the C battery itself do not.',
    'Taps of a C battery in use need not all be used.',
    'A set that is not finished: a grid, plate or winding that leads nowhere yet, a stage without its tube, no audio stage, nothing to hear it by.',
    'A battery that nothing at all is joined to is told of by `isolated-parts`, and one that grids hang on, but no filament, by `batteries-unjoined`.',
    'A `suppose` that joins a grid to it, or changes it for another tap.',
    'A battery that its title or a note calls spare, or not used.',
    'C taps of an eliminator need not be used.',
    'Where every audio grid has its bias without the battery it is information.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: set('C+'),
  passes: set('C-4.5'),
  find(study) {
    const batteries = study.circuit.parts.filter(isCBattery);
    if (batteries.length === 0) return [];
    const { conduction } = study;
    const rails = railsOf(conduction);
    const idle = batteries.flatMap((battery) => {
      const hooked = rails.lighting.has(battery) ? undefined : idleAt(conduction, battery);
      return hooked ? [{ battery, hooked }] : [];
    });
    if (idle.length === 0) return [];
    const audio = study.tubes.filter(isAudio(study));
    if (!isFinished(study, audio)) return [];
    return idle
      .filter(({ battery }) => !isSaidSpare(study.circuit, battery) && !isSupposed(study, battery))
      .map(({ battery, hooked }) => told(study, rails, audio, battery, hooked));
  },
};

/** A battery that can do nothing but bias: no tap above its zero, or all taps called C. */
function isCBattery({ kind, supplyTaps }: Part): boolean {
  if (kind !== 'battery' || supplyTaps.length < 2) return false;
  if (supplyTaps.every(({ end }) => /^C[-+]/.test(end))) return true;
  return (
    supplyTaps.some(({ volts }) => (volts ?? 0) < 0) &&
    supplyTaps.every(({ volts }) => (volts ?? 0) <= 0)
  );
}

/**
 * The taps by which an idle battery is hooked to the set, all of them to one point of it.
 * Undefined where two of its taps are in use, and so it drives something, and where none is.
 */
function idleAt(conduction: Conduction, battery: Part): readonly SupplyTap[] | undefined {
  const { circuit } = conduction;
  const regions = regionsOf(
    conduction,
    ({ part, direct }) => direct.kind !== 'blocks' && part !== battery.name,
  );
  const contacts = contactJunctions(circuit);
  const used = new Set(
    circuit.junctions.flatMap(({ index }) => {
      const here = partsAt(circuit, index).some((part) => part !== battery && isUse(part));
      return here || contacts.has(index) ? regions[index] : [];
    }),
  );
  const regionOf = (tap: SupplyTap) => regions[tapJunction(battery, tap) ?? -1];
  const hooked = battery.supplyTaps.filter((tap) => used.has(regionOf(tap)));
  // Taps that something outside ties together drive a current through it.
  const tied = battery.supplyTaps.some((tap, index) =>
    battery.supplyTaps.slice(index + 1).some((other) => regionOf(other) === regionOf(tap)),
  );
  return hooked.length === 1 && !tied ? hooked : undefined;
}

/** The tap that belongs on the filaments: the highest, or where volts are not said, that called C+. */
function positiveOf({ supplyTaps }: Part): SupplyTap | undefined {
  if (supplyTaps.some(({ volts }) => volts === undefined))
    return supplyTaps.find(({ end }) => end.startsWith('C+')) ?? supplyTaps[0];
  return [...supplyTaps].sort((a, b) => (b.volts ?? 0) - (a.volts ?? 0))[0];
}

/** Whether a part on a tap puts the tap to use, or could once it is finished. */
function isUse(part: Part): boolean {
  if (part.kind === 'condenser' || part.kind === 'bus' || part.kind === 'lead') return false;
  return part.kind !== 'post' || !isCPost(part);
}

/** Whether a tube amplifies audio, a reflex tube among them. */
const isAudio =
  ({ circuit }: Study) =>
  (tube: TubeAt): boolean =>
    tube.grid !== undefined &&
    !isDiode(tube) &&
    rolesOf(circuit, tube.part).some((role) => role === 'audio' || role === 'output');

/** Kinds with two ends, of which neither may lead nowhere in a set that is finished. */
const twoEnded: ReadonlySet<string> = new Set([
  'phones',
  'horn',
  'speaker',
  'choke',
  'resistor',
  'leak',
]);

/** Whether a set is written to its end: the return that is missing might still come. */
function isFinished(study: Study, audio: readonly TubeAt[]): boolean {
  const { circuit, conduction, tubes } = study;
  if (audio.length === 0) return false;
  const isHeard = circuit.parts.some(
    ({ kind, words }) =>
      ['phones', 'horn', 'speaker'].includes(kind) ||
      (kind === 'post' && (words.has('phones') || words.has('speaker'))),
  );
  if (!isHeard) return false;
  const isTube = (name: string) => circuit.partNamed.get(name)?.kind === 'tube';
  const isEmpty = circuit.stages.some(
    ({ roles, parts }) =>
      roles.some((role) => role === 'audio' || role === 'output') && !parts.some(isTube),
  );
  if (isEmpty) return false;
  const isLoose = tubes.some(({ grid, plate }) =>
    [grid, plate].some((end) => end !== undefined && isUnwired(conduction, end)),
  );
  if (isLoose || floatingGrids(conduction, tubes).tubes.size > 0) return false;
  const transformers = ironTransformers(circuit);
  if (transformers.some(({ windings }) => windings.length < 2)) return false;
  const { isJoined } = joinedEnds(circuit);
  const wired = [
    ...transformers.flatMap(({ windings }) => windings),
    ...circuit.parts.filter(({ kind }) => twoEnded.has(kind)),
  ];
  return wired.every((part) =>
    part.ends.every((end) => isJoined(end) || part.taps.some((tap) => tap.end === end.name)),
  );
}

/** Whether a `suppose` puts a battery to use. */
function isSupposed({ circuit }: Study, battery: Part): boolean {
  const own = new Set([battery.name, ...battery.ends.map(({ id }) => id)]);
  return circuit.supposes.some(({ edits }) =>
    edits.some(
      ({ verb, target, other }) =>
        (verb === 'join' || verb === 'swap') && (own.has(target ?? '') || own.has(other ?? '')),
    ),
  );
}

function told(
  study: Study,
  rails: Rails,
  audio: readonly TubeAt[],
  battery: Part,
  hooked: readonly SupplyTap[],
): Finding {
  const { circuit } = study;
  const words = (tap: SupplyTap) => tapWords(circuit, tapTerminal(battery, tap));
  const positive = positiveOf(battery);
  const taps = battery.supplyTaps.filter((tap) => tap !== positive);
  const isHooked = hooked.some((tap) => tap === positive);
  const bare = audio.filter((tube) => !(biasOf(study, tube) <= -LEAST_BIAS));
  const named = bare.length > 0 ? bare : audio;
  const names = named.map(({ part }) => part.name);
  const [first] = named;
  const home = (first && gridHomeOf(circuit, rails, first, false)?.name) ?? 'the filaments';
  const returns = named.map((tube) => returnOf(study, rails, tube));
  const places = listed([...new Set(returns.flatMap((each) => each?.words ?? []))]);
  const grids = `grid${names.length > 1 ? 's' : ''} of ${listed(names)}`;
  const stands =
    bare.length === 0
      ? `and ${listed(names)} ${names.length > 1 ? 'have their' : 'has its'} bias without it`
      : `and the ${grids} return${names.length > 1 ? '' : 's'} to ${places || home}`;
  const idle = isHooked
    ? `no return leads to ${listed(taps.map(words), 'or')}`
    : `nothing is joined to ${positive ? words(positive) : 'its positive side'}`;
  const join = isHooked || !positive ? '' : `join ${words(positive)} to ${home} and `;
  const lead = `lead the grid return${names.length > 1 ? 's' : ''} of ${listed(names)} to ${
    taps.length > 1
      ? `the tap that ${names.length > 1 ? 'each' : 'it'} wants, ${listed(taps.map(words), 'or')}`
      : listed(taps.map(words))
  }`;
  const cure =
    bare.length === 0
      ? `Take ${battery.name} out if the set needs it no more; otherwise ${join}${lead}.`
      : `${sentence(`${join}${lead}`)}; if the set is meant to work without bias, take ${battery.name} out.`;
  return finding({
    check: 'c-battery-idle',
    severity: bare.length === 0 ? 'information' : 'warning',
    message: `${battery.name} gives no grid its bias: ${idle}, ${stands}.`,
    why:
      bare.length === 0
        ? 'A battery that drives nothing only runs down, and one day leaks.'
        : 'Without bias a tube distorts on loud notes and empties the B battery.',
    cure,
    place: battery.place,
    related: named.map(({ part }) => alsoPart(part, `the grid of ${part.name} is not on it`)),
    // Tubes that have their bias may have other faults, which are told.
    parts: [battery.name, ...bare.map(({ part }) => part.name)],
    fixes: isHooked && bare.length === 1 ? fixesOf(study, battery, taps, returns[0]) : [],
  });
}

/** Volts of the grid above what its bias is counted from; not a number where not known. */
function biasOf({ operating }: Study, { part }: TubeAt): number {
  return operating.tubes.find(({ tube }) => tube === part.name)?.bias?.value ?? Number.NaN;
}

interface Return {
  readonly end: ReturnEnd;
  /** The terminal that the return's last part leaves by; undefined where the grid is there itself. */
  readonly from: string | undefined;
  /** Where it goes, as the text says it. */
  readonly words: string;
}

/** The one place that a tube's grid returns to. */
function returnOf({ circuit, conduction }: Study, rails: Rails, tube: TubeAt): Return | undefined {
  const junction = tube.grid?.junction;
  if (junction === undefined) return undefined;
  const ends = returnEnds(conduction, rails, tube, junction);
  const [end] = ends;
  if (!end || ends.some((other) => other.junction !== end.junction)) return undefined;
  const from = wayTo(conduction, junction, end.junction).at(-1)?.to;
  const joins = circuit.joins.filter((join) => join.from === from);
  const said = joins.length === 1 && joins[0]?.said !== 'wire' ? joins[0]?.to : undefined;
  const name = said === undefined ? junctionName(circuit, end.junction) : nameOf(circuit, said);
  return { end, from, words: name };
}

/** The fix that leads a grid's return to the one tap that there is. */
function fixesOf(
  { circuit }: Study,
  battery: Part,
  taps: readonly SupplyTap[],
  home: Return | undefined,
): readonly Fix[] {
  const [tap] = taps;
  if (!tap || taps.length > 1 || home?.from === undefined) return [];
  const words = tapWords(circuit, tapTerminal(battery, tap));
  return words.includes(' ') ? [] : retargeted(circuit, home.from, tap.end);
}
