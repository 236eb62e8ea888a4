import type { Circuit, End, Part } from '@setwright/circuit';
import {
  addMark,
  type Cell,
  emptyCell,
  endOf,
  labelAt,
  nameAndValue,
  type Paper,
  place,
  wire,
} from '../cell.ts';
import { flatPart, uprightPart } from '../cells/upright.ts';
import { valueText } from '../part-words.ts';
import { isFilamentEnd } from '../rails.ts';
import { textWidth } from '../text-width.ts';
import type { Group, Ladder, Regulator } from './ladder.ts';

/** Everything between the two lines of the ladder is drawn about level 0, the filaments' own. */
export function stripCells(circuit: Circuit, paper: Paper, ladder: Ladder): Cell[] {
  const size = (net: number): number => circuit.junctions[net]?.terminals.length ?? 0;
  const cx = { circuit, paper, ladder, size };
  return [
    ...ladder.groups.map((group) => groupCell(cx, group)),
    ...ladder.potentiometers.map((part) => potentiometerCell(cx, part)),
    ...ladder.others.map((regulator) => regulatorCell(cx, regulator)),
  ];
}

interface Context {
  readonly circuit: Circuit;
  readonly paper: Paper;
  readonly ladder: Ladder;
  readonly size: (net: number) => number;
}

/** From the middle of a filament to its pins, and to where filaments side by side are joined. */
const [pin, node] = [20, 30];

/** Filaments side by side, with what regulates them above or below. */
function groupCell(cx: Context, group: Group): Cell {
  const [first] = group.tubes;
  const cell = emptyCell(`${first?.name ?? ''} filament`);
  const columns: number[] = [];
  let x = 0;
  for (const tube of group.tubes) {
    const ends = { plus: endOf(tube, 'filament+'), minus: endOf(tube, 'filament-') };
    place(cell, tube.name, 'filament', { x, y: 0 }, ends);
    cell.labels.push(labelAt(tube.name, 'name', x + 19, -7, 'start', tube.name));
    columns.push(x);
    x += Math.ceil(Math.max(70, 19 + textWidth(tube.name, 'name') + 25) / 10) * 10;
  }
  side(cx, cell, group, columns, -1);
  side(cx, cell, group, columns, 1);
  return cell;
}

/** One side of a group: to its line, through what regulates it, or to a symbol. */
function side(
  { circuit, paper, ladder, size }: Context,
  cell: Cell,
  group: Group,
  columns: readonly number[],
  sign: 1 | -1,
): void {
  const up = sign < 0;
  const [net, regulators] = up ? [group.plus, group.above] : [group.minus, group.below];
  const line = up ? ladder.upper : ladder.lower;
  if (net < 0 || size(net) <= 1) return;
  if (net === line) {
    for (const x of columns) cell.drops.push({ net, at: { x, y: sign * pin }, up });
    return;
  }
  const [first, last] = [columns[0] ?? 0, columns.at(-1) ?? 0];
  for (const x of columns) wire(cell, net, x, sign * pin, x, sign * node);
  if (first !== last) wire(cell, net, first, sign * node, last, sign * node);
  const [regulator] = regulators;
  if (!regulator) {
    addMark(paper, cell, net, { x: first, y: sign * node }, up ? 'bar-up' : 'bar-down');
    return;
  }
  // Between two filaments, never below one: wires do not meet four ways.
  const [one, other] = [
    columns[Math.ceil(columns.length / 2) - 1],
    columns[Math.ceil(columns.length / 2)],
  ];
  const middle = Math.round(((one ?? first) + (other ?? one ?? last)) / 20) * 10;
  let [at, y] = [net, node];
  for (const each of regulators) {
    const near = each.ends.find((end) => end.junction === at);
    const far = each.ends.find((end) => end !== near);
    if (each !== regulator && size(at) > 2) {
      wire(cell, at, middle, sign * (y + 5), middle - 14, sign * (y + 5));
      addMark(paper, cell, at, { x: middle - 14, y: sign * (y + 5) }, 'bar-left');
    }
    wire(cell, at, middle, sign * y, middle, sign * (y + 10));
    const shown = paper.shown(each);
    if (up) uprightPart(cell, shown, middle, -y - 50, far, near);
    else uprightPart(cell, shown, middle, y + 10, near, far);
    [at, y] = [far?.junction ?? at, y + 50];
  }
  if (at === line) cell.drops.push({ net: line, at: { x: middle, y: sign * y }, up });
  else if (size(at) > 1) {
    wire(cell, at, middle, sign * y, middle, sign * (y + 10));
    addMark(paper, cell, at, { x: middle, y: sign * (y + 10) }, up ? 'bar-up' : 'bar-down');
  }
  // A filament that is shorted has its junction on both sides.
  if (group.plus !== group.minus && !isNamedElsewhere(circuit, net, regulator, group.tubes)) return;
  wire(cell, net, first, sign * node, first - 14, sign * node);
  addMark(paper, cell, net, { x: first - 14, y: sign * node }, 'bar-left');
}

