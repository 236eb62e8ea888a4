import type { TubeAtWork } from '@setwright/analysis';
import type { Conduction, Finding, Part, Severity } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import { type AudioLinks, audioLinks } from '../audio/audio-links.ts';
import { ironTransformers } from '../audio/iron-transformers.ts';
import { type SignalGroups, signalGroups } from '../audio/signal-groups.ts';
import { turnsRatio } from '../audio/turns-ratio.ts';
import type { Check } from '../check.ts';
import { sampleSet } from '../examples/sample-set.ts';
import { revalued } from '../fixes/edits.ts';
import { guessesOf } from '../sizes/guesses.ts';
import { isAdjustable } from '../sizes/parts-played.ts';
import type { Study } from '../study.ts';
import type { TubeAt } from '../tubes/tubes.ts';
import { stillPoints } from '../wiring/still-points.ts';
import { alsoPart, finding } from '../words/finding.ts';

/** Below so many hertz a corner is worth a word, and below so many a warning. Common practice. */
const WORTH_A_WORD = 3000;
const WARNING = 1500;
/** Across a horn or phones, where a little less treble is a habit. */
const WORTH_A_WORD_AT_HORN = 2000;
/** A corner that leaves speech and music alone, in hertz. Common practice. */
const GOOD_CORNER = 5000;
/** A tube with more than this many times its published plate resistance hardly works. */
const HARDLY_WORKS = 5;
/** No crystal in its good direction has less, in ohms. Common practice. */
const LEAST_CRYSTAL_OHMS = 1000;
/** Positions tried to see whether another one brings the treble back. */
const MOST_POSITIONS = 16;

/** A condenser that takes the treble out of an audio circuit. */
export const audioShunted: Check = {
  id: 'audio-shunted',
  group: 'Audio and ratings',
  severity: 'warning',
  summary: 'A bypass in an audio circuit so large that it takes the treble.',
  why: 'Above the corner the condenser is an easier way than the winding: speech is muffled, and no voltage shows it.',
  silent: [
    'The corner lies above 3 kilocycles; from 1.5 to 3 it is information.',
    'Across a horn or phones a corner above 2 kilocycles is a habit of tone, as .006 mfd there is.',
    'A radio bypass of usual size across a primary.',
    'A tone switch that takes the condenser off again: information at the most.',
    'A source of unknown resistance, such as a pentode into a transformer, or a type without data.',
    'Across a secondary where the ratio is not known.',
  ],
  source:
    'common practice; corner 1/(2π R C) with C counted by the square of the ratio on a secondary',
  needsWholeText: true,
  fails: withShunt('.001 mfd'),
  passes: withShunt('.0001 mfd'),
  find(study) {
    const condensers = study.circuit.parts.filter(isFixedCondenser);
    if (condensers.length === 0) return [];
    const audio = audioLinks(study);
    if (audio.stages.length === 0 && !study.circuit.parts.some(isCrystal)) return [];
    const shunts = shuntsAt(study.conduction, audio.groups, condensers);
    if (shunts.length === 0) return [];
    const work = new Map(study.operating.tubes.map((each) => [each.tube, each]));
    const sources = sourcesOf(study, audio, work);
    const found = circuitsOf(shunts, sources).flatMap((circuit) => judged(circuit) ?? []);
    if (found.length === 0) return [];
    const isGuess = guessesOf(study);
    return found.flatMap((each): Finding[] => {
      if (isGuess(each.source.tube?.plate?.junction)) return [];
      const isCured = curedElsewhere(study, each);
      return [told(each, isCured ? 'information' : each.severity, isCured)];
    });
  },
};

const isCrystal = ({ kind }: Part): boolean => kind === 'crystal';

function isFixedCondenser(part: Part): boolean {
  const farads = part.values.capacitance?.value;
  return part.kind === 'condenser' && !isAdjustable(part) && farads !== undefined && farads > 0;
}

/** A condenser from a signal group to what stands still. */
interface Shunt {
  readonly part: Part;
  readonly farads: number;
  readonly group: number;
  /** Its end in the signal group. */
  readonly junction: number;
}

function shuntsAt(
  conduction: Conduction,
  groups: SignalGroups,
  condensers: readonly Part[],
): readonly Shunt[] {
  const still = stillPoints(conduction);
  return condensers.flatMap((part) => {
    const [first, second] = part.ends;
    const farads = part.values.capacitance?.value;
    // One end at rest and the other not: else it joins two signals, or does nothing.
    if (!first || !second || farads === undefined) return [];
    if (still.has(first.junction) === still.has(second.junction)) return [];
    const { junction } = still.has(first.junction) ? second : first;
    const group = groups.of[junction];
    return group === undefined ? [] : [{ part, farads, group, junction }];
  });
}

