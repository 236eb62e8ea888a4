import { describe, expect, it } from 'vitest';
import { drawCircuit, layoutEngine, type PlacedSymbol, type Scene } from '../src/index.ts';
import { circuitOf } from './examples.ts';
import { hardFaults } from './hard.ts';

const engine = layoutEngine();

const set = (filaments: string): string => `receiver "Filaments" {
  battery A storage { tap A- tap A+ 6 V }
  battery B dry { tap B- tap B+90 }
  post ANT aerial
  post GND ground
  bus NEG
  wire B- to A- to GND
  switch S1 from A- to NEG closed
  coil L1 { winding aerial 10 turns from GND to ANT
    winding grid 50 turns from GND to V1.grid }
  transformer T1 ratio 1 to 3 { winding primary 14 H from V1.plate to B+90
    winding secondary 50 H from GND to V2.grid }
  phones PH1 2000 ohms from V2.plate to B+90
${filaments}
}`;

async function drawn(filaments: string): Promise<Scene> {
  const circuit = circuitOf(set(filaments));
  const scene = await drawCircuit(circuit, engine);
  expect(hardFaults(circuit, scene)).toEqual([]);
  return scene;
}

const standing = ({ symbols }: Scene, part: string, symbol?: string): PlacedSymbol =>
  symbols.find((each) => each.part === part && (!symbol || each.symbol === symbol))!;
const filamentOf = (scene: Scene, tube: string): PlacedSymbol => standing(scene, tube, 'filament');

describe('what is in series in a filament lead', () => {
  it('stands in one line below the filament: rheostat and switch', async () => {
    const scene = await drawn(`  tube V1 01-A { filament from NEG to A+ }
  tube V2 01-A { filament from RH2 to A+ }
  rheostat RH2 20 ohms from V2F
  bus V2F
  switch S3 from NEG to V2F closed`);
    const [filament, rheostat, lever] = [
      filamentOf(scene, 'V2'),
      standing(scene, 'RH2'),
      standing(scene, 'S3'),
    ];
    expect(rheostat.at.x).toBe(filament.at.x);
    expect(rheostat.at.y).toBeGreaterThan(filament.at.y);
    expect(lever.at.y).toBeGreaterThan(rheostat.at.y);
    expect(lever.pins.map(({ at }) => at.x)).toEqual([filament.at.x, filament.at.x]);
    expect(scene.labels.some(({ text }) => text === 'V2F')).toBe(true);
  });

  it('stands above it as well', async () => {
    const scene = await drawn(`  tube V1 01-A { filament from NEG to A+ }
  tube V2 01-A { filament from NEG to RH2 }
  rheostat RH2 20 ohms from F2
  fuse F2 1 A to A+`);
    expect(standing(scene, 'RH2').at.y).toBeLessThan(filamentOf(scene, 'V2').at.y);
    expect(standing(scene, 'F2').at.y).toBeLessThan(standing(scene, 'RH2').at.y);
  });

  it('stands below its own filament though it shares a switch with another', async () => {
    const scene = await drawn(`  tube V1 01-A { filament from RH1 to A+ }
  tube V2 01-A { filament from RH2 to A+ }
  rheostat RH1 20 ohms from OWN
  rheostat RH2 20 ohms from OWN
  bus OWN
  switch S3 from NEG to OWN closed`);
    for (const [tube, rheostat] of [
      ['V1', 'RH1'],
      ['V2', 'RH2'],
    ] as const) {
      expect(standing(scene, rheostat).at.x).toBe(filamentOf(scene, tube).at.x);
    }
  });

  it('is not what lies across the filament of another tube', async () => {
    const scene = await drawn(`  tube V1 99 { filament from NEG }
  tube V2 99 { filament from V1.filament+ to A+ }
  resistor R5 500 ohms from V1.filament- to V1.filament+`);
    expect(standing(scene, 'R5').at.x).not.toBe(filamentOf(scene, 'V2').at.x);
  });
});

it.each([
  ['V1.grid', []],
  ['V1.filament-', ['V1 F−']],
])(
  'a line of filaments is named where something else goes by its name: a condenser to %s',
  async (to, names) => {
    const scene = await drawn(`  tube V1 01-A { filament from RH1 to A+ }
  tube V2 01-A { filament from RH1 to A+ }
  rheostat RH1 20 ohms from A-
  condenser C9 .001 mfd from V2.plate to ${to}`);
    const said = scene.labels.filter(({ text }) => text === 'V1 F−').map(({ text }) => text);
    expect([...new Set(said)]).toEqual(names);
  },
);
