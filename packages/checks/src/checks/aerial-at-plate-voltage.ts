import {
  type Branch,
  type Circuit,
  type Conduction,
  type End,
  type Finding,
  type Part,
  type Settings,
  type Step,
  type SupplyTap,
  supposedOhms,
  zeroTap,
} from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import type { Study } from '../study.ts';
import { isPlateSupply, plateTapsOf } from '../supplies/plate-feed.ts';
import { withEveryContactClosed } from '../wiring/every-contact.ts';
import { joinsBetween } from '../wiring/joins-between.ts';
import { leastOhms } from '../wiring/least-ohms.ts';
import { alsoPart, finding } from '../words/finding.ts';
import { sentence, standingFirst } from '../words/position-words.ts';
import { tapJunction, tapTerminal, tapWords } from '../words/supply-words.ts';
import { distinct, linesOfWay, partsOfWay, wayWords } from '../words/way-words.ts';

/** Through more than this, in ohms, a touch is not felt. Common practice. */
const MOST_OHMS = 1e6;
/** Volts on a post that are no plate voltage: what a filament battery gives. Common practice. */
const MOST_VOLTS = 12.6;

/** How plate voltage comes to a post. */
interface PostAtVolts {
  readonly post: Part;
  readonly end: End;
  readonly supply: Part;
  readonly tap: SupplyTap;
  readonly volts: number;
  readonly ohms: number;
  /** From the post to the tap. */
  readonly steps: readonly Step[];
}

