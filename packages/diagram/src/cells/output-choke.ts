import type { Part } from '@setwright/circuit';
import { type Cell, emptyCell, labelAt, linePitch, wire } from '../cell.ts';
import { windingText } from '../part-words.ts';
import { betweenPlates, drawCore } from './coil.ts';
import { type CoilContext, startAndFinish, upperOfTwo } from './coil-context.ts';
import { drawBeside, drawTaps, leadsOf, placeWinding, standing } from './windings.ts';

/** Whether a choke lies between the plates of two tubes, which work on it in push-pull. */
export function isBetweenPlates(cx: Pick<CoilContext, 'rails' | 'onPlate'>, part: Part): boolean {
  const [start, finish] = startAndFinish(part);
  return (
    start !== undefined &&
    finish !== undefined &&
    start.junction !== finish.junction &&
    [start, finish].every(
      ({ junction }) => cx.rails.roleOf(junction) === 'signal' && cx.onPlate(junction),
    )
  );
}

/**
 * The choke that feeds two plates by its middle: it stands where the primary of an output
 * transformer would, with what works across it at its east.
 */
export function outputChokeCell(cx: CoilContext, part: Part, beside: readonly Part[]): Cell {
  const cell = emptyCell(part.name, 'coil');
  const winding = standing(part, upperOfTwo(cx, part), betweenPlates);
  placeWinding(cell, winding, 0, 'right');
  drawTaps(cell, winding, 0, {
    paper: cx.paper,
    rails: cx.rails,
    elsewhere: new Set(),
    leadsBack: () => true,
    west: -20,
    clear: false,
    beside: 0,
  });
  if (!part.words.has('air')) drawCore(cell, 12, winding, winding);
  const leads = leadsOf(winding);
  for (const [end, from, to] of [
    [winding.upper, winding.top, leads.upper],
    [winding.lower, winding.top + winding.loops * 10, leads.lower],
  ] as const) {
    if (!end) continue;
    wire(cell, end.junction, 0, from, 0, to);
    cell.ports.push({ net: end.junction, side: 'west', from: { x: 0, y: to } });
  }
  drawBeside(cx, cell, winding, 0, beside, 'east');
  const text = windingText(part);
  const y = leads.upper - (text ? 38 : 23);
  cell.labels.push(labelAt(part.name, 'name', 0, y, 'start', part.name));
  if (text) cell.labels.push(labelAt(text, 'value', 0, y + linePitch, 'start', part.name));
  return cell;
}
