import { expect, it } from 'vitest';
import { drawCircuit, layoutEngine } from '../src/index.ts';
import { circuitOf } from './examples.ts';

const engine = layoutEngine();

it('what is plugged into a jack has each end beside the spring that it meets', async () => {
  const circuit = circuitOf(`receiver "Plugged in" {
  battery A storage { tap A- tap A+ 6 V }
  battery B dry { tap B- tap B+90 }
  post ANT aerial
  post GND ground
  wire B- to A- to GND
  coil L1 { winding aerial 12 turns from GND to ANT
    winding grid 52 turns from GND to V1.grid }
  tube V1 01-A { filament from A- to A+ }
  jack J1 from V1.plate to B+90
  horn H1 2000 ohms into J1
}`);
  const { symbols } = await drawCircuit(circuit, engine);
  const yOf = (end: string): number =>
    symbols.flatMap(({ pins }) => pins).find((pin) => pin.end === end)!.at.y;
  const jack = circuit.partNamed.get('J1')!;
  for (const { from, to, closedAt } of jack.contacts) {
    if (closedAt.includes(0)) continue;
    const [own, other] = from.startsWith('J1.') ? [from, to] : [to, from];
    expect(Math.abs(yOf(own) - yOf(other)), `${own} and ${other}`).toBeLessThan(20);
  }
});