/** What drives a signal group: the resistance that a condenser there works against. */
interface Source {
  readonly tube: TubeAt | undefined;
  readonly name: string;
  /** The group that is driven outright. */
  readonly root: number;
  /** Ohms as seen there. */
  readonly ohms: number;
  /** Volts of this group over those of the root. */
  readonly stepUp: number;
  /** The winding by which the group hangs on the root; undefined for the root itself. */
  readonly winding: Part | undefined;
  /** Whether a horn or phones lie there, where treble is a matter of tone. */
  readonly isHorn: boolean;
  readonly isAtBest: boolean;
}

function sourcesOf(
  study: Study,
  audio: AudioLinks,
  work: ReadonlyMap<string, TubeAtWork>,
): ReadonlyMap<number, Source> {
  const { circuit } = study;
  const { groups } = audio;
  const sources = new Map<number, Source>();
  const groupOf = (junction: number | undefined): number | undefined =>
    junction === undefined ? undefined : groups.of[junction];
  const horns = new Set(
    circuit.parts
      .filter(({ kind }) => kind === 'horn' || kind === 'phones' || kind === 'speaker')
      .flatMap(({ ends }) => ends.flatMap(({ junction }) => groupOf(junction) ?? [])),
  );
  const resistors = loadsByGroup(study, groups);
  for (const tube of audio.stages) {
    const group = groupOf(tube.plate?.junction);
    const rp = sourceOhms(tube, work.get(tube.part.name));
    if (group === undefined || rp === undefined) continue;
    const load = resistors.get(group);
    if (isOfHighResistance(tube) && load === undefined) continue;
    const beside = sources.get(group);
    const ohms = 1 / (1 / rp + (load ?? 0) + (beside ? 1 / beside.ohms : 0));
    sources.set(group, {
      tube,
      name: tube.part.name,
      root: group,
      ohms,
      stepUp: 1,
      winding: undefined,
      isHorn: horns.has(group),
      isAtBest: false,
    });
  }
  for (const crystal of circuit.parts.filter(isCrystal)) {
    for (const { junction } of crystal.ends) {
      const group = groupOf(junction);
      if (group === undefined || sources.has(group)) continue;
      sources.set(group, {
        tube: undefined,
        name: crystal.name,
        root: group,
        ohms: LEAST_CRYSTAL_OHMS,
        stepUp: 1,
        winding: undefined,
        isHorn: horns.has(group),
        isAtBest: true,
      });
    }
  }
  const driven = new Map(sources);
  for (const { part, windings } of ironTransformers(circuit)) {
    for (const primary of windings) {
      const from = drivenGroup(primary, groups, driven);
      const source = from === undefined ? undefined : driven.get(from);
      if (from === undefined || !source) continue;
      for (const secondary of windings) {
        const ratio = turnsRatio(part, primary, secondary);
        if (secondary === primary || ratio === undefined) continue;
        for (const { junction } of secondary.ends) {
          const group = groupOf(junction);
          if (group === undefined || sources.has(group) || group === from) continue;
          sources.set(group, {
            ...source,
            stepUp: ratio,
            winding: secondary,
            isHorn: horns.has(group),
          });
        }
      }
    }
  }
  return sources;
}

function drivenGroup(
  winding: Part,
  groups: SignalGroups,
  driven: ReadonlyMap<number, Source>,
): number | undefined {
  for (const { junction } of winding.ends) {
    const group = groups.of[junction];
    if (group !== undefined && driven.has(group)) return group;
  }
  return undefined;
}

/** Plate resistance at work, in ohms; undefined where it is not known or the tube hardly works. */
function sourceOhms({ part }: TubeAt, work: TubeAtWork | undefined): number | undefined {
  const ohms = work?.plateResistance?.value;
  if (ohms === undefined || !(ohms > 0)) return undefined;
  const published = part.tubeType?.points.flatMap(({ plateResistance }) => plateResistance ?? []);
  if (!published?.length) return ohms;
  const most = published.reduce((a, b) => Math.max(a, b));
  return ohms > HARDLY_WORKS * most ? undefined : ohms;
}

/** Screen-grid tubes and pentodes, whose load counts and not they themselves. */
const isOfHighResistance = ({ part: { tubeType } }: TubeAt): boolean =>
  tubeType?.screen === true || tubeType?.pentode === true;

