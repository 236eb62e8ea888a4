import { expect, test } from 'vitest';
import { stepUpReversed as check } from '../../src/checks/step-up-reversed.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const sound = check.passes;
/** The second transformer written another way. */
const withT2 = (ratio: string, plate: string, grid: string): string =>
  sound
    .replace('transformer T2 ratio 1 to 3.5', `transformer T2 ${ratio}`)
    .replace('winding primary from V1.plate', `winding ${plate} from V1.plate`)
    .replace('winding secondary from C-4.5 to V2.grid', `winding ${grid} from C-4.5 to V2.grid`);

test('a transformer in back to front', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    'step-up-reversed warning @ transformer T2 ratio 1 to 3.5',
  ]);
  expect(findingsOf(check, check.fails)[0]?.message).toBe(
    'T2 steps down from V1 to V2: T2.secondary, with the more turns (3.5 to 1), is in the plate circuit.',
  );
});

test('the right way round', () => {
  expect(heard(check, sound)).toEqual([]);
});

test('the fix exchanges the windings', () => {
  const cured = afterFix(check, check.fails);
  expect(cured).toContain('winding secondary from C-4.5 to V2.grid');
  expect(heard(check, cured)).toEqual([]);
});

test('a ratio written the wrong way is cured in the text when the ohms say so', () => {
  const text = withT2('ratio 3.5 to 1', 'primary 800 ohms', 'secondary 5000 ohms');
  expect(findingsOf(check, text)[0]?.cure).toMatch(
    /^If the transformer is wired right, write ratio 1 to 3.5;/,
  );
  expect(findingsOf(check, text)[0]?.fixes).toHaveLength(1);
  expect(heard(check, afterFix(check, text))).toEqual([]);
});

test('without ohms both cures are offered', () => {
  const text = withT2('ratio 3.5 to 1', 'primary', 'secondary');
  expect(findingsOf(check, text)[0]?.fixes.map(({ title }) => title)).toEqual([
    'Change to ratio 1 to 3.5',
    'Exchange T2.primary and T2.secondary',
  ]);
  expect(heard(check, afterFix(check, text, 0))).toEqual([]);
});

test('where only the ohms are known they must differ by more than two', () => {
  expect(findingsOf(check, withT2('', 'primary 5000 ohms', 'secondary 800 ohms'))).toHaveLength(1);
  expect(heard(check, withT2('', 'primary 1500 ohms', 'secondary 800 ohms'))).toEqual([]);
});

test('turns tell it where there is no ratio', () => {
  expect(findingsOf(check, withT2('', 'primary 9000 turns', 'secondary 3000 turns'))).toHaveLength(
    1,
  );
});

test('the plate is found behind an air-core winding, and the grid behind a stopper', () => {
  const text = check.fails
    .replace('from V1.plate to B+90', 'from L2.plate.finish to B+90')
    .replace('to V2.grid', 'to R1.start')
    .replace(
      'tube V2 01-A',
      'coil L2 {\n      winding plate 10 turns from V1.plate\n    }\n    resistor R1 600 ohms to V2.grid\n    tube V2 01-A',
    );
  expect(findingsOf(check, text)).toHaveLength(1);
});

test('an output transformer may step down', () => {
  const text = sound.replace(
    'phones PH1 2000 ohms from V2.plate to B+90',
    'transformer T3 ratio 20 to 1 {\n      winding primary from V2.plate to B+90\n      winding secondary from GND to SP\n    }\n    bus SP\n    speaker SP1 15 ohms from SP to GND',
  );
  expect(heard(check, text)).toEqual([]);
});

test('so may a push-pull output transformer', () => {
  const text = sound.replace(
    'phones PH1 2000 ohms from V2.plate to B+90',
    'transformer T3 ratio 20 to 1 {\n      winding primary centre to B+90 from V2.plate to V1.plate\n      winding secondary from GND to SP\n    }\n    bus SP\n    speaker SP1 15 ohms from SP to GND',
  );
  expect(heard(check, text)).toEqual([]);
});

test('an input that matches two grids may step down', () => {
  const text = withT2('ratio 2 to 1', 'primary', 'secondary')
    .replace('from C-4.5 to V2.grid', 'centre to C-4.5 from V3.grid to V2.grid')
    .replace(
      'tube V2',
      'tube V3 01-A {\n      filament from A- to V2.filament+\n      plate to B+90\n    }\n    tube V2',
    );
  expect(heard(check, text)).toEqual([]);
});

test('a transformer that no plate drives may be anything', () => {
  expect(heard(check, sound.replace('T1 ratio 1 to 3', 'T1 ratio 3 to 1'))).toEqual([]);
});

test('where nothing is known nothing is said', () => {
  expect(heard(check, withT2('', 'primary', 'secondary'))).toEqual([]);
});
