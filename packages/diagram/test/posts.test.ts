import { expect, it } from 'vitest';
import { drawCircuit, layoutEngine, type Scene } from '../src/index.ts';
import { circuitOf } from './examples.ts';
import { hardFaults } from './hard.ts';

const engine = layoutEngine();

const pickUp = `receiver "Behind a pick-up" {
  battery A storage { tap A- tap A+ 6 V }
  battery B dry { tap B- tap B+90 }
  post PU1 alternative
  wire B- to A-
  potentiometer P1 .5 meg from A- to PU1 arm to V1.grid
  tube V1 01-A { filament from A- to A+ }
  phones PH1 2000 ohms from V1.plate to B+90
}`;

const shortAerial = `receiver "Long and short aerial" {
  battery A storage { tap A- tap A+ 6 V }
  battery B dry { tap B- tap B+90 }
  post ANT aerial
  post SHORT alternative
  post GND ground
  wire B- to A- to GND
  coil L1 {
    winding aerial 20 turns tap 8 to SHORT from GND to ANT
    winding grid 60 turns from GND to V1.grid
  }
  condenser C1 variable .00035 mfd across L1.grid
  tube V1 01-A { filament from A- to A+ }
  phones PH1 2000 ohms from V1.plate to B+90
}`;

/** The left edge of the wires of a junction. */
const leftOf = ({ wires }: Scene, net: string): number =>
  Math.min(
    ...wires.filter((each) => each.net === net).flatMap(({ points }) => points.map(({ x }) => x)),
  );

it.each([
  ['a pick-up', pickUp, 'PU1'],
  ['a short aerial', shortAerial, 'SHORT'],
])(
  'the post that the signal of %s comes in by stands to the left of all it leads to',
  async (_what, text, post) => {
    const circuit = circuitOf(text);
    const scene = await drawCircuit(circuit, engine);
    expect(hardFaults(circuit, scene)).toEqual([]);
    const stands = scene.symbols.find(({ part }) => part === post);
    expect(stands?.at.x).toBe(leftOf(scene, post));
  },
);

it('the name of a bus stands on the wire before what hangs from it', async () => {
  const circuit = circuitOf(`receiver "A bus between two parts" {
  battery A storage { tap A- tap A+ 6 V }
  battery B dry { tap B- tap B+90 }
  post ANT aerial
  wire B- to A-
  bus SUPPLY
  coil L1 { winding grid 60 turns from A- to V1.grid }
  wire ANT to V1.grid
  tube V1 01-A { filament from A- to A+ }
  resistor R1 1000 ohms from V1.plate to SUPPLY
  phones PH1 2000 ohms from SUPPLY to B+90
}`);
  const scene = await drawCircuit(circuit, engine);
  const right = Math.max(
    ...scene.wires
      .filter(({ net }) => net === 'SUPPLY')
      .flatMap(({ points }) => points.map(({ x }) => x)),
  );
  const phones = scene.symbols.find(({ part }) => part === 'PH1');
  expect(right).toBe(phones?.pins.find(({ end }) => end === 'PH1.start')?.at.x);
});
