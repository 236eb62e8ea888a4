import { conductionOf } from '@setwright/circuit';
import { expect, it } from 'vitest';
import { studyOf } from '../../src/study.ts';
import { leastOhms } from '../../src/wiring/least-ohms.ts';
import { circuitOf } from '../support.ts';

const circuit = circuitOf(`receiver "x" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  bus X
  resistor R1 10 ohms from A+ to X
  resistor R2 3 ohms from A+ to R3.start
  resistor R3 4 ohms to X
}`);
const conduction = conductionOf(circuit, studyOf(circuit).on.settings);
const junctionOf = (id: string): number => circuit.endNamed.get(id)?.junction ?? -1;
const ohmsOf = ({ direct }: { direct: { kind: string; ohms?: number | undefined } }) =>
  direct.kind === 'blocks' ? undefined : (direct.ohms ?? 0);

it('the way of fewest ohms is taken, though it passes more parts, and its volts are counted', () => {
  const way = leastOhms(conduction, [junctionOf('A.A-')], ohmsOf, 100).at(junctionOf('X'));
  expect(way?.ohms).toBe(7);
  expect(way?.volts).toBe(6);
  expect(way?.steps().map(({ part }) => part)).toEqual(['A', 'R2', 'R3']);
});

it('no way is followed beyond the most', () => {
  const near = leastOhms(conduction, [junctionOf('A.A-')], ohmsOf, 5);
  expect(near.at(junctionOf('X'))).toBeUndefined();
  expect(near.at(junctionOf('R3.start'))?.ohms).toBe(3);
});
