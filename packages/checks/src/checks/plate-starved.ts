import { type Finding, openVolts, type Part, type Step } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import { type AudioLinks, audioLinks } from '../audio/audio-links.ts';
import type { Check } from '../check.ts';
import { sampleSet } from '../examples/sample-set.ts';
import { revalued, valuesExchanged } from '../fixes/edits.ts';
import { wayTo } from '../grids/return-path.ts';
import type { Study } from '../study.ts';
import { PLATE_RESISTOR, plateFeeds } from '../supplies/plate-feed.ts';
import { detectingCondenserOf } from '../tubes/detecting.ts';
import { partsAt, type TubeAt } from '../tubes/tubes.ts';
import { aboutVolts } from '../words/about.ts';
import { ohms, percent } from '../words/filament-words.ts';
import { alsoPart, finding } from '../words/finding.ts';

/** More than this part of a tap, less what the bias holds back, lost in a resistor is too much. */
const MOST_LOST = 0.75;
/** A stage gives at least this part of its tube's amplification. */
const LEAST_GAIN = 0.5;
/** Types of this amplification and more are made for high plate resistors. Common practice. */
const HIGH_MU = 20;
/** They are published for plate resistors of up to so many times their plate resistance. */
const MOST_OVER_RP = 3;

/** A plate resistor that leaves its tube too little to work with. */
export const plateStarved: Check = {
  id: 'plate-starved',
  group: 'Audio and ratings',
  severity: 'information',
  summary: 'A plate resistor that takes most of its tap, while the stage gives little gain.',
  why: 'The stage is weak; the plate resistor and the next grid’s leak are often exchanged.',
  silent: [
    'No more than three quarters of the tap, less what the bias holds back, are lost; or the stage gives half of what its type can.',
    'Detectors with a grid condenser: their plates do well on few volts.',
    'A tube of high amplification behind a resistor of the size that it is published for.',
    'A resistor of unknown size, or a type without published points.',
  ],
  source: 'common practice; gain of a resistance-coupled stage μ R/(R + rp)',
  needsWholeText: true,
  fails: resistanceCoupled('2 meg', '.1 meg'),
  passes: resistanceCoupled('.1 meg', '2 meg'),
  find(study) {
    const { circuit, conduction, tubes } = study;
    const feeds = plateFeeds(conduction);
    const behind = tubes.flatMap((tube) => {
      const feed = tube.plate && feeds.get(tube.plate.junction);
      return feed && feed.ohms >= PLATE_RESISTOR && !detectingCondenserOf(circuit, tube)
        ? [{ tube, feed }]
        : [];
    });
    if (behind.length === 0) return [];
    const work = new Map(study.operating.tubes.map((each) => [each.tube, each]));
    const audio = audioLinks(study);
    const guessed = new Set(study.operating.taken.map(({ part }) => part));
    return behind.flatMap(({ tube, feed }): Finding[] => {
      const at = work.get(tube.part.name);
      const tap = openVolts(feed.supply, feed.tap);
      const plate = at?.plateVolts?.value;
      const rp = at?.plateResistance?.value;
      const mu = at?.amplification?.value;
      if (!at || tap === undefined || plate === undefined || rp === undefined || mu === undefined)
        return [];
      const lost = tap > 0 ? 1 - plate / tap : 0;
      // What the bias holds back by the amplification is of no use to the plate.
      const held = Math.max(0, -mu * (at.bias?.value ?? 0));
      const isStarved = tap > held && (tap - plate) / (tap - held) > MOST_LOST;
      if (!isStarved || isPublishedFor(tube, feed.ohms)) return [];
      const tapEnd = feed.supply.ends.find(({ name }) => name === feed.tap.end);
      if (!tube.plate || !tapEnd) return [];
      const steps = wayTo(conduction, tube.plate.junction, tapEnd.junction);
      if (steps.some(({ part }) => guessed.has(part))) return [];
      const resistor = highest(study, steps);
      if (!resistor) return [];
      const leak = nextLeak(study, audio, tube);
      const leakOhms = leak?.values.resistance?.value;
      const load = leakOhms ? 1 / (1 / feed.ohms + 1 / leakOhms) : feed.ohms;
      const gain = (mu * load) / (load + rp);
      const most = tube.part.tubeType?.amplification ?? mu;
      if (!(gain < LEAST_GAIN * most)) return [];
      const better = Math.max(PLATE_RESISTOR, roundOhms(3 * rpOf(tube, rp)));
      const isExchanged = leak !== undefined && leakOhms !== undefined && leakOhms < feed.ohms;
      return [
        finding({
          check: 'plate-starved',
          severity: 'information',
          message: `${resistor.name} of ${ohms(resistor.values.resistance?.value ?? feed.ohms)} leaves the plate of ${tube.part.name} ${aboutVolts(plate)} of the ${aboutVolts(tap)} of ${feed.tap.end}: ${percent(lost)} are lost, and the stage gives about ${formatQuantity(gain, 'ratio', 'period', 2)} of the ${formatQuantity(most, 'ratio')} that the tube could.`,
          why: 'The stage is weak.',
          cure: isExchanged
            ? `See whether ${resistor.name} and ${leak.name} are exchanged: the lower of the two belongs in the plate lead.`
            : `Use a lower plate resistor for ${tube.part.name}, about ${ohms(better)}.`,
          place: resistor.place,
          related: [
            alsoPart(tube.part, `${tube.part.name} is starved`),
            ...(leak ? [alsoPart(leak, 'the next grid’s leak')] : []),
          ],
          parts: [resistor.name, tube.part.name, ...(isExchanged ? [leak.name] : [])],
          fixes: isExchanged
            ? valuesExchanged(resistor, leak)
            : revalued(resistor, 'resistance', ohms(better)),
        }),
      ];
    });
  },
};

