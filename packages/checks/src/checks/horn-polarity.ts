import { directPath, type End, type Finding, type Part } from '@setwright/circuit';
import type { Check } from '../check.ts';
import { exchanged } from '../fixes/exchange.ts';
import type { Study } from '../study.ts';
import { type Feed, plateFeeds } from '../supplies/plate-feed.ts';
import { alsoPart, finding } from '../words/finding.ts';

/** A horn whose plate current works against its magnet. */
export const hornPolarity: Check = {
  id: 'horn-polarity',
  group: 'Audio and ratings',
  severity: 'warning',
  summary: 'A horn whose stated polarity has the plate current run the wrong way through it.',
  why: 'The plate current then works against the magnet of the driver: the sound is weak, and in time the magnet is too.',
  silent: [
    'A horn whose polarity the text does not state by `positive to` or `negative to`.',
    'A horn behind a choke and condenser, or behind an output transformer: no direct current flows in it.',
    'Phones, and cone loudspeakers, whose armatures are balanced.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: setWith('positive to V1.plate negative to B+90'),
  passes: setWith('positive to B+90 negative to V1.plate'),
  find(study) {
    const { circuit } = study;
    const stated = new Set(
      circuit.joins.flatMap(({ from, said }) =>
        said === 'positive' || said === 'negative' ? [from] : [],
      ),
    );
    const horns = circuit.parts.filter(
      (part) => part.kind === 'horn' && part.ends.some((end) => stated.has(end.id)),
    );
    if (horns.length === 0) return [];
    const feeds = plateFeeds(study.conduction);
    return horns.flatMap((horn) => {
      // The first end of a horn is its positive one.
      const [positive, negative] = horn.ends;
      return positive && negative ? reversed(study, feeds, horn, positive, negative) : [];
    });
  },
};

function reversed(
  study: Study,
  feeds: ReadonlyMap<number, Feed>,
  horn: Part,
  positive: End,
  negative: End,
): Finding[] {
  const { circuit, conduction } = study;
  const plates = new Map(
    study.tubes.flatMap(({ part, plate }) => (plate ? [[plate.junction, part] as const] : [])),
  );
  const options = { throughSources: false, skip: new Set([horn.name]) };
  const taps = new Set([...feeds].flatMap(([at, { distance }]) => (distance === 0 ? [at] : [])));
  const leads = (end: End, goals: { has(junction: number): boolean }) => {
    const path = directPath(conduction, end.junction, (at) => goals.has(at), options);
    return path.found ? path.junction : undefined;
  };
  if (!feeds.has(positive.junction) || !feeds.has(negative.junction)) return [];
  const plateAt = leads(positive, plates);
  const tapAt = leads(negative, taps);
  // Where both ends lead both ways the current's way cannot be told.
  if (plateAt === undefined || tapAt === undefined) return [];
  if (leads(positive, taps) !== undefined || leads(negative, plates) !== undefined) return [];
  const tube = plates.get(plateAt);
  const tap = feeds.get(tapAt)?.tap.end ?? 'the tap';
  const edits = exchanged(circuit, positive, negative);
  return [
    finding({
      check: 'horn-polarity',
      severity: 'warning',
      message: `The plate current of ${tube?.name ?? 'the last tube'} leaves ${horn.name} by its positive terminal, which leads to the plate.`,
      why: 'It works against the magnet of the driver and weakens it in time.',
      cure: `Exchange the leads of ${horn.name}: positive to ${tap}, negative to the plate.`,
      place: horn.place,
      related: tube ? [alsoPart(tube, 'its plate current flows in the horn')] : [],
      parts: [horn.name],
      fixes: edits ? [{ title: `Exchange the leads of ${horn.name}`, edits }] : [],
    }),
  ];
}

function setWith(leads: string): string {
  return `receiver "Harbour office" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+90
  }
  battery C dry {
    tap C+
    tap C-4.5
  }
  post ANT aerial
  post GND ground
  wire B- to A- to C+ to GND
  rheostat RH1 20 ohms from A+ to V1.filament+ set 4 ohms
  detector stage DET {
    coil L1 {
      form 3 in
      winding aerial 12 turns of 24 DCC from GND to ANT
      winding secondary 44 turns of 24 DCC beside aerial spaced 1/4 in from GND
    }
    condenser C1 variable 20 to 500 mmfd rotor to GND stator to L1.secondary.finish
    crystal CR1 from L1.secondary.finish to T1.primary.start
    condenser C2 .001 mfd across T1.primary
  }
  output stage AF {
    transformer T1 ratio 1 to 3 {
      winding primary 800 ohms to GND
      winding secondary 5000 ohms from C-4.5 to V1.grid
    }
    tube V1 01-A {
      filament from A-
    }
    horn H1 2000 ohms ${leads}
  }
}
`;
}
