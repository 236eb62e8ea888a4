import { expect, test } from 'vitest';
import { ticklerSense as check } from '../../src/checks/tickler-sense.ts';
import { regenerativeExample } from '../../src/examples/regenerative-example.ts';
import { edited } from '../edited.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

test('plate and grid on the finishes of windings the same way round work against each other', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    'tickler-sense warning @ winding tickler 16 turns of 30 DSC beside grid spaced 1/8 in from TIC to V1.plate',
  ]);
  expect(findingsOf(check, check.fails)[0]?.message).toBe(
    'L1.tickler works against the grid: with the grid on L1.grid.finish the plate of V1 must not be on L1.tickler.finish.',
  );
});

test('the fix exchanges the two ends', () => {
  expect(heard(check, afterFix(check, check.fails))).toEqual([]);
});

test('a reversed winding with its ends the other way round is right', () => {
  expect(heard(check, regenerativeExample({ tickler: 'reversed from TIC to V1.plate' }))).toEqual(
    [],
  );
  expect(
    findingsOf(check, regenerativeExample({ tickler: 'reversed from V1.plate to TIC' })),
  ).toHaveLength(1);
});

test('the grid on the other end turns the sense round as well', () => {
  const text = edited(
    check.fails,
    ['spaced 1/4 in from NEG', 'spaced 1/4 in to NEG'],
    ['stator to L1.grid.finish', 'stator to L1.grid.start'],
    ['from L1.grid.finish to V1.grid', 'from L1.grid.start to V1.grid'],
  );
  expect(heard(check, text)).toEqual([]);
});

test('a stated coupling tells the sense where the geometry does not', () => {
  const text = edited(
    check.fails,
    ['form 2 3/4 in\n', ''],
    ['58 turns of 26 DCC beside aerial spaced 1/4 in', '230 uH'],
    ['16 turns of 30 DSC beside grid spaced 1/8 in', '30 uH'],
    ['    condenser C1', '    condenser C1'],
  );
  expect(heard(check, text)).toEqual([]);
  const coupled = edited(text, [
    '      winding tickler',
    '      coupling tickler with grid 30 %\n      winding tickler',
  ]);
  expect(findingsOf(check, coupled)).toHaveLength(1);
});

test('a tickler that turns passes through both senses', () => {
  expect(heard(check, regenerativeExample({ tickler: 'set 40 % from TIC to V1.plate' }))).toEqual(
    [],
  );
});

test('in a radio stage it may be there to calm', () => {
  const text = edited(check.fails, ['detector stage', 'radio stage']);
  expect(findingsOf(check, text).map(({ severity }) => severity)).toEqual(['information']);
});

test('one tapped coil has its sense from its connections', () => {
  const text = edited(
    check.passes,
    [
      '58 turns of 26 DCC beside aerial spaced 1/4 in from NEG',
      '74 turns of 26 DCC tap 16 to NEG beside aerial spaced 1/4 in from TOP',
    ],
    [
      '      winding tickler 16 turns of 30 DSC beside grid spaced 1/8 in from V1.plate to TIC\n',
      '',
    ],
    ['  bus TIC', '  bus TIC\n  bus TOP\n  wire TOP to V1.plate'],
    [
      'condenser C3 .001 mfd from TIC to NEG',
      'condenser C3 .001 mfd from TIC to NEG\n    resistor R8 10 ohms from TIC to NEG',
    ],
  );
  expect(findingsOf(check, text)).toEqual([]);
});

test('an oscillator is the business of oscillator-silent', () => {
  expect(heard(check, edited(check.fails, ['detector stage', 'oscillator stage']))).toEqual([]);
});
