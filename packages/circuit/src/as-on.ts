import { closedCircuits } from './closed-circuits.ts';
import { conductionOf } from './conduction.ts';
import type { Circuit, Part } from './model.ts';
import { asDrawn, type Settings } from './settings.ts';

/** Settings of a set that is switched on. */
export interface SettingsOn extends Settings {
  /**
   * Rheostats drawn at their off stop: they are on, and stand wherever gives their tubes the
   * rated volts. Their `travels` hold the whole wire, just off the stop, until that is solved.
   */
  readonly released: ReadonlySet<string>;
}

/** A set as drawn, but switched on. */
export interface SetOn {
  readonly settings: SettingsOn;
  /** Names of the switches and rheostats that are drawn off and had to be turned on. */
  readonly switchedOn: readonly string[];
}

/**
 * The set as drawn but with its battery switches on: a switch drawn open is closed where that
 * lights a filament or feeds a plate that is dead without it, a switch of which nothing is said
 * is taken as closed, a rheostat at its off stop is just off it. Everything else, jacks among it,
 * stands as drawn; a switch drawn open that no filament or plate waits for stays open.
 */
export function asOn(circuit: Circuit): SetOn {
  const positions = new Map<string, number>();
  const travels = new Map<string, number>();
  const released = new Set<string>();
  const switchedOn: string[] = [];
  const drawnOpen: { part: Part; closed: number }[] = [];
  for (const part of circuit.parts) {
    if (part.kind === 'rheostat' && part.setting?.kind === 'off') {
      travels.set(part.name, 1);
      released.add(part.name);
      switchedOn.push(part.name);
    }
    if (part.kind !== 'switch') continue;
    const closed = closedPosition(part);
    if (closed === undefined || closed === part.drawnAt) continue;
    if (part.words.has('open') || part.words.has('closed')) drawnOpen.push({ part, closed });
    else positions.set(part.name, closed);
  }
  for (const { part, closed } of batterySwitches(circuit, drawnOpen, positions, travels)) {
    positions.set(part.name, closed);
    switchedOn.push(part.name);
  }
  const settings = { positions, travels, removed: asDrawn.removed, released };
  return { settings, switchedOn };
}

/** The position at which a switch lets current through: where its first contact is closed. */
function closedPosition(part: Part): number | undefined {
  const named = part.positions.indexOf('closed');
  return named >= 0 ? named : part.contacts[0]?.closedAt[0];
}

/**
 * How many switches are tried one by one. Each trial is linear in the set; a set with more
 * switches drawn open than this has them all closed.
 */
const MOST_TRIALS = 32;

/** Of the switches drawn open, those without which something stays dead. */
function batterySwitches(
  circuit: Circuit,
  drawnOpen: readonly { part: Part; closed: number }[],
  positions: ReadonlyMap<string, number>,
  travels: ReadonlyMap<string, number>,
): readonly { part: Part; closed: number }[] {
  if (drawnOpen.length === 0) return [];
  const alive = (closed: readonly { part: Part; closed: number }[]): number => {
    const trial = new Map(positions);
    for (const { part, closed: position } of closed) trial.set(part.name, position);
    const conduction = conductionOf(circuit, { ...asDrawn, positions: trial, travels });
    const { filaments, plates } = closedCircuits(conduction);
    return filaments.size + plates.size;
  };
  const most = alive(drawnOpen);
  if (alive([]) === most) return [];
  if (drawnOpen.length > MOST_TRIALS) return drawnOpen;
  // One at a time, so that of two switches side by side one is closed.
  let needed = drawnOpen;
  for (const candidate of drawnOpen) {
    const without = needed.filter((other) => other !== candidate);
    if (alive(without) === most) needed = without;
  }
  return needed;
}
