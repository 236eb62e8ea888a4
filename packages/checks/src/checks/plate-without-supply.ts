import {
  directPath,
  type Finding,
  isFilamentSupply,
  isSupply,
  type Part,
  type Settings,
  type SupplyTap,
} from '@setwright/circuit';
import type { Check } from '../check.ts';
import { led } from '../fixes/retarget.ts';
import { passesReturn, returnEnds } from '../grids/return-path.ts';
import type { Study } from '../study.ts';
import { plateTapsOf } from '../supplies/plate-feed.ts';
import { unsuppliedPlates } from '../supplies/plate-supply.ts';
import { railsOf } from '../supplies/rails.ts';
import type { TubeAt } from '../tubes/tubes.ts';
import { outsideBridges } from '../wiring/outside.ts';
import { judgedOverPositions, standingWords, whileLit } from '../wiring/positions.ts';
import { alsoPart, finding, junctionName, listed } from '../words/finding.ts';

const set = (primary: string) => `receiver "Cove Dory" {
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
      winding primary 800 ohms from V1.plate${primary}
      winding secondary 5000 ohms from C-4.5 to V2.grid
    }
    tube V2 01-A {
      filament from RH2 to A+
    }
    phones PH1 2000 ohms from V2.plate to B+90
  }
}
`;

/** A tube made to work on its filament battery has a published point at or below this. */
const MOST_LOW_VOLTS = 12;