/** An aerial or ground post with a direct path to a B tap. */
export const aerialAtPlateVoltage: Check = {
  id: 'aerial-at-plate-voltage',
  group: 'Safety',
  severity: 'warning',
  summary: 'Direct current from a B tap reaches an aerial or ground post.',
  why: 'Whoever touches the aerial wire or its post gets the plate voltage, and an aerial that touches a gutter, or a ground wire, shorts the B battery.',
  silent: [
    'A path of more than a megohm passes nothing that is felt.',
    'A fixed condenser in the aerial lead keeps the plate voltage away.',
    'A post that is tied to the filament side stands at next to nothing, whatever bleeds to it.',
    'B- is no B tap: the ground post is usually on it.',
    'A tap whose volts are not known says nothing.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: setWith('wire ANT to V1.plate'),
  passes: setWith('condenser C4 .0005 mfd from ANT to V1.plate'),
  find(study) {
    const { circuit } = study;
    const posts = circuit.parts.filter(
      ({ kind, words }) => kind === 'post' && (words.has('aerial') || words.has('ground')),
    );
    if (posts.length === 0 || !circuit.parts.some(isPlateSupply)) return [];
    const possible = withEveryContactClosed(study.conduction);
    const suspects = posts.filter((post) => reachesPlateTap(possible, post));
    if (suspects.length === 0) return [];
    const found = new Map<Part, Finding>();
    for (const { settings, conduction } of study.everyPosition) {
      for (const post of suspects) {
        if (found.has(post)) continue;
        const live = voltsAt(conduction, post);
        if (live) found.set(post, told(study, live, settings));
      }
    }
    return oneForEachWay([...found.values()]);
  },
};

/** Ohms of a branch that leads from a post, supplies left out. */
function outward(circuit: Circuit): (branch: Branch) => number | undefined {
  return (branch) =>
    branch.direct.kind === 'conducts' && circuit.partNamed.get(branch.part)?.kind !== 'tube'
      ? ohmsIn(circuit, branch)
      : undefined;
}

function ohmsIn(circuit: Circuit, branch: Branch): number | undefined {
  if (branch.direct.kind === 'blocks') return undefined;
  return Math.max(0, branch.direct.ohms ?? supposedOhms(circuit, branch).ohms);
}

function plateTapsAt(circuit: Circuit): readonly { supply: Part; tap: SupplyTap; at: number }[] {
  return circuit.parts.filter(isPlateSupply).flatMap((supply) =>
    plateTapsOf(supply).flatMap((tap) => {
      const at = tapJunction(supply, tap);
      return at === undefined || (tap.volts ?? 0) <= MOST_VOLTS ? [] : [{ supply, tap, at }];
    }),
  );
}

function reachesPlateTap(possible: Conduction, post: Part): boolean {
  const { circuit } = possible;
  const start = post.ends[0]?.junction;
  if (start === undefined) return false;
  const ways = leastOhms(possible, [start], outward(circuit), MOST_OHMS);
  return plateTapsAt(circuit).some(({ at }) => ways.at(at) !== undefined);
}

/** The plate voltage at a post: what the way to the tap and the way to the zero leave of it. */
function voltsAt(conduction: Conduction, post: Part): PostAtVolts | undefined {
  const { circuit } = conduction;
  const [end] = post.ends;
  if (!end) return undefined;
  const up = leastOhms(conduction, [end.junction], outward(circuit), MOST_OHMS);
  let worst: PostAtVolts | undefined;
  for (const { supply, tap, at } of plateTapsAt(circuit)) {
    const way = up.at(at);
    if (!way) continue;
    // The way down may lead through the A battery, but not through this supply itself.
    const down = leastOhms(
      conduction,
      [end.junction],
      (branch) => (branch.part === supply.name ? undefined : ohmsIn(circuit, branch)),
      Number.POSITIVE_INFINITY,
    ).at(tapJunction(supply, zeroTap(supply)) ?? -1);
    const share = down ? (way.ohms + down.ohms === 0 ? 0 : down.ohms / (way.ohms + down.ohms)) : 1;
    const volts = (tap.volts ?? 0) * share;
    if (volts <= MOST_VOLTS || volts <= (worst?.volts ?? 0)) continue;
    worst = { post, end, supply, tap, volts, ohms: way.ohms, steps: way.steps() };
  }
  return worst;
}

function told(study: Study, live: PostAtVolts, settings: Settings): Finding {
  const { circuit } = study;
  const { post, end, supply, tap, volts, steps } = live;
  const terminal = tapTerminal(supply, tap);
  const { place, related } = linesOfWay(circuit, end.id, terminal, steps);
  // The line that joins the post says more than that of the first part on the way.
  const joined = joinsBetween(circuit, end.id, steps[0]?.from ?? terminal)[0]?.join.place;
  const at = joined ?? place ?? post.place;
  return finding({
    check: 'aerial-at-plate-voltage',
    severity: 'warning',
    message: sentence(
      `${standingFirst(study, settings)}${tapWords(circuit, terminal)} reaches the ${post.words.has('aerial') ? 'aerial' : 'ground'} post ${post.name} ${wayWords(circuit, steps)} and puts ${formatQuantity(volts, 'voltage', 'period', 2)} on it.`,
    ),
    why: post.words.has('aerial')
      ? 'Whoever touches the aerial gets the plate voltage, and an aerial that touches earth shorts the B battery.'
      : 'Earth and the B battery are joined at the wrong end: whatever else of the set is earthed shorts it.',
    cure: `Put a fixed condenser, .0005 to .002 mfd, between ${post.name} and the set, or take ${post.name} to a winding that no plate current passes.`,
    place: at,
    related: distinct(
      [
        ...related,
        alsoPart(post, `${post.name} is reached.`),
        alsoPart(supply, 'The plate voltage comes from here.'),
      ],
      at,
    ),
    parts: [post.name, ...partsOfWay(steps)],
  });
}

/** An aerial and a ground post at the ends of one winding are told once. */
function oneForEachWay(findings: readonly Finding[]): readonly Finding[] {
  return findings.filter(
    (finding, index) =>
      !findings
        .slice(0, index)
        .some((before) => before.parts.some((part) => finding.parts.includes(part))),
  );
}

function setWith(aerial: string): string {
  return `
receiver "One tube coupled to its aerial at the plate" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+45
  }
  post ANT aerial
  post GND ground
  wire B- to A- to GND
  resistor F1 4 ohms from A-
  detector stage DET {
    coil L1 {
      winding grid 240 uH 4 ohms from A-
    }
    condenser C1 variable 14 to 365 mmfd across L1.grid
    condenser C2 .00025 mfd from L1.grid.finish to V1.grid
    leak R1 2 meg from V1.grid to A+
    tube V1 01-A {
      filament from F1 to A+
      plate to PH1
    }
    phones PH1 2000 ohms to B+45
    condenser C3 .001 mfd from V1.plate to A-
    ${aerial}
  }
}
`;
}
