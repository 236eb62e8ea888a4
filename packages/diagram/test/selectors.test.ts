import { describe, expect, it } from 'vitest';
import { drawCircuit, layoutEngine, type Scene } from '../src/index.ts';
import { circuitOf } from './examples.ts';
import { hardFaults } from './hard.ts';

const engine = layoutEngine();

const looseCoupler = `receiver "Loose coupler" {
  post ANT aerial
  post GND ground
  coil L1 {
    winding primary 120 turns taps 20, 40, 60 from GND
    winding secondary 100 turns taps 25, 50, 75 from GND
  }
  selector S1 from ANT to L1.primary taps 20 to 60, L1.primary.finish set tap20
  selector S2 from C1.stator to L1.secondary.tap25, L1.secondary.tap50, L1.secondary.tap75,
    L1.secondary.finish set tap50
  condenser C1 variable .0005 mfd rotor to GND
  crystal X1 mineral to C1.stator whisker to PH1.start
  phones PH1 2000 ohms to GND
}`;

const twoSwitches = `receiver "Two switches on one coil" {
  post ANT aerial
  post GND ground
  coil L1 { winding main 120 turns taps 20, 40, 60, 80 from GND }
  selector S1 from ANT to L1.main.tap20, L1.main.tap40, L1.main.tap60 set tap40
  selector S2 from X1.mineral to L1.main.tap40, L1.main.tap60, L1.main.tap80, L1.main.finish set tap80
  crystal X1 whisker to PH1.start
  phones PH1 1000 ohms to GND
}`;

const withTickler = `receiver "A switch and a tickler" {
  battery A dry { tap A- tap A+ 1.5 V }
  battery B dry { tap B- tap B+22 22.5 V }
  post ANT aerial
  post GND ground
  wire B- to A- to GND
  coil L1 {
    winding main 70 turns taps 15, 30, 45, 60 from GND
    winding tickler 30 turns inside main from PH1.start to V1.plate
  }
  condenser C1 variable .0005 mfd from ANT to S1.arm
  selector S1 to L1.main.tap15, L1.main.tap30, L1.main.tap45, L1.main.tap60, L1.main.finish set tap30
  condenser C2 .00025 mfd from S1.arm to V1.grid
  leak R1 2 meg from V1.grid to A+
  tube V1 12 { filament from A- to A+ }
  phones PH1 2000 ohms to B+22
}`;

/** How far the studs of a selector stand from the middle of a winding, side by side with it. */
function studsBeside({ symbols }: Scene, selector: string, winding: string): number[] {
  const coil = symbols.find(({ part }) => part === winding)!;
  return symbols
    .filter(({ part, pins }) => part === selector && pins.length === 0)
    .filter(({ at }) => at.y >= coil.box.top - 10 && at.y <= coil.box.bottom + 10)
    .map(({ at }) => at.x - coil.at.x);
}

describe('the studs of a selector stand at the taps that they lead to', () => {
  it.each([
    ['of a primary at its left', looseCoupler, 'S1', 'L1.primary', [-22, -22, -22, -22]],
    ['of a secondary at its right', looseCoupler, 'S2', 'L1.secondary', [22, 22, 22, 22]],
    ['of a coil by itself, of the aerial', twoSwitches, 'S1', 'L1.main', [-22, -22, -22]],
    ['of a coil by itself, of the detector', twoSwitches, 'S2', 'L1.main', [22, 22, 22, 22]],
    ['of a coil with a tickler', withTickler, 'S1', 'L1.main', [-22, -22, -22, -22, -22]],
  ])('%s', async (_where, text, selector, winding, places) => {
    const circuit = circuitOf(text);
    const scene = await drawCircuit(circuit, engine);
    expect(hardFaults(circuit, scene)).toEqual([]);
    const found = studsBeside(scene, selector, winding);
    expect(found).toEqual(places);
  });

  it('a tickler stands over the plate though a selector leads its coil to the grid', async () => {
    const { symbols } = await drawCircuit(circuitOf(withTickler), engine);
    const [tickler, tube] = ['L1.tickler', 'V1'].map((name) =>
      symbols.find(({ part }) => part === name),
    );
    expect(tickler?.at.x).toBe(tube?.at.x);
  });
});
