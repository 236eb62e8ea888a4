import type { Part } from '@setwright/circuit';
import {
  addMark,
  type Cell,
  emptyCell,
  endOf,
  labelAt,
  nameAndValue,
  type Paper,
  place,
  toRail,
  wire,
} from '../cell.ts';
import { naturally } from '../natural-order.ts';
import { valueText } from '../part-words.ts';
import type { Rails } from '../rails.ts';
import { uprightPart } from './upright.ts';

/** A part that hangs from a junction with its other end on a rail. */
export interface Hanging {
  readonly part: Part;
  readonly upper: string;
  readonly lower: string;
}

/** The symbol of a tube by what its envelope holds. */
function tubeSymbol(tube: Part): string {
  const screened = endOf(tube, 'screen') ? '-screen' : '';
  return `tube${screened}${endOf(tube, 'cathode') ? '-heated' : ''}`;
}

/**
 * A tube: grid in at the west, plate out at the east, and what hangs from its cathode. Its
 * filament leads stand in the filament circuit, once.
 */
export function tubeCell(paper: Paper, rails: Rails, tube: Part, cathodeParts: Hanging[]): Cell {
  const cell = emptyCell(tube.name, 'tube');
  const [grid, plate] = [endOf(tube, 'grid'), endOf(tube, 'plate')];
  const [screen, cathode] = [endOf(tube, 'screen'), endOf(tube, 'cathode')];
  place(cell, tube.name, tubeSymbol(tube), { x: 0, y: 0 }, { grid, plate, screen, cathode });
  nameAndValue(cell, tube.name, tube.name, valueText(tube), 20, 31, 'start');
  const role = (net: number | undefined) => (net === undefined ? 'alone' : rails.roleOf(net));
  if (grid && role(grid.junction) === 'signal') {
    cell.ports.push({ net: grid.junction, side: 'west', from: { x: -30, y: 0 } });
  } else if (grid && role(grid.junction) !== 'alone') {
    wire(cell, grid.junction, -30, 0, -40, 0);
    addMark(paper, cell, grid.junction, { x: -40, y: 0 }, 'bar-left');
  }
  if (plate && role(plate.junction) === 'signal') {
    wire(cell, plate.junction, 0, -30, 0, -40);
    // To the west for what feeds back from before the tube.
    cell.ports.push({ net: plate.junction, side: 'west', from: { x: 0, y: -40 } });
    cell.ports.push({ net: plate.junction, side: 'east', from: { x: 0, y: -40 } });
  } else if (plate && role(plate.junction) !== 'alone') {
    toRail(paper, cell, plate.junction, { x: 0, y: -30 }, true);
  }
  if (screen && role(screen.junction) === 'signal') {
    cell.ports.push({ net: screen.junction, side: 'east', from: { x: 30, y: -8 } });
  } else if (screen && role(screen.junction) !== 'alone') {
    wire(cell, screen.junction, 30, -8, 40, -8);
    addMark(paper, cell, screen.junction, { x: 40, y: -8 }, 'bar-right');
  }
  if (cathode && role(cathode.junction) !== 'alone') {
    if (role(cathode.junction) !== 'signal') {
      toRail(paper, cell, cathode.junction, { x: -10, y: 30 });
    } else if (cathodeParts.length > 0) {
      hang(paper, cell, cathode.junction, cathodeParts);
    } else {
      wire(cell, cathode.junction, -10, 30, -10, 60);
      cell.ports.push({ net: cathode.junction, side: 'west', from: { x: -10, y: 60 } });
    }
  }
  return cell;
}

/** The filament of a tube to the right of it. */
export function addFilament(cell: Cell, tube: Part): void {
  const ends = { plus: endOf(tube, 'filament+'), minus: endOf(tube, 'filament-') };
  if (!ends.plus && !ends.minus) return;
  place(cell, tube.name, 'filament', { x: 80, y: 0 }, ends);
  cell.labels.push(labelAt(tube.name, 'name', 99, -7, 'start', tube.name));
}

function hang(paper: Paper, cell: Cell, net: number, parts: readonly Hanging[]): void {
  const sorted = [...parts].sort((a, b) => naturally(a.part.name, b.part.name));
  let x = -10;
  wire(cell, net, -10, 30, -10, 70);
  for (const { part, upper, lower } of sorted) {
    const [up, down] = [endOf(part, upper), endOf(part, lower)];
    uprightPart(cell, part, x, 70, up, down);
    if (down) toRail(paper, cell, down.junction, { x, y: 110 });
    if (x > -10) wire(cell, net, -10, 60, x, 60, x, 70);
    const right = Math.max(
      ...cell.labels.filter((l) => l.part === part.name).map((l) => l.box.right),
    );
    x = Math.ceil((right + 18) / 10) * 10;
  }
}
