import {
  type Blocker,
  type Circuit,
  type Conduction,
  directPath,
  type Finding,
  type Fix,
  isSupply,
  type Part,
  type Settings,
  zeroTap,
} from '@setwright/circuit';
import type { Check } from '../check.ts';
import { led } from '../fixes/retarget.ts';
import { emittersOf, type Floating, floatingGrids } from '../grids/floating-grid.ts';
import { gridHomeOf } from '../grids/grid-home.ts';
import { strandingCondenser } from '../grids/stranded-grid.ts';
import type { Study } from '../study.ts';
import { isCPost } from '../supplies/c-post.ts';
import { railsOf } from '../supplies/rails.ts';
import type { TubeAt } from '../tubes/tubes.ts';
import { judgedOverPositions, standingWords, whileLit } from '../wiring/positions.ts';
import { isUnwired } from '../wiring/unwired.ts';
import { alsoPart, finding, junctionName, listed } from '../words/finding.ts';

const set = (cPosts: string) => `receiver "Cove Jolly Boat" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+45 45 V
    tap B+90 90 V
  }
  post ANT aerial
  post GND ground
  post C+ "for a C battery"
  post C- "for a C battery"
  wire B- to A- to GND to C+${cPosts}
  rheostat RH1 20 ohms from A- set 4 ohms
  rheostat RH2 20 ohms from A- set 4 ohms
  detector stage DET {
    coil L1 {
      winding aerial 20 uH from GND to ANT
      winding grid 240 uH from GND
    }
    condenser C1 variable 14 to 365 mmfd rotor to L1.grid.start stator to L1.grid.finish
    condenser C2 .00025 mfd from L1.grid.finish to V1.grid
    leak R1 2 meg from V1.grid to A+
    tube V1 01-A {
      filament from RH1 to A+
    }
    condenser C3 .001 mfd from V1.plate to A-
  }
  audio stage AF1 {
    transformer T1 ratio 1 to 3 {
      winding primary 800 ohms from V1.plate to B+45
      winding secondary 5000 ohms from C- to V2.grid
    }
    tube V2 01-A {
      filament from RH2 to A+
    }
    phones PH1 2000 ohms from V2.plate to B+90
  }
}
`;

