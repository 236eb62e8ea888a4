import {
  type Circuit,
  type Conduction,
  directPath,
  type End,
  type Finding,
  isSupply,
  type Part,
  type Step,
} from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import type { Study } from '../study.ts';
import { alsoPart, finding } from '../words/finding.ts';
import { sentence, standingFirst } from '../words/position-words.ts';
import { tapWords } from '../words/supply-words.ts';
import { distinct, partWords } from '../words/way-words.ts';

/** Less than this, in volts, is no difference between two earths. */
const LEAST_VOLTS = 0.3;
/** Through more than this, in ohms, earth shorts nothing that matters. Common practice. */
const MOST_OHMS = 1000;

/** A point that is joined to earth outside the set. */
interface Earthed {
  readonly part: Part;
  readonly end: End;
}

/** Two earthed points that the set holds apart by so many volts. */
interface Collision {
  readonly a: Earthed;
  readonly b: Earthed;
  readonly volts: number;
  readonly steps: readonly Step[];
}

/** Two supplies, or a supply and the ground post, earthed at points of different volts. */
export const earthsCollide: Check = {
  id: 'earths-collide',
  group: 'Batteries',
  severity: 'error',
  summary:
    'Two earthed supplies, or an earthed supply and the ground post, meet through the set at different volts.',
  why: 'Mains bench supplies and chargers often have one side on earth, and so has a grounded set. Earth is one point: where the set holds two earthed points apart, it is a short at switch-on.',
  silent: [
    'Only earths that are stated count: `earthed TAP` in the block of the supply, and a post of the kind ground.',
    'Earthed points that the set joins at the same volts do not collide.',
    'A condenser between the ground post and the set lets no direct current through.',
    'With more than a kilohm between them nothing is shorted.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: setWith('wire B- to A+'),
  passes: setWith('wire B- to A-'),
  find(study) {
    const { circuit } = study;
    const supplies = earthedTaps(circuit);
    if (supplies.length === 0) return [];
    const points = [...supplies, ...groundPosts(circuit)];
    const found = new Map<string, Finding>();
    for (const { settings, conduction } of study.everyPosition) {
      for (const collision of collisionsAt(conduction, points)) {
        const key = `${collision.a.end.id} ${collision.b.end.id}`;
        if (!found.has(key)) found.set(key, told(study, collision, standingFirst(study, settings)));
      }
    }
    return [...found.values()];
  },
};

function earthedTaps(circuit: Circuit): readonly Earthed[] {
  return circuit.parts
    .filter(isSupply)
    .flatMap((part) =>
      part.ends.flatMap((end) => (part.words.has(`earthed ${end.name}`) ? [{ part, end }] : [])),
    );
}

function groundPosts(circuit: Circuit): readonly Earthed[] {
  return circuit.parts.flatMap((part) => {
    const [end] = part.ends;
    return part.kind === 'post' && part.words.has('ground') && end ? [{ part, end }] : [];
  });
}

/** Every earthed point against the first that it meets at other volts: one short is told once. */
function collisionsAt(conduction: Conduction, points: readonly Earthed[]): readonly Collision[] {
  return points.flatMap((b, index) => {
    for (const a of points.slice(0, index)) {
      const collision = between(conduction, a, b);
      if (collision) return [collision];
    }
    return [];
  });
}

function between(conduction: Conduction, a: Earthed, b: Earthed): Collision | undefined {
  const path = directPath(conduction, a.end.junction, (junction) => junction === b.end.junction, {
    prefer: 'ohms',
  });
  if (!path.found) return undefined;
  let volts = 0;
  let ohms = 0;
  for (const { direct } of path.steps) {
    if (direct.kind === 'source') {
      if (direct.volts === undefined) return undefined;
      volts += direct.volts;
    } else if (direct.kind === 'conducts') ohms += direct.ohms ?? 0;
  }
  return Math.abs(volts) > LEAST_VOLTS && ohms <= MOST_OHMS
    ? { a, b, volts, steps: path.steps }
    : undefined;
}

function told(study: Study, collision: Collision, standing: string): Finding {
  const { circuit } = study;
  const { a, b, volts, steps } = collision;
  const [first, second] = [a, b].map((point) => words(circuit, point));
  const shorted = [
    ...new Set(steps.flatMap(({ part, direct }) => (direct.kind === 'source' ? [part] : []))),
  ];
  const shortedSupply = circuit.partNamed.get(shorted[0] ?? '');
  const others = steps.flatMap(({ part, direct }) =>
    direct.kind === 'source' ? [] : (circuit.partNamed.get(part) ?? []),
  );
  const floating = isSupply(b.part) ? b.part : a.part;
  return finding({
    check: 'earths-collide',
    severity: 'error',
    message: sentence(
      `${standing}${first} and ${second} are both earthed, and the set holds them ${formatQuantity(Math.abs(volts), 'voltage')} apart.`,
    ),
    why: `Earth joins the two, so that ${shortedSupply ? partWords(circuit, shortedSupply.name) : 'the supply'} is shorted the moment both are connected.`,
    cure: `Take the earth off one of them, best off ${floating.name}: let it float.`,
    place: b.part.place,
    related: distinct(
      [
        alsoPart(a.part, `${first} is earthed.`),
        ...(shortedSupply
          ? [alsoPart(shortedSupply, `${shortedSupply.name} stands between them.`)]
          : []),
        ...others.map((part) => alsoPart(part, `${partWords(circuit, part.name)} is on the way.`)),
      ],
      b.part.place,
    ),
    parts: [...new Set([a.part.name, b.part.name, ...shorted])],
  });
}

function words(circuit: Circuit, { part, end }: Earthed): string {
  if (!isSupply(part)) return part.name;
  const tap = tapWords(circuit, end.id);
  return tap.includes(' of ') ? tap : `${tap} of ${part.name}`;
}

function setWith(strap: string): string {
  return `
receiver "One tube on two bench supplies" {
  eliminator A {
    tap A- 0 V
    tap A+ 6 V
    earthed A-
  }
  eliminator B {
    tap B-
    tap B+45 45 V
    earthed B-
  }
  ${strap}
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
  }
}
`;
}
