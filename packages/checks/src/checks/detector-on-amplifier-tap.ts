import {
  directPath,
  type End,
  type Finding,
  type Fix,
  openVolts,
  type Step,
} from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import type { Study } from '../study.ts';
import { type Feed, plateFeeds } from '../supplies/plate-feed.ts';
import { detectingLeakOf } from '../tubes/detecting.ts';
import { otherJunction, partsAt, type TubeAt } from '../tubes/tubes.ts';
import { joinsBetween } from '../wiring/joins-between.ts';
import { alsoPart, finding, listed } from '../words/finding.ts';
import { tapJunction, tapTerminal, tapWords } from '../words/supply-words.ts';
import { distinct } from '../words/way-words.ts';

/** A plate behind this many ohms or more has a plate resistor, and far less than the tap's volts. */
const LEAST_PLATE_RESISTOR_OHMS = 10_000;
/** Taps within this part of one another count as equal. Common practice. */
const NEARLY_EQUAL = 1.05;

/** A tube, with the tap that feeds its plate. */
interface Fed {
  readonly tube: TubeAt;
  readonly plate: End;
  readonly feed: Feed;
  /** Volts of the tap above its supply's zero; undefined when not known. */
  readonly volts: number | undefined;
}

/** Detector and amplifier B leads exchanged. */
export const detectorOnAmplifierTap: Check = {
  id: 'detector-on-amplifier-tap',
  group: 'Batteries',
  severity: 'warning',
  summary:
    'A grid-leak detector has a higher tap than an amplifier of the same set, or an amplifier has the tap named for the detector.',
  why: 'With too many volts a grid-leak detector hisses and loses its sense for weak signals; with too few an amplifier is weak and distorts. The two leads were exchanged.',
  silent: [
    'A detector that works by its bias wants the higher volts.',
    'In a set of one tap there is nothing to exchange.',
    'A detector behind a plate resistor gets far less than its tap.',
    'A regenerative set with phones alone may give its detector what it likes.',
    'Taps of unknown volts are judged by their names only.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: setWith('B+45', 'B+22'),
  passes: setWith('B+22', 'B+45'),
  find(study) {
    const fed = fedTubes(study);
    const detectors = fed.filter(({ tube }) => isGridLeakDetector(study, tube));
    const amplifiers = fed.filter(({ tube }) => isAmplifier(study, tube));
    if (detectors.length === 0 || amplifiers.length === 0) return [];
    if (detectors.some(({ tube }) => isOnPhonesAlone(study, tube))) return [];
    return detectors.flatMap((detector) => {
      const low = lowestOf(amplifiers);
      const isHigher =
        low?.volts !== undefined &&
        detector.volts !== undefined &&
        detector.volts > low.volts * NEARLY_EQUAL;
      const byName = low && !isHigher ? onDetectorTap(detectors, amplifiers) : undefined;
      if (isHigher) return [told(study, detector, onTapOf(amplifiers, low))];
      return byName && detector === detectors[0] ? [told(study, detector, byName)] : [];
    });
  },
};

function fedTubes(study: Study): readonly Fed[] {
  const feeds = plateFeeds(study.conduction);
  return study.tubes.flatMap((tube) => {
    const { plate } = tube;
    const feed = plate && feeds.get(plate.junction);
    if (!plate || !feed || feed.ohms >= LEAST_PLATE_RESISTOR_OHMS) return [];
    return [{ tube, plate, feed, volts: openVolts(feed.supply, feed.tap) }];
  });
}

function isGridLeakDetector({ circuit }: Study, tube: TubeAt): boolean {
  return detectingLeakOf(circuit, tube) !== undefined;
}

const amplifying: ReadonlySet<string> = new Set(['radio', 'intermediate', 'audio', 'output']);

const detecting: ReadonlySet<string> = new Set(['detector', 'mixer']);

function isAmplifier(study: Study, tube: TubeAt): boolean {
  if (tube.roles.length === 0) return isAudioByWiring(study, tube);
  return (
    tube.roles.some((role) => amplifying.has(role)) &&
    !tube.roles.some((role) => detecting.has(role))
  );
}

/** A tube of which nothing is said, with an iron-core winding at its grid. */
function isAudioByWiring({ circuit }: Study, { roles, grid }: TubeAt): boolean {
  if (roles.length > 0 || !grid) return false;
  return partsAt(circuit, grid.junction).some(({ owner }) => {
    const whole = owner === undefined ? undefined : circuit.partNamed.get(owner);
    return whole?.kind === 'transformer' && !whole.words.has('air');
  });
}

function lowestOf(amplifiers: readonly Fed[]): Fed | undefined {
  let lowest: Fed | undefined;
  for (const fed of amplifiers) {
    if (fed.volts === undefined) continue;
    if (lowest?.volts === undefined || fed.volts < lowest.volts) lowest = fed;
  }
  return lowest ?? amplifiers[0];
}

function onTapOf(amplifiers: readonly Fed[], { feed }: Fed): readonly Fed[] {
  return amplifiers.filter((fed) => fed.feed.tap === feed.tap);
}

/** The amplifiers on a tap named for the detector while no detector is on it. */
function onDetectorTap(
  detectors: readonly Fed[],
  amplifiers: readonly Fed[],
): readonly Fed[] | undefined {
  const used = new Set(detectors.map(({ feed }) => feed.tap));
  const wrong = amplifiers.filter(({ feed }) => /DET/i.test(feed.tap.end) && !used.has(feed.tap));
  const [first] = wrong;
  return first && onTapOf(wrong, first);
}

/** A regenerative detector in a set with no audio amplifier. */
function isOnPhonesAlone(study: Study, detector: TubeAt): boolean {
  const hasAudio = study.tubes.some(
    (tube) =>
      tube.roles.includes('audio') || tube.roles.includes('output') || isAudioByWiring(study, tube),
  );
  return !hasAudio && isRegenerative(study, detector);
}

/** Whether a winding in a detector's plate lead shares its coil with the winding at its grid. */
function isRegenerative({ circuit }: Study, tube: TubeAt): boolean {
  const { grid, plate } = tube;
  if (!grid || !plate) return false;
  const coilsAt = (junction: number | undefined): readonly string[] =>
    junction === undefined
      ? []
      : partsAt(circuit, junction).flatMap(({ owner }) => (owner === undefined ? [] : [owner]));
  const behind = partsAt(circuit, grid.junction)
    .filter(({ kind }) => kind === 'condenser')
    .flatMap((condenser) => coilsAt(otherJunction(condenser, grid.junction)));
  const atGrid = new Set([...coilsAt(grid.junction), ...behind]);
  return coilsAt(plate.junction).some((coil) => atGrid.has(coil));
}

function told(study: Study, detector: Fed, amplifiers: readonly Fed[]): Finding {
  const own = words(study, detector);
  const other = amplifiers[0] ?? detector;
  const names = amplifiers.map(({ tube }) => tube.part.name);
  const lead = leadOf(study, detector);
  const place = lead?.place ?? detector.tube.part.place;
  const fix = exchangeOf(study, detector, amplifiers);
  const isByName = /DET/i.test(other.feed.tap.end);
  return finding({
    check: 'detector-on-amplifier-tap',
    severity: 'warning',
    message: isByName
      ? `${words(study, other)}, named for the detector, feeds ${listed(names)}, and the detector ${detector.tube.part.name} is on ${own}.`
      : `The detector ${detector.tube.part.name} is on ${own}${atVolts(detector)} and the ${names.length > 1 ? 'amplifiers' : 'amplifier'} ${listed(names)} on ${words(study, other)}${atVolts(other)}.`,
    why: 'The detector hisses and loses the weak stations, and the amplifier is weak.',
    cure: `Exchange the two leads: ${detector.tube.part.name} to ${words(study, other)}, ${listed(names)} to ${own}.`,
    place,
    related: distinct(
      [
        alsoPart(detector.tube.part, `${detector.tube.part.name} detects.`),
        ...amplifiers.flatMap((fed) => {
          const its = leadOf(study, fed);
          const message = `${fed.tube.part.name} is fed from ${words(study, fed)}.`;
          return [{ place: its?.place ?? fed.tube.part.place, message }];
        }),
      ],
      place,
    ),
    parts: [detector.tube.part.name, ...names],
    fixes: fix ? [fix] : [],
  });
}

function atVolts({ volts }: Fed): string {
  return volts === undefined ? '' : ` (${formatQuantity(volts, 'voltage')})`;
}

function words({ circuit }: Study, { feed }: Fed): string {
  return tapWords(circuit, tapTerminal(feed.supply, feed.tap));
}

/** The join that brings a plate's lead to its tap, where one line says it. */
function leadOf({ circuit, conduction }: Study, { plate, feed }: Fed) {
  const at = tapJunction(feed.supply, feed.tap);
  const path = directPath(conduction, plate.junction, (junction) => junction === at, {
    throughSources: false,
  });
  const last: Step | undefined = path.found ? path.steps.at(-1) : undefined;
  const terminal = tapTerminal(feed.supply, feed.tap);
  return joinsBetween(circuit, last?.to ?? plate.id, terminal).at(-1)?.join;
}

/** Exchanges the names of the two taps where each lead's own line names its tap. */
function exchangeOf(study: Study, detector: Fed, amplifiers: readonly Fed[]): Fix | undefined {
  const other = amplifiers[0];
  if (!other) return undefined;
  const [own, theirs] = [words(study, detector), words(study, other)];
  if (own.includes(' ') || theirs.includes(' ')) return undefined;
  const edits = new Map<string, Fix['edits'][number]>();
  for (const fed of [detector, ...amplifiers]) {
    const join = leadOf(study, fed);
    const isOwnName =
      join !== undefined && join.place.end - join.place.start === words(study, fed).length;
    if (!join || join.said === 'wire' || join.said === 'across' || !isOwnName) return undefined;
    edits.set(`${join.place.file} ${join.place.start}`, {
      place: join.place,
      text: fed === detector ? theirs : own,
    });
  }
  return { title: `Exchange ${own} and ${theirs}`, edits: [...edits.values()] };
}

function setWith(detector: string, amplifier: string): string {
  return `
receiver "Detector and one stage of audio" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+22 22.5 V
    tap B+45
  }
  wire B- to A-
  resistor F1 2 ohms from A-
  detector stage DET {
    coil L1 {
      winding grid 240 uH 4 ohms from A-
    }
    condenser C1 variable 14 to 365 mmfd across L1.grid
    condenser C2 .00025 mfd from L1.grid.finish to V1.grid
    leak R1 2 meg from V1.grid to A+
    tube V1 01-A {
      filament from F1 to A+
    }
    condenser C3 .001 mfd from V1.plate to A-
  }
  audio stage AF {
    transformer T1 ratio 1 to 3 {
      winding primary 800 ohms from V1.plate to ${detector}
      winding secondary 5200 ohms from A- to V2.grid
    }
    tube V2 01-A {
      filament from F1 to A+
      plate to PH1
    }
    phones PH1 2000 ohms to ${amplifier}
  }
}
`;
}
