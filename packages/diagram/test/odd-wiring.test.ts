import { expect, it } from 'vitest';
import { drawCircuit, layoutEngine } from '../src/index.ts';
import { circuitOf } from './examples.ts';
import { hardFaults } from './hard.ts';

const engine = layoutEngine();

/** A tube of a chain, its filament as told, with a transformer from the tube before it. */
const stage = (
  n: number,
  filament: string,
  kind = 'air',
): string => `  tube V${n} 01-A { ${filament} }
  transformer T${n} ${kind} { winding primary 6 mH from V${n - 1}.plate to B+45
    winding secondary 12 mH from NEG to V${n}.grid }`;

async function faultsOfText(text: string, rows: 'page' | number): Promise<string[]> {
  const circuit = circuitOf(text);
  return hardFaults(circuit, await drawCircuit(circuit, engine, { rows }));
}

it('a lead that leaves a winding above does not come down through it', async () => {
  const text = `receiver "A plate on the negative line" {
  bus NEG
  battery B dry { tap B+45 }
  tube V1 22
  wire V1.plate to NEG
  tube V2 99 { filament from NEG to B+45 }
${stage(3, 'filament to B+45')}
${stage(4, '', 'ratio 1 to 3')}
${stage(5, 'filament from NEG to B+45')}
${stage(6, 'filament from NEG to R6.start')}
  transformer T7 air { winding primary 6 mH from V6.plate to B+45
    winding secondary 12 mH from NEG to V7.grid }
}`;
  expect(await faultsOfText(text, 'page')).toEqual([]);
});

it('a plate on a filament supply leaves its primary joined to that supply', async () => {
  const text = `receiver "A plate on a filament supply" {
  bus NEG
  battery A storage { tap A-
    tap A+ 6 V
    tap B+90 }
  coil L1 { winding a 40 turns from A+ to B+90
    winding b 40 turns from B+45 to NEG
    winding c 40 turns from GND to GND
    winding d 40 turns from N2 to A+ }
  tube V1 22
  wire V1.grid to NEG
  wire V1.plate to A+
  wire V1.screen to A-
  tube V7 01-A { filament from R1.finish to A+ }
  transformer T8 air { winding primary 6 mH from V7.plate to B+45
    winding secondary 12 mH from NEG to V8.grid }
  resistor R9 4 ohms to A+
${stage(9, 'filament from NEG to R9.start')}
${stage(10, 'filament from R1.finish to A+')}
${stage(11, 'filament to A+')}
  resistor R11 10 ohms from NEG to V11.filament-
${stage(12, 'filament from R1.finish to A+')}
}`;
  expect(await faultsOfText(text, 2)).toEqual([]);
});

it('the name of a line stands over it where the way from the row above comes down', async () => {
  const text = `receiver "Heated from the B supply" {
  eliminator B {
    tap B+45
    tap B+90
  }
  resistor R1 50 kilohms 20 % from B+45 to B-
  loop LP1 180 uH from B+45 to NEG
  tube V1 33
  wire V1.filament+ to B+90
  tube V2 01-A { filament from NEG to B+45 }
  transformer T11 ratio 1 to 3 { winding primary 6 mH from V10.plate to B+45
    winding secondary 12 mH from NEG to V11.grid }
  tube V12 99 { filament from R12.finish to B+45 }
  rheostat R12 20 ohms from NEG
  transformer T12 air { winding primary 6 mH from V11.plate to B+45
    winding secondary 12 mH from NEG to V12.grid }
  tube V13 30 { filament from NEG to R13.start }
  resistor R13 4 ohms to B+45
  transformer T13 ratio 1 to 3 { winding primary 6 mH from V12.plate to B+45
    winding secondary 12 mH from NEG to V13.grid }
  tube V14 01-A { filament from R14.finish to B+45 }
  rheostat R14 20 ohms from NEG
  transformer T14 air { winding primary 6 mH from V13.plate to B+45
    winding secondary 12 mH from NEG to V14.grid }
}`;
  expect(await faultsOfText(text, 'page')).toEqual([]);
});
