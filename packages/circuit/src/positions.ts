import type { Circuit, Part } from './model.ts';
import { positionOf, type Settings } from './settings.ts';

/** A switch, selector or jack with positions that differ electrically. */
export interface Control {
  readonly part: Part;
  /**
   * One position (index into `Part.positions`) for each way its contacts can stand, the position
   * as drawn first. Positions that join the same junctions are one.
   */
  readonly positions: readonly number[];
}

/** Every part of the set that can stand in more than one way, in the order of the text. */
export function controls(circuit: Circuit): readonly Control[] {
  return circuit.parts.flatMap((part) => {
    const positions = differingPositions(circuit, part);
    return positions.length > 1 ? [{ part, positions }] : [];
  });
}

function differingPositions(circuit: Circuit, part: Part): readonly number[] {
  if (part.positions.length < 2 || part.contacts.length === 0) return [];
  const order = [part.drawnAt, ...part.positions.keys()].filter(
    (position, index, all) =>
      part.positions[position] !== undefined && all.indexOf(position) === index,
  );
  const seen = new Set<string>();
  return order.filter((position) => {
    const joined = part.contacts.flatMap((contact) => {
      const from = circuit.endNamed.get(contact.from)?.junction;
      const to = circuit.endNamed.get(contact.to)?.junction;
      if (from === undefined || to === undefined || from === to) return [];
      return contact.closedAt.includes(position)
        ? [`${Math.min(from, to)}-${Math.max(from, to)}`]
        : [];
    });
    const way = [...new Set(joined)].sort().join(' ');
    if (seen.has(way)) return false;
    seen.add(way);
    return true;
  });
}

/** A plug that can stand in one of several jacks. */
export interface Plug {
  /** The phones, horn or loudspeaker on its cord. */
  readonly part: string;
  /** For each jack it can stand in, by name: the positions at which it stands there. */
  readonly jacks: ReadonlyMap<string, ReadonlySet<number>>;
}

/** The plugs that the text lets stand in two jacks or more: each stands in one at a time. */
export function sharedPlugs(circuit: Circuit): readonly Plug[] {
  const jacksOf = new Map<string, Map<string, Set<number>>>();
  const add = (plug: string, jack: string, position: number): void => {
    const jacks = jacksOf.get(plug) ?? new Map<string, Set<number>>();
    jacksOf.set(plug, jacks);
    const positions = jacks.get(jack) ?? new Set<number>();
    jacks.set(jack, positions.add(position));
  };
  for (const jack of circuit.parts) {
    if (jack.kind !== 'jack') continue;
    for (const contact of jack.contacts) {
      for (const id of [contact.from, contact.to]) {
        const part = circuit.partOfEnd.get(id);
        // What the jack's current goes through when it is empty is wired to it, not plugged in.
        if (!part || !onCord(part) || jack.companions.includes(part.name)) continue;
        for (const position of contact.closedAt) add(part.name, jack.name, position);
      }
    }
  }
  for (const part of circuit.parts) {
    if (!onCord(part)) continue;
    for (const name of part.companions) {
      const jack = circuit.partNamed.get(name);
      if (jack?.kind !== 'jack' || jacksOf.get(part.name)?.has(name)) continue;
      // Of the positions one is called after what is plugged in, where that is known.
      const plugged = jack.positions.findIndex((at) => at === part.name || at === 'plugged');
      if (plugged >= 0) add(part.name, name, plugged);
    }
  }
  return [...jacksOf]
    .filter(([, jacks]) => jacks.size > 1)
    .map(([part, jacks]) => ({ part, jacks }));
}

function onCord(part: Part): boolean {
  return part.kind === 'phones' || part.kind === 'horn' || part.kind === 'speaker';
}

/** Whether some plug would have to stand in two jacks at once. */
export function plugsClash(
  plugs: readonly Plug[],
  positionOfJack: (jack: string) => number | undefined,
): boolean {
  return plugs.some((plug) => {
    let standing = 0;
    for (const [jack, positions] of plug.jacks) {
      const position = positionOfJack(jack);
      if (position !== undefined && positions.has(position)) standing++;
    }
    return standing > 1;
  });
}

export interface PositionsOptions {
  /** Names of controls that stay as the base settings have them. */
  readonly except?: ReadonlySet<string>;
  /** Every combination is tried up to this many. 64 where not given. */
  readonly mostCombinations?: number;
  /** No more settings than this are given in any case. 256 where not given. */
  readonly mostSettings?: number;
}