/** Whether more is on a junction than a group's own filaments and what regulates them. */
function isNamedElsewhere(
  circuit: Circuit,
  net: number,
  regulator: Part,
  own: readonly Part[],
): boolean {
  return (circuit.junctions[net]?.terminals ?? []).some((id) => {
    const part = circuit.partOfEnd.get(id);
    if (!part || part === regulator) return false;
    const end = part.ends.find((one) => one.id === id);
    return !(own.includes(part) && end && isFilamentEnd(end.name));
  });
}

/** A potentiometer across the filament supply, its arm to the right. */
function potentiometerCell({ paper, ladder, size }: Context, part: Part): Cell {
  const cell = emptyCell(part.name);
  const [start, finish, arm] = ['start', 'finish', 'arm'].map((name) => endOf(part, name));
  const isUp = (end: End | undefined): boolean => end?.junction === ladder.upper;
  const [upper, lower] = isUp(finish) ? [finish, start] : [start, finish];
  place(cell, part.name, 'potentiometer', { x: 0, y: 0 }, { a: upper, b: lower, arm });
  nameAndValue(cell, part.name, part.name, valueText(paper.shown(part)), 12, 22, 'start');
  for (const [end, up] of [
    [upper, true],
    [lower, false],
  ] as const) {
    if (!end || size(end.junction) <= 1) continue;
    const line = up ? ladder.upper : ladder.lower;
    const y = up ? -pin : pin;
    if (end.junction === line) cell.drops.push({ net: line, at: { x: 0, y }, up });
    else {
      // Below, the words stand beside the lead.
      const tip = up ? -30 : 54;
      wire(cell, end.junction, 0, y, 0, tip);
      addMark(paper, cell, end.junction, { x: 0, y: tip }, up ? 'bar-up' : 'bar-down');
    }
  }
  if (arm && size(arm.junction) > 1) {
    wire(cell, arm.junction, 20, 0, 28, 0);
    addMark(paper, cell, arm.junction, { x: 28, y: 0 }, 'bar-right');
  }
  return cell;
}

/** A regulator that stands in no group: upright between the lines, else between two symbols. */
function regulatorCell({ paper, ladder, size }: Context, { part, a, b }: Regulator): Cell {
  const cell = emptyCell(part.name);
  const lines = [ladder.upper, ladder.lower];
  const [one, other] = part.ends;
  if (!lines.includes(a) && !lines.includes(b) && size(a) > 1 && size(b) > 1) {
    flatPart(cell, paper.shown(part), 10, 0, one, other);
    wire(cell, a, 0, 0, 10, 0);
    wire(cell, b, 50, 0, 60, 0);
    addMark(paper, cell, a, { x: 0, y: 0 }, 'bar-left');
    addMark(paper, cell, b, { x: 60, y: 0 }, 'bar-right');
    return cell;
  }
  const [upper, lower] =
    other?.junction === ladder.upper || one?.junction === ladder.lower
      ? [other, one]
      : [one, other];
  uprightPart(cell, paper.shown(part), 0, -pin, upper, lower);
  for (const [end, up] of [
    [upper, true],
    [lower, false],
  ] as const) {
    if (!end || size(end.junction) <= 1) continue;
    const { junction } = end;
    const y = up ? -pin : pin;
    if (junction === (up ? ladder.upper : ladder.lower)) {
      cell.drops.push({ net: junction, at: { x: 0, y }, up });
      continue;
    }
    const tip = up ? y - 10 : y + 10;
    wire(cell, junction, 0, y, 0, tip);
    addMark(paper, cell, junction, { x: 0, y: tip }, up ? 'bar-up' : 'bar-down');
  }
  return cell;
}
