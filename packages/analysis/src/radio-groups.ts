import { type Circuit, isSupply, type Part, positionOf, type Settings } from '@setwright/circuit';
import { type Groups, separateGroups } from './islands.ts';
import { BYPASS_CAPACITY } from './usual-values.ts';

/** Junctions that are one point to radio current. */
export interface RadioGroups {
  /** The group of a junction, or of a terminal by its full name. */
  of(junction: number): number;
  ofEnd(terminal: string): number | undefined;
  /** The group at rest: that of the ground posts, else of the supplies' leads. */
  readonly ground: number | undefined;
  /** A copy in which more can be joined. */
  readonly groups: Groups;
}

/** Ohms up to which a resistance is next to nothing in a tuned circuit's ground lead. */
const LITTLE_OHMS = 60;

/** Farads up to which a fixed condenser straight across an air-core winding tunes it. */
const MOST_TUNING = 10e-9;

/**
 * What is one point at radio frequency: joined by wire, a closed contact, a fuse, a filament or a
 * small resistance, a battery, or a condenser of .002 mfd and more. About linear. Never throws.
 */
export function radioGroups(circuit: Circuit, settings: Settings): RadioGroups {
  const groups = separateGroups(circuit.junctions.length);
  const join = (from: string | undefined, to: string | undefined): void => {
    const a = circuit.endNamed.get(from ?? '')?.junction;
    const b = circuit.endNamed.get(to ?? '')?.junction;
    if (a !== undefined && b !== undefined) groups.merge(a, b);
  };
  const tuning = new Set(
    circuit.parts
      .filter((part) => isAirInductor(circuit, part))
      .map(({ ends }) => pairOf(ends[0]?.junction, ends[1]?.junction)),
  );
  let ground: number | undefined;
  for (const part of circuit.parts) {
    const [first, second] = part.ends;
    if (isSupply(part)) {
      for (const end of part.ends) join(first?.id, end.id);
      ground ??= first?.junction;
      continue;
    }
    for (const contact of part.contacts)
      if (contact.closedAt.includes(positionOf(part, settings))) join(contact.from, contact.to);
    switch (part.kind) {
      case 'lead':
      case 'fuse':
      case 'ballast':
      case 'lamp':
        join(first?.id, second?.id);
        break;
      case 'tube':
        join(`${part.name}.filament-`, `${part.name}.filament+`);
        break;
      case 'rheostat':
        if ((part.values.resistance?.value ?? 0) <= LITTLE_OHMS) join(first?.id, second?.id);
        break;
      case 'resistor': {
        const ohms = part.values.resistance?.value;
        if (ohms !== undefined && ohms <= LITTLE_OHMS) join(first?.id, second?.id);
        break;
      }
      case 'condenser': {
        const farads = part.values.capacitance?.value;
        if (farads === undefined || farads < BYPASS_CAPACITY || part.words.has('variable')) break;
        if (farads > MOST_TUNING || !tuning.has(pairOf(first?.junction, second?.junction)))
          join(first?.id, second?.id);
        break;
      }
      default:
    }
  }
  const post = circuit.parts.find((part) => part.kind === 'post' && part.words.has('ground'));
  const rest = post?.ends[0]?.junction ?? ground;
  return {
    of: (junction) => groups.of(junction),
    ofEnd(terminal) {
      const junction = circuit.endNamed.get(terminal)?.junction;
      return junction === undefined ? undefined : groups.of(junction);
    },
    ground: rest === undefined ? undefined : groups.of(rest),
    groups,
  };
}

function pairOf(one = -1, other = -1): string {
  return one < other ? `${one} ${other}` : `${other} ${one}`;
}

/** Whether a part is a winding that radio current can be tuned by: on air, a loop, a variometer. */
export function isAirInductor(circuit: Circuit, part: Part): boolean {
  if (part.kind === 'loop' || part.kind === 'variometer') return true;
  const owner = circuit.partNamed.get(part.owner ?? '');
  return part.kind === 'winding' && (owner?.kind === 'coil' || owner?.words.has('air') === true);
}
