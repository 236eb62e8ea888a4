import { expect, it } from 'vitest';
import { drawCircuit, layoutEngine } from '../src/index.ts';
import { circuitOf } from './examples.ts';
import { hardFaults } from './hard.ts';

const engine = layoutEngine();

/** How many corners the wires that bear a terminal have; wires are straight pieces. */
async function piecesOf(text: string, net: string): Promise<{ level: number; upright: number }> {
  const circuit = circuitOf(text);
  const scene = await drawCircuit(circuit, engine);
  expect(hardFaults(circuit, scene)).toEqual([]);
  const own = scene.wires.filter((each) => each.net === net);
  const isLevel = ({ points: [from, to] }: (typeof own)[number]): boolean => from?.y === to?.y;
  return {
    level: own.filter(isLevel).length,
    upright: own.filter((each) => !isLevel(each)).length,
  };
}

const supplies = `  battery A storage { tap A- tap A+ 6 V }
  battery B dry { tap B- tap B+90 }
  post ANT aerial
  post GND ground
  wire B- to A- to GND`;

it('an aerial stands over the wave trap that it leads to', async () => {
  const text = `receiver "Wave trap" {
${supplies}
  coil L0 { winding trap 60 turns from ANT to L1.aerial.finish }
  condenser C0 variable .00035 mfd across L0.trap
  coil L1 { winding aerial 10 turns from GND
    winding grid 52 turns from GND to V1.grid }
  tube V1 01-A { filament from A- to A+ }
  phones PH1 2000 ohms from V1.plate to B+90
}`;
  // The wire over coil and condenser, and the leads of aerial, coil and condenser.
  expect(await piecesOf(text, 'ANT')).toEqual({ level: 1, upright: 3 });
});

const neutralized = `receiver "Neutralized" {
${supplies}
  coil L1 { winding aerial 12 turns from GND to ANT
    winding grid 56 turns from GND to V1.grid }
  condenser C1 variable .00035 mfd across L1.grid
  tube V1 01-A { filament from A- to A+ plate to L2.plate.start }
  coil L2 { winding plate 12 turns centre to B+90
    winding grid 90 turns from GND to V2.grid }
  condenser N1 neutralizing 2 to 12 mmfd from L2.plate.finish to V1.grid
  condenser C2 variable .00035 mfd across L2.grid
  tube V2 01-A { filament from A- to A+ }
  phones PH1 2000 ohms from V2.plate to B+90
}`;

it('a neutralizing condenser is led straight down to the far end of the winding', async () => {
  expect(await piecesOf(neutralized, 'L2.plate.finish')).toEqual({ level: 1, upright: 1 });
});

it('and to the grid without a step aside', async () => {
  // The grid's line in two pieces or one, the condenser's lead, and the leads of coil and C1.
  const { level, upright } = await piecesOf(neutralized, 'C1.stator');
  expect(level).toBeLessThanOrEqual(3);
  expect(upright).toBeLessThanOrEqual(3);
});
