import type { Circuit, Part } from '@setwright/circuit';
import { addMark, type Cell, emptyCell, endOf, labelAt, type Paper, place, wire } from '../cell.ts';
import type { Rails } from '../rails.ts';

/** A selector whose studs lead to several parts: its arm at the west, its studs at the east. */
export function selectorCell(circuit: Circuit, paper: Paper, rails: Rails, part: Part): Cell {
  const cell = emptyCell(part.name);
  const arm = endOf(part, 'arm');
  const studs = part.contacts.flatMap(({ from, to, closedAt }) => {
    const end = circuit.endNamed.get(from === arm?.id ? to : from);
    return end ? [{ end, closedAt }] : [];
  });
  const top = -Math.floor((studs.length - 1) / 2) * 20;
  const studX = 34;
  place(cell, part.name, 'terminal', { x: 0, y: 0 }, { post: arm });
  const seen = new Map<number, number>();
  for (const [index, { end, closedAt }] of studs.entries()) {
    const y = top + index * 20;
    place(cell, part.name, 'terminal', { x: studX, y }, {});
    if (closedAt.includes(part.drawnAt)) {
      const points = [
        { x: 3.5, y: 0 },
        { x: studX - 4, y },
      ];
      cell.ornaments.push({ kind: 'arm', points });
    }
    const { junction } = end;
    const role = rails.roleOf(junction);
    const before = seen.get(junction);
    if (role === 'low' || role === 'high') {
      wire(cell, junction, studX + 4, y, studX + 14, y);
      addMark(paper, cell, junction, { x: studX + 14, y }, 'bar-right');
    } else if (role === 'signal' && before === undefined) {
      seen.set(junction, y);
      wire(cell, junction, studX + 4, y, studX + 14, y);
      cell.ports.push({ net: junction, side: 'east', from: { x: studX + 14, y } });
    } else {
      // Two studs on one junction, or on an end that is drawn elsewhere.
      cell.labels.push(labelAt(end.id, 'rail', studX + 9, y - 6, 'start', part.name));
    }
  }
  const low = top + (studs.length - 1) * 20;
  const labelY = Math.max(8, low - 6);
  cell.labels.push(labelAt(part.name, 'name', -6, Math.min(labelY, 10), 'middle', part.name));
  if (!arm) return cell;
  const role = rails.roleOf(arm.junction);
  if (role === 'signal') {
    cell.ports.push({ net: arm.junction, side: 'west', from: { x: 0, y: 0 } });
  } else if (role !== 'alone') {
    wire(cell, arm.junction, 0, 0, -14, 0);
    addMark(paper, cell, arm.junction, { x: -14, y: 0 }, 'bar-left');
  }
  return cell;
}
