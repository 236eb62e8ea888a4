import {
  type Conduction,
  directPath,
  type Finding,
  type Fix,
  type Part,
  type Settings,
} from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import type { Study } from '../study.ts';
import { type Feed, isPlateSupply, plateFeeds, plateTapsOf } from '../supplies/plate-feed.ts';
import { hasScreen, isStrappedAsTriode, type ScreenTube, screenUse } from '../tubes/screens.ts';
import { judgedOverPositions, standingWords } from '../wiring/positions.ts';
import { stillPoints } from '../wiring/still-points.ts';
import { alsoPart, finding, junctionName, nameOf } from '../words/finding.ts';

/** A screen below this, in volts, screens nothing: the lowest in print is 22 V. From memory. */
const LEAST_SCREEN_VOLTS = 5;
/** Through less than this, in ohms, a screen's own current drops next to nothing. */
const MOST_DIRECT_OHMS = 1000;
/** Volts within this part of one another count as equal. Common practice. */
const NEARLY_EQUAL = 1.05;

/** A screen with no way to a positive tap, or above its plate. */
export const screenWithoutSupply: Check = {
  id: 'screen-without-supply',
  group: 'DC returns',
  severity: 'error',
  summary: 'A screen with no direct path to a positive tap, or with more volts than its plate.',
  why: 'Without its volts a screen stops the electrons and the stage is deaf; with more than the plate it takes the current itself and the plate throws electrons back to it.',
  silent: [
    'A screen strapped to the plate makes the tube a triode and needs no supply of its own.',
    'A space-charge tube has its inner grid on 22 volts or less and the signal on the other.',
    'A screen fed through a dropping resistor may come from a higher tap than the plate.',
    'A pentode may have its screen above its plate.',
    'Where control grid and screen are exchanged, `screen-and-grid-swapped` speaks.',
    'Where no B battery or eliminator is written down, nothing is known of the feed.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: setWith('GND'),
  passes: setWith('B+67'),
  find(study) {
    const tubes = study.tubes.filter(hasScreen).filter((tube) => !isStrappedAsTriode(tube));
    if (tubes.length === 0 || !study.circuit.parts.some(isPlateSupply)) return [];
    const use = screenUse(study.conduction, study.islands);
    const asScreens = tubes.filter((tube) => !use.isSpaceCharge(tube) && !use.isSwapped(tube));
    const dead = judgedOverPositions(study, (conduction) => {
      const feeds = plateFeeds(conduction);
      return new Set(asScreens.filter(({ screen }) => !feeds.has(screen.junction)));
    });
    const fed = asScreens.filter((tube) => !dead.has(tube));
    const still = dead.size > 0 ? stillPoints(study.conduction) : new Set<number>();
    return [
      ...[...dead].map(([tube, { curedBy }]) => {
        const isStill = still.has(tube.screen.junction);
        const blocker = isStill ? undefined : blockerOf(study.conduction, use.feeds, tube);
        return unfed(study, tube, blocker, curedBy);
      }),
      ...fed.flatMap((tube) => wrongVolts(study, tube, use.feeds.get(tube.screen.junction)?.ohms)),
    ];
  },
};

function unfed(
  study: Study,
  tube: ScreenTube,
  blocker: Part | undefined,
  curedBy: Settings | undefined,
): Finding {
  const { circuit } = study;
  const { part, screen } = tube;
  const said = circuit.joins.find(({ from }) => from === screen.id);
  const on = said ? nameOf(circuit, said.to) : junctionName(circuit, screen.junction);
  const tap = suitableTap(study, tube);
  const terminals = circuit.junctions[screen.junction]?.terminals.length ?? 0;
  const what =
    terminals < 2
      ? 'nothing is joined to it'
      : blocker
        ? `${blocker.name} blocks direct current and nothing else leads from it to a positive tap`
        : `it is on ${on}, and nothing leads from there to a positive tap`;
  return finding({
    check: 'screen-without-supply',
    severity: curedBy ? 'information' : 'error',
    message: `The screen of ${part.name} has no supply${curedBy ? ' as drawn' : ''}: ${what}.`,
    why: 'Without its volts the screen stops the electrons on their way and the stage is deaf.',
    cure: curedBy
      ? `Nothing, if it is meant: it has its supply with ${standingWords(circuit, study.on.settings, curedBy)}.`
      : tap
        ? `Join ${screen.id} to ${tap.name}${tap.because}, and bypass it to the filament with .1 to .5 mfd.`
        : `Join ${screen.id} to a positive tap of 45 to 90 V, and bypass it to the filament with .1 to .5 mfd.`,
    place: part.place,
    related: blocker ? [alsoPart(blocker, 'it blocks direct current')] : [],
    parts: [part.name],
    fixes: curedBy ? [] : fixesFor(study, tube, tap?.name),
  });
}

function blockerOf(
  conduction: Conduction,
  feeds: ReadonlyMap<number, Feed>,
  tube: ScreenTube,
): Part | undefined {
  const isGoal = (junction: number): boolean => feeds.has(junction);
  const path = directPath(conduction, tube.screen.junction, isGoal, { throughSources: false });
  if (path.found) return undefined;
  const blocker = path.blockers.find(
    ({ part, goalBeyond }) => goalBeyond && part !== tube.part.name,
  );
  const part = blocker && conduction.circuit.partNamed.get(blocker.part);
  return part?.kind === 'tube' ? undefined : part;
}

/** The tap nearest to what the type is published with. */
function suitableTap(
  study: Study,
  tube: ScreenTube,
): { readonly name: string; readonly because: string } | undefined {
  const published = (tube.part.tubeType?.points ?? []).flatMap(({ screenVolts }) =>
    screenVolts === undefined ? [] : [screenVolts],
  );
  const taps = study.circuit.parts
    .filter(isPlateSupply)
    .flatMap((supply) =>
      plateTapsOf(supply).flatMap((tap) =>
        tap.volts === undefined ? [] : [{ name: tap.end, volts: tap.volts }],
      ),
    );
  let best: { name: string; because: string; off: number } | undefined;
  for (const wanted of published) {
    for (const { name, volts } of taps) {
      const off = Math.abs(volts - wanted);
      if (best && off >= best.off) continue;
      const because = ` (the ${tube.part.typeName} is published with ${formatQuantity(wanted, 'voltage')} on its screen)`;
      best = { name, because, off };
    }
  }
  return best;
}

/** Where the tube's own line leads its screen to the wrong point, the tap instead of it. */
function fixesFor(study: Study, tube: ScreenTube, tap: string | undefined): Fix[] {
  const { circuit } = study;
  const { screen } = tube;
  const joins = circuit.joins.filter(({ from, to }) => from === screen.id || to === screen.id);
  const [join] = joins;
  if (tap === undefined || joins.length !== 1 || join?.said !== 'screen') return [];
  const other = circuit.endNamed.get(join.to);
  if (!other || circuit.partOfEnd.get(other.id)?.kind === 'condenser') return [];
  return [{ title: `Join ${screen.id} to ${tap}`, edits: [{ place: join.place, text: tap }] }];
}

function wrongVolts(study: Study, tube: ScreenTube, feedOhms: number | undefined): Finding[] {
  const { part, screen, plate, reference } = tube;
  if (!reference) return [];
  const screenVolts = study.solved.voltage(screen.id, reference.id);
  if (screenVolts === undefined) return [];
  const tap = suitableTap(study, tube);
  if (screenVolts < LEAST_SCREEN_VOLTS) {
    return [
      finding({
        check: 'screen-without-supply',
        severity: 'error',
        message: `The screen of ${part.name} stands at ${formatQuantity(screenVolts, 'voltage')} from its ${reference.name === 'cathode' ? 'cathode' : 'filament'}: no positive tap feeds it.`,
        why: 'Without its volts the screen stops the electrons on their way and the stage is deaf.',
        cure: `Join ${screen.id} to ${tap ? tap.name + tap.because : 'a positive tap of 45 to 90 V'}.`,
        place: part.place,
        parts: [part.name],
        fixes: fixesFor(study, tube, tap?.name),
      }),
    ];
  }
  const plateVolts = plate && study.solved.voltage(plate.id, reference.id);
  if (plateVolts === undefined || plateVolts < LEAST_SCREEN_VOLTS) return [];
  if (part.tubeType?.pentode || (feedOhms ?? MOST_DIRECT_OHMS) >= MOST_DIRECT_OHMS) return [];
  if (screenVolts <= plateVolts * NEARLY_EQUAL) return [];
  return [
    finding({
      check: 'screen-without-supply',
      severity: 'error',
      message: `The screen of ${part.name} stands at ${formatQuantity(screenVolts, 'voltage')}, above its plate at ${formatQuantity(plateVolts, 'voltage')}.`,
      why: 'The screen then takes the current that belongs to the plate, and the plate throws electrons back to it.',
      cure: `Feed the screen from a lower tap and the plate from a higher one: exchange ${nameOf(study.circuit, screen.id)} and the plate's feed if they were mixed up.`,
      place: part.place,
      parts: [part.name],
    }),
  ];
}

function setWith(screenTo: string): string {
  return `receiver "Fog bell" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+67 67.5 V
    tap B+135 135 V
  }
  post ANT aerial
  post GND ground
  wire B- to A- to GND
  resistor F1 10 ohms from A- to V1.filament-
  resistor F2 10 ohms from A+ to V1.filament+
  radio stage RF {
    coil L1 {
      form 2 in
      winding aerial 12 turns of 30 DSC from GND to ANT
      winding grid 70 turns of 28 DSC beside aerial from GND
    }
    condenser C1 variable 14 to 365 mmfd rotor to GND stator to L1.grid.finish
    tube V1 22 {
      grid to L1.grid.finish
      screen to ${screenTo}
      plate to L2.plate.start
    }
    condenser C2 .5 mfd from B+67 to V1.filament-
  }
  detector stage DET {
    coil L2 {
      form 2 in
      winding plate 20 turns of 30 DSC to B+135
      winding secondary 70 turns of 28 DSC beside plate from GND
    }
    condenser C3 variable 14 to 365 mmfd rotor to GND stator to L2.secondary.finish
    crystal CR1 from L2.secondary.finish to PH1.start
    phones PH1 2000 ohms from PH1.start to GND
    condenser C4 .001 mfd across PH1
  }
}
`;
}
