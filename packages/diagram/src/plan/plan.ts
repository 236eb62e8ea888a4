import type { Circuit, Part } from '@setwright/circuit';
import type { Cell, Paper } from '../cell.ts';
import { naturally } from '../natural-order.ts';
import type { Rails } from '../rails.ts';
import { planCoils } from './coils.ts';
import { planJacks } from './jacks.ts';
import { type Closed, withoutLonelyPorts } from './lonely-ports.ts';
import { type Column, type Drawn, type Planning, roleOf, startPlanning } from './planning.ts';
import { planLoose, planRest } from './rest.ts';
import { planTubes } from './tubes.ts';
import { planTwoEnded } from './two-ended.ts';

/** The set taken apart into cells, before anything has its place. */
export interface Plan {
  /** Cells of the signal path, in signal order. */
  readonly cells: readonly Cell[];
  /** Parts between rails. */
  readonly columns: readonly Column[];
  /** Parts that nothing is joined to. */
  readonly tray: readonly Cell[];
  /** Cells that a jack or selector joins in one of its positions: the second follows the first. */
  readonly follows: readonly (readonly [Cell, Cell])[];
  /** Posts and buses on rails, which the terminal block shows. */
  readonly railPosts: readonly Part[];
}

/**
 * Sorts the parts by their role; what is given back draws each group's cell for a paper. Papers may
 * differ in what leaves a cell for a bus line and in the words at its parts, in nothing else. A cell for which nothing differs is the
 * very same as for an earlier paper. Never throws.
 */
export function planner(
  circuit: Circuit,
  rails: Rails,
  order: ReadonlyMap<number, number>,
): (paper: Paper) => Plan {
  const planning = startPlanning(circuit, rails, order);
  planLoose(planning);
  planCoils(planning);
  planTubes(planning);
  planJacks(planning);
  planTwoEnded(planning);
  planRest(planning);
  const { steps, tray, railPosts } = planning;
  const contacts = joinedByContact(planning);
  const closed: Closed = new Map();
  const leading = new Map<Cell, Cell>();
  return (paper) => {
    const drawn: Drawn = { cells: [], columns: [] };
    for (const step of steps) step(paper, drawn);
    const all = withoutLonelyPorts(leadIn(planning, drawn.cells, leading), closed);
    const cells = all.filter(({ ports }) => ports.length > 0);
    cells.sort((a, b) => a.key - b.key || naturally(a.id, b.id));
    const columns = [...drawn.columns, ...withoutSignal(planning, all)];
    const loose = [...tray, ...all.filter((cell) => isLoose(planning, cell)).map(inTheAir)];
    return { cells, columns, tray: loose, railPosts, follows: followers(contacts, cells) };
  };
}

/**
 * The cells with every post that the signal comes in by, since nothing drives what it is on, to the
 * left of all that is, as an aerial stands.
 *
 * @param leading such cells of earlier papers by what they were made of
 */
function leadIn(
  { circuit }: Planning,
  cells: readonly Cell[],
  leading: Map<Cell, Cell>,
): readonly Cell[] {
  return cells.map((post) => {
    const net = post.ports[0]?.net;
    if (circuit.partNamed.get(post.id)?.kind !== 'post' || post.ports.length < 2) return post;
    const others = cells.filter(
      (cell) => cell !== post && cell.ports.some((port) => port.net === net),
    );
    const isDriven = others.some((cell) =>
      cell.ports.every((port) => port.net !== net || port.side === 'east'),
    );
    if (isDriven || others.length === 0) return post;
    const east = post.ports.filter(({ side }) => side === 'east');
    const led = leading.get(post) ?? { ...post, ports: east };
    leading.set(post, led);
    led.key = Math.min(...others.map(({ key }) => key)) - 0.01;
    return led;
  });
}

/** Windings and tubes that no signal junction leads to stand where parts between rails do. */
function withoutSignal(planning: Planning, cells: readonly Cell[]): Column[] {
  const { parts } = planning;
  return cells.flatMap((cell) => {
    if (cell.ports.length > 0 || isLoose(planning, cell)) return [];
    const part = parts.find(({ name }) => name === cell.symbols[0]?.part);
    return part ? [{ cell, part }] : [];
  });
}

/** Every part with contacts and the parts that these lead to, by name. */
const joinedByContact = ({ circuit, parts }: Planning): (readonly [string, string])[] =>
  parts.flatMap(({ name, contacts }) =>
    contacts.flatMap(({ from, to }) =>
      [from, to].map((id) => [name, circuit.partOfEnd.get(id)?.name ?? ''] as const),
    ),
  );

/** Whether no wire and no contact leads to anything in a cell. */
function isLoose(planning: Planning, { ports, symbols }: Cell): boolean {
  const { circuit, contacted } = planning;
  return (
    ports.length === 0 &&
    symbols.every(({ part: name }) =>
      circuit.partNamed
        .get(name)
        ?.ends.every((end) => roleOf(planning, end) === 'alone' && !contacted.has(end.id)),
    )
  );
}

/** A cell as it stands in the tray. */
function inTheAir(cell: Cell): Cell {
  const symbols = cell.symbols.map((symbol) => ({ ...symbol, inTheAir: true }));
  return { ...cell, symbols };
}

/** A jack before the part that it leads through, a selector before its coil. */
function followers(
  contacts: readonly (readonly [string, string])[],
  cells: readonly Cell[],
): [Cell, Cell][] {
  if (contacts.length === 0) return [];
  const cellOf = new Map<string, Cell>();
  for (const cell of cells) for (const { part } of cell.symbols) cellOf.set(part, cell);
  const pairs: [Cell, Cell][] = [];
  for (const [holder, other] of contacts) {
    const [from, to] = [cellOf.get(holder), cellOf.get(other)];
    if (!from || !to || from === to || pairs.some(([x, y]) => x === from && y === to)) continue;
    pairs.push([from, to]);
  }
  return pairs;
}
