import type { End, Part } from '@setwright/circuit';
import { type Cell, emptyCell, labelAt, type Paper, place, toRail, wire } from '../cell.ts';
import type { Led } from '../contacts.ts';
import type { Rails } from '../rails.ts';
import { uprightPart } from './upright.ts';

/** A jack between two junctions, with what its springs lead to while it is empty. */
export interface JackParts {
  readonly jack: Part;
  readonly upper: End;
  readonly lower: End;
  /** What the springs of the upper and the lower end lead to. */
  readonly through: readonly Led[];
  /** What is plugged in. */
  readonly plugged: Part | undefined;
}

/** Where the springs of a jack end, above and below its middle. */
const spring = 20;
/** Half the height of a jack with contacts at its springs, leads included. */
const half = 30;

/**
 * A jack upright in a plate's lead: springs at its right, their contacts led down to where the
 * next winding stands, a plugged part dashed beside it.
 */
export function jackCell(
  paper: Paper,
  rails: Rails,
  { jack, upper, lower, through, plugged }: JackParts,
  level: number,
): Cell {
  const cell = emptyCell(jack.name);
  const role = ({ junction }: End) => rails.roleOf(junction);
  const hangs = role(upper) === 'signal' && role(lower) !== 'signal';
  const y = hangs ? level + 10 + half : level - 10 - half;
  const symbol = through.length > 0 ? 'jack-through' : 'jack';
  const reach = through.length > 0 ? half : spring;
  const at = { x: 0, y: hangs ? level + 10 + reach : level - 10 - reach };
  place(cell, jack.name, symbol, at, { a: upper, b: lower });
  for (const [end, sign] of [
    [upper, -1],
    [lower, 1],
  ] as const) {
    if (role(end) === 'alone') continue;
    const pin = at.y + sign * reach;
    const isLine = sign < 0 === hangs;
    if (role(end) !== 'signal') {
      toRail(paper, cell, end.junction, { x: 0, y: pin }, sign < 0);
      continue;
    }
    const to = isLine ? level : pin + sign * 10;
    wire(cell, end.junction, 0, pin, 0, to);
    for (const side of ['west', 'east'] as const) {
      cell.ports.push({ net: end.junction, side, from: { x: 0, y: to }, room: 30 });
    }
  }
  const box = cell.symbols.at(-1)?.box ?? { left: 0, right: 0, top: y, bottom: y };
  // Each contact's lead runs down to the height at which a winding is entered.
  for (const { end, by } of through) {
    const isUpper = by.id === upper.id;
    const x = isUpper ? 46 : 36;
    const contact = at.y + (isUpper ? -10 : 10);
    const foot = isUpper ? 0 : 80;
    wire(cell, end.junction, 36, contact, x, contact, x, foot);
    cell.ports.push({ net: end.junction, side: 'east', from: { x, y: foot } });
  }
  const right = through.length > 0 ? 50 : box.right;
  if (plugged && through.length === 0) {
    const x = box.right + 26;
    // Each end beside the spring that the plug brings it to.
    const above = plugged.ends.find(({ id }) => meets(jack, id, upper)) ?? plugged.ends[0];
    const below = plugged.ends.find((end) => end !== above);
    uprightPart(cell, plugged, x, at.y - spring, above, below);
    for (const edge of [-spring, spring]) {
      const points = [
        { x: box.right + 2, y: at.y + (edge * 12) / spring },
        { x: x - 6, y: at.y + (edge * 12) / spring },
      ];
      cell.ornaments.push({ kind: 'gang', points });
    }
    cell.labels.push(labelAt(jack.name, 'name', box.left - 4, at.y - 6, 'end', jack.name));
  } else cell.labels.push(labelAt(jack.name, 'name', right + 4, at.y - 20, 'start', jack.name));
  return cell;
}

/** Whether a contact of a jack joins an end of what is plugged into it to one of its own. */
const meets = ({ contacts }: Part, id: string, own: End): boolean =>
  contacts.some(({ from, to }) => (from === id && to === own.id) || (to === id && from === own.id));