/** Siemens of the resistors from a signal group to what stands still. */
function loadsByGroup(
  { circuit, conduction }: Study,
  groups: SignalGroups,
): ReadonlyMap<number, number> {
  const still = stillPoints(conduction);
  const loads = new Map<number, number>();
  for (const part of circuit.parts) {
    const ohms = part.values.resistance?.value;
    if ((part.kind !== 'resistor' && part.kind !== 'leak') || ohms === undefined || !(ohms > 0))
      continue;
    const [first, second] = part.ends;
    if (!first || !second || still.has(first.junction) === still.has(second.junction)) continue;
    const group = groups.of[still.has(first.junction) ? second.junction : first.junction];
    if (group !== undefined) loads.set(group, (loads.get(group) ?? 0) + 1 / ohms);
  }
  return loads;
}

/** The condensers that one source works against, on either side of its transformer. */
type Shunting = readonly { readonly shunt: Shunt; readonly source: Source }[];

function circuitsOf(
  shunts: readonly Shunt[],
  sources: ReadonlyMap<number, Source>,
): readonly Shunting[] {
  const byRoot = new Map<number, { shunt: Shunt; source: Source }[]>();
  for (const shunt of shunts) {
    const source = sources.get(shunt.group);
    if (!source) continue;
    const here = byRoot.get(source.root);
    if (here) here.push({ shunt, source });
    else byRoot.set(source.root, [{ shunt, source }]);
  }
  return [...byRoot.values()];
}

interface Shunted {
  /** The condenser that does most. */
  readonly shunt: Shunt;
  readonly source: Source;
  readonly corner: number;
  readonly severity: Severity;
  /** Farads that the others come to at the source. */
  readonly others: number;
}

function judged(shunting: Shunting): Shunted | undefined {
  const atSource = ({ shunt, source }: Shunting[number]): number =>
    shunt.farads * source.stepUp ** 2;
  let main: Shunting[number] | undefined;
  let farads = 0;
  for (const each of shunting) {
    farads += atSource(each);
    if (!main || atSource(each) > atSource(main)) main = each;
  }
  if (!main) return undefined;
  const corner = 1 / (2 * Math.PI * main.source.ohms * farads);
  const limit = main.source.isHorn ? WORTH_A_WORD_AT_HORN : WORTH_A_WORD;
  if (!(corner < limit)) return undefined;
  const severity = corner < WARNING ? 'warning' : 'information';
  return { ...main, corner, severity, others: farads - atSource(main) };
}

/** Whether some other position of the switches takes the condenser off what drives it. */
function curedElsewhere(study: Study, { shunt, source }: Shunted): boolean {
  const driven = source.winding
    ? source.winding.ends.map(({ junction }) => junction)
    : [source.tube?.plate?.junction ?? shunt.junction];
  return study.everyPosition.slice(1, MOST_POSITIONS).some(({ conduction }) => {
    const groups = signalGroups(conduction, study.tubes);
    const [now] = shuntsAt(conduction, groups, [shunt.part]);
    return !now || !driven.some((junction) => groups.of[junction] === now.group);
  });
}

function told(each: Shunted, severity: Severity, isCured: boolean): Finding {
  const { shunt, source, corner, others } = each;
  const { part } = shunt;
  const farads = (value: number): string => formatQuantity(value, 'capacitance', 'period', 2);
  const good = (1 / (2 * Math.PI * source.ohms * GOOD_CORNER) - others) / source.stepUp ** 2;
  const counts = source.winding
    ? `, for on ${source.winding.name} it counts ${formatQuantity(source.stepUp ** 2, 'ratio', 'period', 2)} times over`
    : '';
  const best = source.isAtBest ? ' at the best' : '';
  return finding({
    check: 'audio-shunted',
    severity,
    message: `${part.name} of ${formatQuantity(shunt.farads, 'capacitance')} takes the treble from ${formatQuantity(corner, 'frequency', 'period', 2)} up${best}, against the ${formatQuantity(source.ohms, 'resistance', 'period', 2)} of ${source.name}${counts}.`,
    why: isCured
      ? 'At another position of the switches it is off, so it may be there for the tone.'
      : 'Speech is muffled, and no voltage shows it.',
    cure:
      good > LEAST_USEFUL
        ? `Use about ${farads(good)} for ${part.name}: then the treble stays to ${formatQuantity(GOOD_CORNER, 'frequency')}.`
        : `Take ${part.name} off, or put it where the radio current is: from the plate home.`,
    place: part.place,
    related: source.tube ? [alsoPart(source.tube.part, `${source.name} drives it`)] : [],
    parts: [part.name],
    fixes: good > LEAST_USEFUL ? revalued(part, 'capacitance', farads(0.95 * good)) : [],
  });
}

/** A bypass of fewer farads is no bypass for radio either. */
const LEAST_USEFUL = 50e-12;

function withShunt(size: string): string {
  return sampleSet([
    `    tube V2 01-A {
      filament from A-
    }
`,
    `    tube V2 01-A {
      filament from A-
    }
    condenser C4 "secondary bypass" ${size} across T1.secondary
`,
  ]);
}
