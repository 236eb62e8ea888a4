import type { Circuit } from '@setwright/circuit';
import { type Box, drawCircuit, layoutEngine, type Point, type Scene } from '../src/index.ts';
import { circuitOf, exampleTexts } from './examples.ts';

/** A set with its drawing. */
export interface Drawn {
  readonly circuit: Circuit;
  readonly scene: Scene;
}

const engine = layoutEngine();
const known = new Map<string, Promise<Drawn>>();

export async function drawnText(text: string): Promise<Drawn> {
  const circuit = circuitOf(text);
  return { circuit, scene: await drawCircuit(circuit, engine) };
}

export function textOf(example: string): string {
  return exampleTexts.find(([name]) => name === example)![1];
}

/** An example set with its drawing, which is made once. */
export function drawnExample(name: string): Promise<Drawn> {
  const drawing = known.get(name) ?? drawnText(textOf(name));
  known.set(name, drawing);
  return drawing;
}

export function meet(a: Box, b: Box): boolean {
  const little = 0.01;
  return (
    a.left < b.right - little &&
    b.left < a.right - little &&
    a.top < b.bottom - little &&
    b.top < a.bottom - little
  );
}

/** What a drawing has on it that letters must keep clear of: symbols, rail symbols, words, wires. */
export function obstaclesOf(scene: Scene): { readonly what: string; readonly box: Box }[] {
  const alongLine = (points: readonly Point[], half: number): Box[] =>
    points.slice(1).map((to, index) => {
      const from = points[index]!;
      return {
        left: Math.min(from.x, to.x) - half,
        right: Math.max(from.x, to.x) + half,
        top: Math.min(from.y, to.y) - half,
        bottom: Math.max(from.y, to.y) + half,
      };
    });
  return [
    ...scene.symbols.map(({ part, box }) => ({ what: part, box })),
    ...scene.labels.map(({ text, box }) => ({ what: `"${text}"`, box })),
    ...scene.marks.map(({ net, box }) => ({ what: `symbol of ${net}`, box })),
    ...scene.wires.flatMap(({ net, points }) =>
      alongLine(points, 0.7).map((box) => ({ what: `wire ${net}`, box })),
    ),
  ];
}
