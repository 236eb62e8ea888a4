import type { Circuit } from '@setwright/circuit';
import { type Canvas, newCanvas, stamp } from './canvas.ts';
import { cellBox, labelAt } from './cell.ts';
import { findDots } from './dots.ts';
import { mergeWires } from './merge-wires.ts';
import { naturally } from './natural-order.ts';
import type { Scene } from './scene.ts';

/** What was drawn as a scene: moved to the paper, titled, its wires joined and dotted. */
export function toScene(circuit: Circuit, names: readonly string[], canvas: Canvas): Scene {
  const margin = 20;
  const title = labelAt(circuit.title, 'title', 0, 0, 'start');
  const box = cellBox(canvas);
  const width = Math.ceil(Math.max(box.right - box.left, title.box.right) + 2 * margin);
  const by = { x: margin - box.left, y: margin + 40 - box.top };
  const moved = newCanvas();
  stamp(moved, canvas, by);
  moved.labels.push(labelAt(circuit.title, 'title', width / 2, margin - 4, 'middle'));
  const wires = mergeWires(
    moved.wires.map(({ net, points }) => ({ net: names[net] ?? '', points })),
  );
  const pins = moved.symbols
    .filter(({ symbol }) => symbol !== 'name' && symbol !== 'terminal')
    .flatMap((symbol) => symbol.pins.map(({ at }) => at));
  return {
    title: circuit.title,
    description: describe(circuit),
    width,
    height: Math.ceil(box.bottom - box.top + 2 * margin + 40),
    symbols: moved.symbols,
    wires,
    dots: findDots(wires, pins),
    marks: moved.marks,
    labels: moved.labels,
    ornaments: moved.ornaments,
  };
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
