import { expect, it } from 'vitest';
import { drawCircuit, layoutEngine } from '../src/index.ts';
import { circuitOf } from './examples.ts';

const engine = layoutEngine();

/** A set that is worth about as much on a page in one row as in two. */
const impedance = (horn: string): string => `receiver "Impedance-coupled" {
  battery A storage { tap A- tap A+ 6 V }
  battery B dry { tap B- tap B+45 tap B+135 }
  battery C dry { tap C+ tap C-4.5 tap C-9 }
  post ANT aerial
  post GND ground
  wire B- to A- to C+ to GND
  bus NEG
  switch S1 from A- to NEG closed
  rheostat RH1 10 ohms from NEG
  coil L1 {
    winding aerial 12 turns from GND to ANT
    winding grid 52 turns from GND
    winding tickler 20 turns from CP to V1.plate
  }
  bus CP
  condenser C1 variable 14 to 365 mmfd rotor to GND stator to L1.grid.finish
  condenser C2 .00025 mfd from L1.grid.finish to V1.grid
  leak R1 2 meg from V1.grid to A+
  tube V1 01-A { filament from RH1 to A+ }
  condenser C3 variable 20 to 500 mmfd rotor to GND stator to CP
  choke CH1 100 H from CP to B+45
  condenser C4 .1 mfd from CP to V2.grid
  leak R2 .5 meg from V2.grid to C-4.5
  tube V2 01-A { filament from RH1 to A+ }
  choke CH2 100 H from V2.plate to B+135
  condenser C5 .1 mfd from V2.plate to V3.grid
  choke CH3 300 H from V3.grid to C-4.5
  tube V3 01-A { filament from RH1 to A+ }
  choke CH4 100 H from V3.plate to B+135
  condenser C6 .1 mfd from V3.plate to V4.grid
  choke CH5 300 H from V4.grid to C-9
  tube V4 12-A { filament from RH1 to A+ }
  horn H1 ${horn} from V4.plate to B+135
}`;

it('a value with more figures does not break a set into other rows', async () => {
  const heights = async (horn: string): Promise<Map<string, number>> => {
    const { symbols } = await drawCircuit(circuitOf(impedance(horn)), engine);
    return new Map(symbols.map(({ part, symbol, at }) => [`${part} ${symbol}`, at.y]));
  };
  expect(await heights('12345.6 ohms')).toEqual(await heights('1500 ohms'));
});