export interface SettingsOverPositions {
  /** The settings to judge by, the base first; nothing is computed before it is asked for. */
  readonly settings: Iterable<Settings>;
  /** Whether they are all there are: false when controls are only tried one at a time. */
  readonly exhaustive: boolean;
}

/**
 * The settings over which wiring is judged: the base (the set as on), and every combination of
 * positions where there are at most 64; otherwise every control on its own through all its
 * positions while the others stand as in the base, at most 256 settings. Only positions that
 * differ electrically count. A plug stands in one jack at a time: combinations that would need it
 * twice are left out, and trying it in one jack takes it from the other.
 */
export function settingsOverPositions(
  circuit: Circuit,
  base: Settings,
  options: PositionsOptions = {},
): SettingsOverPositions {
  const { except, mostCombinations = 64, mostSettings = 256 } = options;
  const tried = controls(circuit).filter(({ part }) => !except?.has(part.name));
  const plugs = sharedPlugs(circuit);
  let combinations = 1;
  for (const { positions } of tried) {
    combinations *= positions.length;
    if (combinations > mostCombinations) break;
  }
  const exhaustive = combinations <= Math.min(mostCombinations, mostSettings);
  const all = exhaustive
    ? () => everyCombination(circuit, base, tried, plugs)
    : () => oneAtATime(circuit, base, tried, plugs);
  return {
    exhaustive,
    settings: {
      *[Symbol.iterator]() {
        let given = 0;
        for (const settings of all()) {
          if (given++ >= mostSettings) return;
          yield settings;
        }
      },
    },
  };
}

function withPositions(base: Settings, changed: ReadonlyMap<string, number>): Settings {
  return { ...base, positions: new Map([...base.positions, ...changed]) };
}

/** The control's positions with the one it stands at in the base, or its equal, first. */
function fromBase(circuit: Circuit, base: Settings, control: Control): readonly number[] {
  const standing = positionOf(control.part, base);
  const part = { ...control.part, drawnAt: standing };
  return differingPositions(circuit, part);
}

function* everyCombination(
  circuit: Circuit,
  base: Settings,
  tried: readonly Control[],
  plugs: readonly Plug[],
): Generator<Settings> {
  const choices = tried.map((control) => fromBase(circuit, base, control));
  const total = choices.reduce((product, positions) => product * positions.length, 1);
  yield base;
  for (let number = 1; number < total; number++) {
    const changed = new Map<string, number>();
    let rest = number;
    for (const [index, positions] of choices.entries()) {
      const position = positions[rest % positions.length];
      rest = Math.floor(rest / positions.length);
      const name = tried[index]?.part.name;
      if (name !== undefined && position !== undefined) changed.set(name, position);
    }
    const settings = withPositions(base, changed);
    if (!clash(circuit, plugs, settings)) yield settings;
  }
}

function* oneAtATime(
  circuit: Circuit,
  base: Settings,
  tried: readonly Control[],
  plugs: readonly Plug[],
): Generator<Settings> {
  yield base;
  for (const control of tried) {
    for (const position of fromBase(circuit, base, control).slice(1)) {
      const changed = new Map([[control.part.name, position]]);
      const unplugged = takenFromOthers(circuit, plugs, control.part.name, position, base);
      yield withPositions(base, new Map([...unplugged, ...changed]));
    }
  }
}

function clash(circuit: Circuit, plugs: readonly Plug[], settings: Settings): boolean {
  return plugsClash(plugs, (jack) => {
    const part = circuit.partNamed.get(jack);
    return part && positionOf(part, settings);
  });
}

/** The other jacks that lose their plug when it is put into this one: emptied. */
function takenFromOthers(
  circuit: Circuit,
  plugs: readonly Plug[],
  jack: string,
  position: number,
  base: Settings,
): ReadonlyMap<string, number> {
  const emptied = new Map<string, number>();
  for (const plug of plugs) {
    if (!plug.jacks.get(jack)?.has(position)) continue;
    for (const [other, positions] of plug.jacks) {
      const part = circuit.partNamed.get(other);
      if (other === jack || !part || !positions.has(positionOf(part, base))) continue;
      const empty = [...part.positions.keys()].find((index) => !positions.has(index));
      if (empty !== undefined) emptied.set(other, empty);
    }
  }
  return emptied;
}
