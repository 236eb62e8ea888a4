import { beforeAll, describe, expect, it } from 'vitest';
import { drawCircuit, dress, layoutEngine, overlayOf, type Scene } from '../src/index.ts';
import { circuitOf, shuffled } from './examples.ts';
import { hardFaults } from './hard.ts';

const text = `
receiver "Switch with three poles" {
  battery A storage { tap A- 0 V
    tap A+ 6 V }
  battery B dry { tap B-
    tap B+45 45 V }
  battery C dry { tap C+
    tap C-4.5 }
  post ANT aerial
  post GND ground
  bus NEG
  bus FP
  bus CR
  wire A- to C+ to NEG to GND
  switch S1 from A+ to FP closed makes B- to NEG breaks C-4.5 to CR
  rheostat RH1 10 ohms from FP to V1.filament+
  wire V1.filament- to NEG
  coil L1 { winding aerial 10 turns from GND to ANT
    winding grid 50 turns from NEG }
  condenser C1 variable 14 to 365 mmfd across L1.grid
  condenser C2 .00025 mfd from L1.grid.finish to V1.grid
  leak R1 2 meg from V1.grid to V1.filament+
  tube V1 01-A
  phones PH1 2000 ohms from V1.plate to B+45
}
`;
const circuit = circuitOf(text);
const engine = layoutEngine();
let scene: Scene;
beforeAll(async () => {
  scene = await drawCircuit(circuit, engine);
});

describe('a switch with further poles', () => {
  it('has a symbol for each of them, open or closed as it stands', () => {
    const poles = scene.symbols.filter(({ part }) => part === 'S1');
    expect(poles.map(({ symbol }) => symbol).sort()).toEqual([
      'switch-closed',
      'switch-closed',
      'switch-open',
    ]);
    expect(scene.labels.map((label) => label.text)).toContain('S1 pole 3');
  });

  it('is read back as the circuit, without a fault', () => {
    expect(hardFaults(circuit, scene)).toEqual([]);
  });

  it('leads wires to its further poles that belong to what they join', () => {
    const joined = scene.symbols.flatMap(({ part, contacts = [] }) =>
      part === 'S1' && contacts.length > 0 ? [contacts.map(({ end }) => end).sort()] : [],
    );
    expect(joined).toEqual(
      expect.arrayContaining([
        ['B.B-', 'NEG'],
        ['C.C-4.5', 'CR'],
      ]),
    );
  });

  it('carries the plate current through the pole in its way', () => {
    const { paths } = dress(scene, { overlay: overlayOf(circuit, 'plate')! });
    const pole = scene.symbols.find(({ contacts }) => contacts?.some(({ end }) => end === 'B.B-'))!;
    const way = pole.contacts!.map(({ at }) => at);
    const through = paths.flatMap(({ pieces }) => pieces).filter(({ by }) => by === 'part');
    expect(through.some(({ points }) => way.every((at) => points.includes(at)))).toBe(true);
  });

  it('does not depend on the order of the text', async () => {
    expect(await drawCircuit(circuitOf(shuffled(text, 5)), engine)).toEqual(scene);
  });
});