/** The plate resistance that a type is published with, the least of several. */
function rpOf({ part }: TubeAt, rp: number): number {
  const published = part.tubeType?.points.flatMap(({ plateResistance }) => plateResistance ?? []);
  return published?.length ? Math.min(...published) : rp;
}

/** Two figures. */
function roundOhms(value: number): number {
  const step = 10 ** (Math.floor(Math.log10(value)) - 1);
  return Math.round(value / step) * step;
}

/** Whether a type of high amplification is published for a resistor like this one. */
function isPublishedFor({ part }: TubeAt, ohmsInPlate: number): boolean {
  const type = part.tubeType;
  if ((type?.amplification ?? 0) < HIGH_MU) return false;
  return (type?.points ?? []).some(
    ({ plateResistance }) =>
      plateResistance !== undefined && ohmsInPlate <= MOST_OVER_RP * plateResistance,
  );
}

function highest({ circuit }: Study, steps: readonly Step[]): Part | undefined {
  let found: Part | undefined;
  for (const { part: name } of steps) {
    const part = circuit.partNamed.get(name);
    if (part?.kind !== 'resistor' && part?.kind !== 'leak') continue;
    const more = (part.values.resistance?.value ?? 0) > (found?.values.resistance?.value ?? 0);
    if (!found || more) found = part;
  }
  return found;
}

/** The leak of the grid that a plate drives through a condenser; the lowest of several. */
function nextLeak(study: Study, audio: AudioLinks, tube: TubeAt): Part | undefined {
  let found: Part | undefined;
  for (const { from, to, kind } of audio.links) {
    if (from !== tube || kind !== 'condenser' || !to.grid) continue;
    for (const part of partsAt(study.circuit, to.grid.junction)) {
      const value = part.values.resistance?.value;
      if ((part.kind !== 'leak' && part.kind !== 'resistor') || value === undefined) continue;
      if (!found || value < (found.values.resistance?.value ?? 0)) found = part;
    }
  }
  return found;
}

/** The sample set with a condenser and two resistances in place of its second transformer. */
function resistanceCoupled(plateResistor: string, leak: string): string {
  return sampleSet(
    ['from C-4.5', 'from A-'],
    [
      `    transformer T2 ratio 1 to 3 {
      winding primary 14 H 800 ohms from V2.plate to B+90
      winding secondary 5000 ohms from C-9 to V3.grid
    }
`,
      `    resistor R2 ${plateResistor} from V2.plate to B+90
    condenser C4 .01 mfd from V2.plate to V3.grid
    leak R3 ${leak} from V3.grid to C-9
`,
    ],
  );
}