/** A grid that no direct current can reach from its own filament. */
export const gridWithoutDcReturn: Check = {
  id: 'grid-without-dc-return',
  group: 'DC returns',
  severity: 'error',
  summary: 'A grid with no direct path to its filament: it floats.',
  why: 'A grid with no way home gathers electrons, goes negative by itself and chokes the tube.',
  silent: [
    'A return may lead through any resistance, however high: a leak of 10 megohms is a return.',
    'A return may lead through the arm of a potentiometer, a C battery, a choke, phones, a loop, another coil or the audio secondary of a reflex stage.',
    'A loop, phones or a loudspeaker that the text does not draw are taken as hooked to their posts.',
    'A tube with grid and plate strapped together is a diode.',
    'Where a grid hangs on its condenser alone, `grid-condenser-without-leak` speaks.',
    'A grid, or a filament, that nothing at all is wired to has another fault than its return.',
    'What another position of a switch, jack or selector cures is information.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: set(''),
  passes: set(' to C-'),
  find(study) {
    const bridged = floatingGrids(study.conduction, study.tubes);
    const judged = judgedOverPositions(
      study,
      (conduction) =>
        conduction === study.conduction
          ? bridged.tubes
          : floatingGrids(conduction, study.tubes).tubes,
      whileLit,
    );
    // Grids that float on one island have one fault in common.
    const groups = new Map<string, { tubes: TubeAt[]; curedBy: Settings | undefined }>();
    for (const [tube, { curedBy }] of judged) {
      const island = bridged.islands[tube.grid?.junction ?? -1] ?? -1;
      const key = `${island} ${curedBy !== undefined}`;
      const group = groups.get(key);
      if (group) group.tubes.push(tube);
      else groups.set(key, { tubes: [tube], curedBy });
    }
    return [...groups.values()]
      .filter(({ tubes }) => tubes.every((tube) => !strandingCondenser(study.conduction, tube)))
      .map(({ tubes, curedBy }) => told(study, bridged, tubes, curedBy));
  },
};

function told(
  study: Study,
  floating: Floating,
  tubes: readonly TubeAt[],
  curedBy: Settings | undefined,
): Finding {
  const first = tubes[0] as TubeAt;
  const names = tubes.map(({ part }) => part.name);
  const its = tubes.length > 1 ? 'their' : 'its';
  const cause = causeOf(study, floating, first, its);
  const grids =
    tubes.length > 1 ? `The grids of ${listed(names)} float` : `The grid of ${names[0]} floats`;
  return finding({
    check: 'grid-without-dc-return',
    severity: curedBy ? 'information' : 'error',
    message: `${grids}${curedBy ? ' as drawn' : ''}: ${cause.because}.`,
    why: 'A floating grid charges up and chokes the tube.',
    cure: curedBy
      ? `Nothing, if it is meant: there is a way with ${standingWords(study.circuit, study.on.settings, curedBy)}.`
      : cause.cure,
    place: first.part.place,
    related: [
      ...tubes.slice(1).map(({ part }) => alsoPart(part, `the grid of ${part.name} floats too`)),
      ...cause.parts.map((part) => alsoPart(part, 'the way back ends here')),
    ],
    parts: [...names, ...cause.parts.filter(isSupply).map(({ name }) => name)],
    fixes: curedBy ? [] : cause.fixes,
  });
}

interface Cause {
  readonly because: string;
  readonly cure: string;
  readonly parts: readonly Part[];
  readonly fixes: readonly Fix[];
}

function causeOf(study: Study, floating: Floating, tube: TubeAt, its: 'its' | 'their'): Cause {
  const { circuit, conduction } = study;
  const { islands } = floating;
  const from = tube.grid?.junction ?? -1;
  const homes = new Set(emittersOf(tube).map((end) => islands[end.junction]));
  const path = directPath(conduction, from, (junction) => homes.has(islands[junction]));
  const reached = path.found ? [] : [...path.reached];
  const targets = targetsOf(study, tube);
  const homeWords = targets.words;
  const filament =
    gridHomeOf(circuit, railsOf(conduction), tube, false)?.name ??
    `the filament of ${tube.part.name}`;
  const isHome = (junction: number): boolean => homes.has(islands[junction]);
  const posts = cPosts(circuit, new Set(reached), isHome);
  if (posts) return openPosts(posts, its, isHome(junctionOf(posts[1])) ? undefined : filament);
  const supply = reached.flatMap((here) => partsOf(circuit, here)).find(isSupply);
  if (supply) {
    const free = supply.ends.find((end) => isUnwired(conduction, end))?.name;
    const tap = free ?? zeroTap(supply)?.end ?? supply.name;
    return {
      because: `${its} way back ends in battery ${supply.name}, and nothing joins ${tap} to the filaments`,
      cure: `Join ${tap} to ${filament}.`,
      parts: [supply],
      fixes: [],
    };
  }
  const loose = looseEnd(circuit, conduction, reached);
  if (loose) {
    return {
      because: `nothing leads on from ${loose.id}`,
      cure: `Join ${loose.id} to ${loose.part.kind === 'post' ? filament : homeWords}.`,
      parts: [loose.part],
      fixes: targets.names.flatMap((name) => led(circuit, loose.id, name)),
    };
  }
  const blocker = path.found ? undefined : likeliest(circuit, path.blockers);
  const blocking = blocker && circuit.partNamed.get(blocker.part);
  if (!blocker || !blocking) {
    const last = junctionName(circuit, reached.at(-1) ?? from);
    return {
      because: `nothing leads on from ${last}`,
      cure: `Join ${last} to ${homeWords}.`,
      parts: [],
      fixes: [],
    };
  }
  const isContact = blocking.contacts.length > 0;
  return {
    because: isContact
      ? `the contact of ${blocking.name} is open in every position and nothing else leads from it to the filament`
      : `${blocking.name} blocks direct current and nothing else leads from it to the filament`,
    cure: isContact
      ? `Mend the contact of ${blocking.name}, or join ${junctionName(circuit, blocker.junction)} to ${homeWords}.`
      : `Join ${junctionName(circuit, blocker.junction)} to ${homeWords}; ${blocking.name} may stay.`,
    parts: [blocking],
    fixes: [],
  };
}

/** Where a grid may be led: the C taps of the set for an audio stage, else the filament. */
function targetsOf(
  { circuit, conduction }: Study,
  tube: TubeAt,
): { readonly words: string; readonly names: readonly string[] } {
  const rails = railsOf(conduction);
  const home = gridHomeOf(circuit, rails, tube);
  const isAudio = tube.roles.some((role) => role === 'audio' || role === 'output');
  const taps = circuit.parts
    .filter((part) => isSupply(part) && !rails.lighting.has(part))
    .flatMap((part) => part.supplyTaps.filter((tap) => (tap.volts ?? 0) < 0))
    .map(({ end }) => end);
  if (isAudio && !tube.cathode && taps.length > 0) {
    const words =
      taps.length > 1 ? `the C tap that ${tube.part.name} wants, ${listed(taps, 'or')}` : taps[0];
    return { words: words ?? '', names: taps };
  }
  if (!home) return { words: `the filament of ${tube.part.name}`, names: [] };
  if (tube.roles.length === 0 && !tube.cathode && home.because === '' && taps.length > 0) {
    const names = [home.name, ...taps];
    return { words: `${listed(names, 'or')}, as ${tube.part.name} wants`, names };
  }
  return { words: `${home.name}${home.because}`, names: [home.name] };
}

function partsOf(circuit: Circuit, junction: number): Part[] {
  return (circuit.junctions[junction]?.terminals ?? []).flatMap(
    (id) => circuit.partOfEnd.get(id) ?? [],
  );
}

function junctionOf({ ends }: Part): number {
  return ends[0]?.junction ?? -1;
}

/**
 * The post where a return ends, and the post for the other side of the C battery: the one that
 * leads to the filaments, else the one named for the positive side.
 */
function cPosts(
  circuit: Circuit,
  reached: ReadonlySet<number>,
  isHome: (junction: number) => boolean,
): readonly [Part, Part] | undefined {
  const posts = circuit.parts.filter(isCPost);
  const ends = posts.find((post) => reached.has(junctionOf(post)));
  const others = posts.filter((post) => !reached.has(junctionOf(post)));
  const other =
    others.find((post) => isHome(junctionOf(post))) ??
    others.find(({ name }) => name.startsWith('C+')) ??
    others[0];
  return ends && other ? [ends, other] : undefined;
}

/** @param home what the other post has to be joined to as well, where nothing leads on from it */
function openPosts(
  [ends, other]: readonly [Part, Part],
  its: 'its' | 'their',
  home: string | undefined,
): Cause {
  const beyond = home === undefined ? '' : `, nor ${other.name} to the filaments`;
  const also = home === undefined ? '' : `, and join ${other.name} to ${home}`;
  const wires = [[ends.name, other.name], ...(home === undefined ? [] : [[other.name, home]])];
  const isTerminal = home === undefined || !home.includes(' ');
  return {
    because: `${its} way back ends at the post ${ends.name}, and nothing joins that to ${other.name}${beyond}`,
    cure: `Strap ${ends.name} to ${other.name}, or join a C battery between them with its negative side to the grid${also}.`,
    parts: [ends, other],
    fixes: isTerminal
      ? [
          {
            title: `Strap ${ends.name} to ${other.name}${also}`,
            edits: [
              {
                place: { ...ends.place, start: ends.place.end, end: ends.place.end },
                text: wires.map(([from, to]) => `\n  wire ${from} to ${to}`).join(''),
              },
            ],
          },
        ]
      : [],
  };
}

/** An end on the way that is joined to nothing; where there is none, a post that leads nowhere. */
function looseEnd(
  circuit: Circuit,
  conduction: Conduction,
  reached: readonly number[],
): { readonly id: string; readonly part: Part } | undefined {
  let post: { readonly id: string; readonly part: Part } | undefined;
  for (const junction of reached) {
    const terminals = circuit.junctions[junction]?.terminals ?? [];
    for (const id of terminals) {
      const part = circuit.partOfEnd.get(id);
      if (!part || part.kind === 'tube' || part.kind === 'condenser') continue;
      if (part.kind === 'post' && !part.words.has('aerial')) post ??= { id, part };
      const isTap = part.taps.some(({ end }) => id.endsWith(`.${end}`) && end !== 'centre');
      const isAlone = (conduction.at[junction] ?? []).every((branch) => branch.part === part.name);
      if (terminals.length === 1 && part.kind !== 'post' && !isTap && isAlone) return { id, part };
    }
  }
  return post;
}

/** What blocks, where a path would go on beyond it: the fixed condenser before the variable one. */
function likeliest(circuit: Circuit, blockers: readonly Blocker[]): Blocker | undefined {
  const beyond = blockers.filter(
    ({ part, goalBeyond }) => goalBeyond && circuit.partNamed.get(part)?.kind !== 'tube',
  );
  const isFixed = ({ part }: Blocker): boolean =>
    circuit.partNamed.get(part)?.words.has('variable') !== true;
  return beyond.find(isFixed) ?? beyond[0];
}