/** A plate with no direct path to a positive tap. */
export const plateWithoutSupply: Check = {
  id: 'plate-without-supply',
  group: 'DC returns',
  severity: 'error',
  summary: 'A plate with no direct path to a positive tap.',
  why: 'Without volts on its plate a tube draws no electrons and passes nothing on.',
  silent: [
    'A plate may be fed through a lamp, phones, a tuned circuit, a resistance or a jack.',
    'Phones or a loudspeaker that the text does not draw are taken as hooked to their posts.',
    'A tube with grid and plate strapped together is a diode.',
    'A plate on the positive side of the filament battery is a warning, and nothing where the type has a point at 12 volts or less.',
    'A tube of unknown type may be a rectifier, and nothing is said of it.',
    'Where no B battery or eliminator is written down, nothing is known of the feed.',
    'A plate that nothing at all is wired to has another fault.',
    'What another position of a switch, jack or selector cures is information.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: set(''),
  passes: set(' to B+45'),
  find(study) {
    const { circuit, tubes } = study;
    if (!circuit.parts.some((part) => isSupply(part) && !isFilamentSupply(part))) return [];
    const bridges = outsideBridges(circuit);
    const suitable = tubes.filter((tube) => !worksOnLowVolts(tube));
    const judge = (kind: 'none' | 'low') =>
      judgedOverPositions(
        study,
        (conduction) =>
          unsuppliedPlates(
            conduction,
            kind === 'none' ? tubes : suitable,
            railsOf(conduction),
            bridges,
          )[kind],
        whileLit,
      );
    return [
      ...[...judge('none')].map(([tube, { curedBy }]) => unfed(study, tube, curedBy)),
      ...[...judge('low')].map(([tube, { curedBy }]) => lowFed(study, tube, curedBy)),
    ];
  },
};

function worksOnLowVolts({ part }: TubeAt): boolean {
  return part.tubeType?.points.some(({ plateVolts }) => plateVolts <= MOST_LOW_VOLTS) ?? false;
}

function unfed(study: Study, tube: TubeAt, curedBy: Settings | undefined): Finding {
  const { part } = tube;
  const { because, loose, blocking } = causeOf(study, tube);
  const tap = tapFor(study, tube);
  return finding({
    check: 'plate-without-supply',
    severity: curedBy ? 'information' : 'error',
    message: `The plate of ${part.name} has no supply${curedBy ? ' as drawn' : ''}: ${because}.`,
    why: 'Without volts on its plate the tube passes nothing on.',
    cure: curedBy
      ? `Nothing, if it is meant: it has its supply with ${standingWords(study.circuit, study.on.settings, curedBy)}.`
      : `Join ${loose} to ${tap}.`,
    place: part.place,
    related: blocking ? [alsoPart(blocking, 'the way to the supply ends here')] : [],
    parts: [part.name],
    fixes: curedBy ? [] : led(study.circuit, loose, tap),
  });
}

function lowFed(study: Study, tube: TubeAt, curedBy: Settings | undefined): Finding {
  const { part } = tube;
  return finding({
    check: 'plate-without-supply',
    severity: curedBy ? 'information' : 'warning',
    message: `The plate of ${part.name} gets no more than the filament battery gives${curedBy ? ' as drawn' : ''}: no B tap reaches it.`,
    why: `A ${part.typeName} hardly works on so few volts.`,
    cure: curedBy
      ? `Nothing, if it is meant: a B tap reaches it with ${standingWords(study.circuit, study.on.settings, curedBy)}.`
      : `Take the plate's supply from ${tapFor(study, tube)}.`,
    place: part.place,
    parts: [part.name],
  });
}

/** What stops the way from a plate to a B tap. */
function causeOf(
  study: Study,
  tube: TubeAt,
): { readonly because: string; readonly loose: string; readonly blocking: Part | undefined } {
  const { circuit, conduction } = study;
  const rails = railsOf(conduction);
  const passes = passesReturn(conduction);
  const from = tube.plate?.junction ?? -1;
  const held = returnEnds(conduction, rails, tube, from)[0]?.junction;
  if (held !== undefined) {
    const name = junctionName(circuit, held);
    return {
      because: `it leads to ${name}, from where nothing leads to a positive tap`,
      loose: `what is on ${name}`,
      blocking: undefined,
    };
  }
  const isTap = (junction: number): boolean =>
    rails.at.get(junction)?.some(({ kind }) => kind === 'plate') === true;
  const path = directPath(conduction, from, isTap, { throughSources: false, passes });
  const reached = path.found ? [] : [...path.reached];
  const blockers = path.found
    ? []
    : path.blockers.filter(
        ({ part, goalBeyond }) => goalBeyond && circuit.partNamed.get(part)?.kind !== 'tube',
      );
  const blocker =
    blockers.find(({ part }) => !circuit.partNamed.get(part)?.words.has('variable')) ?? blockers[0];
  const blocking = blocker && circuit.partNamed.get(blocker.part);
  if (blocker && blocking) {
    const isContact = blocking.contacts.length > 0;
    return {
      because: isContact
        ? `the contact of ${blocking.name} is open and nothing else leads from it to a positive tap`
        : `${blocking.name} blocks direct current and nothing else leads from it to a positive tap`,
      loose: junctionName(circuit, blocker.junction),
      blocking,
    };
  }
  const last = reached.at(-1) ?? from;
  const terminals = circuit.junctions[last]?.terminals ?? [];
  const name = junctionName(circuit, last);
  const part = circuit.partOfEnd.get(terminals[0] ?? '');
  return {
    because: `nothing leads on from ${name}`,
    loose: name,
    blocking: part?.kind === 'tube' ? undefined : part,
  };
}

/** The tap that suits: for a detector the one nearest to what its type wants. */
function tapFor(study: Study, tube: TubeAt): string {
  const taps: SupplyTap[] = study.circuit.parts
    .filter((part) => isSupply(part) && !isFilamentSupply(part))
    .flatMap((part) => plateTapsOf(part));
  const wanted = tube.roles.includes('detector')
    ? tube.part.tubeType?.detector?.plateVolts
    : undefined;
  if (wanted === undefined) {
    const names = taps.map(({ end }) => end);
    return names.length > 1 ? `the tap it wants (${listed(names, 'or')})` : (names[0] ?? 'a B tap');
  }
  let nearest = taps[0];
  const off = (tap: SupplyTap | undefined): number => Math.abs((tap?.volts ?? 1e9) - wanted);
  for (const tap of taps) if (off(tap) < off(nearest)) nearest = tap;
  return nearest?.end ?? 'a B tap';
}
