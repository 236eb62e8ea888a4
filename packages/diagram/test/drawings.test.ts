import { beforeAll, describe, expect, it } from 'vitest';
import { drawCircuit, netlistOf, readGeometry, type Scene, sceneToSvg } from '../src/index.ts';
import { circuitOf, exampleTexts, shuffled } from './examples.ts';
import { faultsOf, turnedFaults } from './faults.ts';
import { watchedEngine } from './hard.ts';

const watched = watchedEngine();

const drawings = exampleTexts.flatMap(([name, text]) =>
  (['one', 'page'] as const).map((rows) => [name, rows, text] as const),
);

describe.each(drawings)('the drawing of %s, rows: %s', (_name, rows, text) => {
  const circuit = circuitOf(text);
  let scene: Scene;
  let backwards: string[];
  beforeAll(async () => {
    watched.take();
    scene = await drawCircuit(circuit, watched.engine, { rows });
    backwards = watched.take();
  });

  it('read back is the circuit, every end included', () => {
    expect(readGeometry(scene)).toEqual(netlistOf(circuit));
  });

  it('has nothing on top of anything else', () => {
    expect(faultsOf(scene)).toEqual([]);
  });

  it('has no part upside down and every condenser across a winding upright beside it', () => {
    expect(turnedFaults(circuit, scene)).toEqual([]);
  });

  it('has no forward wire that runs backwards', () => {
    expect(backwards).toEqual([]);
  });

  it.each([7, 19, 23])('is the same whatever the order of the text, shuffle %i', async (seed) => {
    const other = await drawCircuit(circuitOf(shuffled(text, seed)), watched.engine, { rows });
    expect(sceneToSvg(other)).toBe(sceneToSvg(scene));
  });
});
