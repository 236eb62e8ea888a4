import { type End, partKinds } from '@setwright/circuit';
import { expect, it } from 'vitest';
import { genericCell } from '../src/cells/generic.ts';
import { drawCircuit, layoutEngine, misread } from '../src/index.ts';
import { circuitOf } from './examples.ts';
import { faultsOf } from './faults.ts';
import { oneOfEach } from './one-of-each.ts';

const engine = layoutEngine();

it('a set with one part of every kind is drawn and reads back', async () => {
  const circuit = circuitOf(oneOfEach);
  const kinds = new Set(circuit.parts.map(({ kind }) => kind));
  expect(Object.keys(partKinds).filter((kind) => !kinds.has(kind as never))).toEqual([]);
  for (const rows of ['one', 'page'] as const) {
    const scene = await drawCircuit(circuit, engine, { rows });
    expect(misread(circuit, scene).map((net) => circuit.junctions[net]!.terminals)).toEqual([]);
    expect(faultsOf(scene)).toEqual([]);
  }
});

it('a choke with a tap is drawn as a winding with its core', async () => {
  const circuit = circuitOf(`receiver "Two in push-pull" {
    battery B dry { tap B-
      tap B+90 90 V }
    tube V1 01-A
    tube V2 01-A
    choke CH1 30 H centre to B+90 from V1.plate to V2.plate
  }`);
  const scene = await drawCircuit(circuit, engine);
  expect(misread(circuit, scene)).toEqual([]);
  const choke = scene.symbols.find(({ part }) => part === 'CH1')!;
  expect(choke.symbol).toMatch(/^winding-/);
  expect(choke.pins.map(({ end }) => end).sort()).toEqual([
    'CH1.centre',
    'CH1.finish',
    'CH1.start',
  ]);
  const beside = scene.ornaments.filter(({ points }) => Math.abs(points[0]!.x - choke.at.x) < 20);
  expect(beside).toHaveLength(3);
});

it.each([1, 2, 3, 6, 11])(
  'a part that nobody knows is a box with its %i ends, on wires, rails or nothing',
  (count) => {
    const [known] = circuitOf(oneOfEach).parts;
    const ends = Array.from(
      { length: count },
      (_, at): End => ({
        ...known!.ends[0]!,
        id: `X1.e${at}`,
        name: `e${at}`,
        junction: at,
      }),
    );
    const roles = ['signal', 'low', 'high', 'alone'] as const;
    const rails = {
      roleOf: (net: number) => roles[net % 4]!,
      heightOf: () => 0,
      stripParts: new Set<string>(),
      stripNets: new Set<number>(),
      ground: undefined,
    };
    const paper = {
      nameOf: (net: number) => `N${net}`,
      ground: undefined,
      toBus: () => false,
      shown: <T>(each: T): T => each,
    };
    const cell = genericCell(paper, rails, { ...known!, name: 'X1', ends, taps: [] });
    expect(cell.symbols.flatMap(({ pins }) => pins.map(({ end }) => end))).toEqual(
      ends.map(({ id }) => id),
    );
    expect(cell.labels.map(({ text }) => text)).toContain('X1');
    expect(cell.ports).toHaveLength(ends.filter((_, at) => at % 4 === 0).length);
    expect(cell.marks).toHaveLength(ends.filter((_, at) => at % 4 === 1 || at % 4 === 2).length);
  },
);
