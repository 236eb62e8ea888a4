import { expect, test } from 'vitest';
import { transformerUnloaded as check } from '../../src/checks/transformer-unloaded.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

const sound = check.passes;
/** The faulty set with something added at the free end of the secondary. */
const withLoad = (line: string): string =>
  check.fails.replace('    tube V2', `    ${line}\n    tube V2`);

test('a secondary with nothing but a condenser on it', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    'transformer-unloaded warning @ winding secondary 5000 ohms from C-4.5',
  ]);
  expect(findingsOf(check, check.fails)[0]?.message).toBe(
    'T2.secondary reaches no grid, phones, loudspeaker or resistor, though V1 drives T2.',
  );
});

test('a grid is load enough', () => {
  expect(heard(check, sound)).toEqual([]);
});

test('so are phones and a resistor', () => {
  expect(heard(check, withLoad('phones PH2 2000 ohms from T2.secondary.finish to C-4.5'))).toEqual(
    [],
  );
  expect(heard(check, withLoad('leak R1 .5 meg from T2.secondary.finish to C-4.5'))).toEqual([]);
});

test('a high rheostat across the secondary for volume leaves the grid its sound', () => {
  const text = sound.replace(
    '    tube V2',
    '    rheostat RH9 50 kilohms across T2.secondary\n    tube V2',
  );
  expect(heard(check, text)).toEqual([]);
});

test('a post or a jack may hold anything', () => {
  expect(heard(check, withLoad('post LS1 speaker\n    wire LS1 to T2.secondary.finish'))).toEqual(
    [],
  );
  expect(heard(check, withLoad('jack J1 from T2.secondary.finish to C-4.5'))).toEqual([]);
});

test('a selector that reaches the grid at another position is no fault', () => {
  const text = check.fails
    .replace('grid to C-4.5', 'grid to S1.arm')
    .replace('    tube V2', '    selector S1 to C-4.5, T2.secondary.finish\n    tube V2');
  expect(heard(check, text)).toEqual([]);
});

test('a second winding that is not used does no harm beside one that is', () => {
  const text = sound
    .replace('    condenser C3', '    condenser C4 .0001 mfd across T2.tertiary\n    condenser C3')
    .replace(
      'to B+90\n      winding secondary 5',
      'to B+90\n      winding tertiary 900 ohms from GND\n      winding secondary 5',
    );
  expect(heard(check, text)).toEqual([]);
});

test('a transformer that nothing drives is left alone', () => {
  const text = check.fails.replace(
    'winding primary 800 ohms from V1.plate to B+90',
    'winding primary 800 ohms from C-4.5 to GND',
  );
  expect(heard(check, text)).toEqual([]);
});

test('a winding with an end joined to nothing is another check’s business', () => {
  expect(
    heard(check, check.fails.replace('    condenser C3 .0001 mfd across T2.secondary\n', '')),
  ).toEqual([]);
});
