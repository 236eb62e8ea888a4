import type { Part } from './model.ts';

/**
 * How the controls of a set stand. Controls that are not named stand as drawn.
 * A set drawn switched off is analysed as if on; `asOn` makes such settings.
 */
export interface Settings {
  /** Index into `Part.positions`, by the part's name. */
  readonly positions: ReadonlyMap<string, number>;
  /** Travel of rheostats and potentiometers from their start, 0 to 1, by the part's name. */
  readonly travels: ReadonlyMap<string, number>;
  /** Names of tubes pulled from their sockets, and other parts taken out. */
  readonly removed: ReadonlySet<string>;
}

export const asDrawn: Settings = {
  positions: new Map(),
  travels: new Map(),
  removed: new Set(),
};

/** The position a control stands at under these settings: an index into `part.positions`. */
export function positionOf(part: Part, settings: Settings): number {
  return settings.positions.get(part.name) ?? part.drawnAt;
}
