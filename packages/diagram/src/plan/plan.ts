import type { Circuit, Part } from '@setwright/circuit';
import type { Cell, Paper } from '../cell.ts';
import { naturally } from '../natural-order.ts';
import type { Rails } from '../rails.ts';
import { planCoils } from './coils.ts';
import { planJacks } from './jacks.ts';
import { closeLonelyPorts } from './lonely-ports.ts';
import { type Column, type Planning, startPlanning } from './planning.ts';
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

/** Sorts the parts by their role and draws each group's cell. Never throws. */
export function planCells(
  circuit: Circuit,
  rails: Rails,
  order: ReadonlyMap<number, number>,
  paper: Paper,
): Plan {
  const planning = startPlanning(circuit, rails, order, paper);
  planLoose(planning);
  planCoils(planning);
  planTubes(planning);
  planJacks(planning);
  planTwoEnded(planning);
  planRest(planning);
  const { tray, railPosts } = planning;
  closeLonelyPorts(planning.cells);
  const cells = planning.cells.filter(({ ports }) => ports.length > 0);
  cells.sort((a, b) => a.key - b.key || naturally(a.id, b.id));
  const columns = [...planning.columns, ...withoutSignal(planning)];
  return { cells, columns, tray, railPosts, follows: followers(planning, cells) };
}

/** Windings and tubes that no signal junction leads to stand where parts between rails do. */
function withoutSignal({ cells, parts }: Planning): Column[] {
  return cells.flatMap((cell) => {
    const part = parts.find(({ name }) => name === cell.symbols[0]?.part);
    return cell.ports.length === 0 && part ? [{ cell, part }] : [];
  });
}

/** A jack before the part that it leads through, a selector before its coil. */
function followers({ circuit, parts }: Planning, cells: readonly Cell[]): [Cell, Cell][] {
  const cellOf = new Map<string, Cell>();
  for (const cell of cells) for (const { part } of cell.symbols) cellOf.set(part, cell);
  const pairs: [Cell, Cell][] = [];
  for (const part of parts) {
    const from = cellOf.get(part.name);
    for (const { from: a, to: b } of part.contacts) {
      for (const id of [a, b]) {
        const to = cellOf.get(circuit.partOfEnd.get(id)?.name ?? '');
        if (!from || !to || from === to || pairs.some(([x, y]) => x === from && y === to)) continue;
        pairs.push([from, to]);
      }
    }
  }
  return pairs;
}
