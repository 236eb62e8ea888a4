import type { Circuit } from '@setwright/circuit';
import { boxBetween, grown } from './box.ts';
import { type Canvas, newCanvas, stamp } from './canvas.ts';
import { cellBox, labelAt } from './cell.ts';
import { findDots } from './dots.ts';
import { mergeWires } from './merge-wires.ts';
import { naturally } from './natural-order.ts';
import { partJoints } from './part-joints.ts';
import type { Box, Scene } from './scene.ts';
import { spokenPart } from './spoken.ts';
import { textWidth } from './text-width.ts';
import { trimWires } from './trim-wires.ts';

const margin = 20;

/** What was drawn takes up this much paper, its title included; and where it lies by itself. */
export function sizeOnPaper(
  circuit: Circuit,
  canvas: Canvas,
): { readonly width: number; readonly height: number; readonly box: Box } {
  const box = cellBox(canvas);
  const shown = shownTitle(circuit.title, box.right - box.left);
  const title = labelAt(shown, 'title', 0, 0, 'start');
  return {
    width: Math.ceil(Math.max(box.right - box.left, title.box.right) + 2 * margin),
    height: Math.ceil(box.bottom - box.top + 2 * margin + 40),
    box,
  };
}

/** What was drawn as a scene: moved to the paper, titled, its wires joined and dotted. */
export function toScene(circuit: Circuit, names: readonly string[], canvas: Canvas): Scene {
  const { width, height, box } = sizeOnPaper(circuit, canvas);
  const by = { x: margin - box.left, y: margin + 40 - box.top };
  const moved = newCanvas();
  stamp(moved, canvas, by);
  const shown = shownTitle(circuit.title, box.right - box.left);
  moved.labels.push(labelAt(shown, 'title', width / 2, margin - 4, 'middle'));
  const ends = [...moved.symbols.flatMap((symbol) => symbol.pins), ...moved.marks].map(
    ({ at }) => at,
  );
  const symbols = moved.symbols.filter(({ symbol }) => symbol !== 'name');
  const drawn = mergeWires(
    moved.wires.map(({ net, points }) => ({ net: names[net] ?? '', points })),
  );
  const whole = trimWires(drawn, {
    pins: ends,
    boxes: [
      ...symbols.map((each) => each.box),
      // A lead may end at the name of what it belongs to, or at a dashed line.
      ...moved.labels.filter(({ style }) => style === 'rail').map((each) => grown(each.box, 4)),
      ...moved.ornaments.flatMap(({ points }) => points.map((at) => grown(boxBetween(at, at), 12))),
    ],
  });
  const wires = partJoints(whole, {
    boxes: [
      ...symbols,
      ...moved.labels,
      ...moved.marks.filter(({ shape }) => shape !== 'none'),
    ].map((each) => each.box),
    pins: ends,
  });
  const pins = moved.symbols
    .filter(({ symbol }) => symbol !== 'name' && symbol !== 'terminal')
    .flatMap((symbol) => symbol.pins.map(({ at }) => at));
  return {
    title: circuit.title,
    description: describe(circuit),
    width,
    height,
    symbols: moved.symbols,
    wires,
    dots: findDots(wires, pins),
    marks: moved.marks,
    labels: moved.labels,
    ornaments: moved.ornaments,
    spoken: Object.fromEntries(circuit.parts.map((part) => [part.name, spokenPart(circuit, part)])),
  };
}

/** Titles longer than this many letters are cut on paper, where they are broader than the drawing. */
const LONGEST_TITLE = 60;

/** A title as it stands over a drawing of a width. */
function shownTitle(title: string, width: number): string {
  const letters = [...title.replace(/\s+/g, ' ').trim()];
  const whole = letters.join('');
  if (letters.length <= LONGEST_TITLE || textWidth(whole, 'title') <= width) return whole;
  return `${letters.slice(0, LONGEST_TITLE - 1).join('')}…`;
}

/** The set in a sentence, for those who do not see the drawing. */
function describe(circuit: Circuit): string {
  const tubes = circuit.parts.filter(({ kind }) => kind === 'tube');
  const stages = circuit.stages.map((stage) => stage.title ?? stage.name);
  const types = [...tubes]
    .sort((a, b) => naturally(a.name, b.name))
    .map(({ name, typeName }) => (typeName ? `${name} ${typeName}` : name));
  const said = types.length > 0 ? ` Tubes: ${types.join(', ')}.` : '';
  return `Schematic of ${circuit.title}.${said}${
    stages.length > 0 ? ` Stages: ${stages.sort(naturally).join(', ')}.` : ''
  }`;
}
