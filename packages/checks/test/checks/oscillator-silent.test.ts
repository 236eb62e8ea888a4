import { expect, test } from 'vitest';
import { oscillatorSilent as check } from '../../src/checks/oscillator-silent.ts';
import { superheterodyneExample } from '../../src/superheterodyne-example.ts';
import { edited } from '../edited.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

test('windings the same way round with plate and grid on their finishes cannot oscillate', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    'oscillator-silent error @ winding plate 24 turns of 26 DCC beside grid spaced 1/8 in from B+67 to V2.plate',
  ]);
  expect(findingsOf(check, check.fails)[0]?.parts).toEqual(['L1.plate', 'V2']);
});

test('the fix exchanges the ends of the plate winding', () => {
  expect(heard(check, afterFix(check, check.fails))).toEqual([]);
});

test('a pick-up coil left out of the mixer’s grid circuit couples nothing', () => {
  const text = edited(superheterodyneExample({ pickup: 'to SPARE', loopEnd: 'GND' }), [
    'bus LOOP',
    'bus SPARE',
  ]);
  const findings = findingsOf(check, text);
  expect(told(text, findings)).toEqual(['oscillator-silent error @ tube V2 01-A']);
  expect(findings[0]?.message).toBe(
    'Nothing couples the oscillator V2 with its coil L1 to the mixer V1.',
  );
});

test('a small condenser to the mixer’s grid is a coupling too', () => {
  const text = edited(superheterodyneExample({ pickup: 'to SPARE', loopEnd: 'GND' }), [
    'bus LOOP',
    'bus SPARE\n  condenser C20 10 mmfd from V2.grid to V1.grid',
  ]);
  expect(heard(check, text)).toEqual([]);
});

test('a winding of unknown make is not judged', () => {
  expect(heard(check, edited(check.fails, ['form 2 1/2 in', '']))).toEqual([]);
});

test('a winding that turns is to be had both ways', () => {
  expect(
    heard(check, superheterodyneExample({ plateEnds: 'set 50 % from B+67 to V2.plate' })),
  ).toEqual([]);
});

test('one tapped coil has its sense from its connections', () => {
  const text = edited(
    superheterodyneExample({}),
    [
      'winding grid 44 turns of 26 DCC from GND',
      'winding grid 68 turns of 26 DCC tap 24 to GND from V2.plate',
    ],
    [
      '      winding plate 24 turns of 26 DCC beside grid spaced 1/8 in from V2.plate to B+67\n',
      '',
    ],
    ['beside plate spaced 1/4 in from GND', 'beside grid spaced 1/4 in from GND'],
  );
  expect(findingsOf(check, text)).toEqual([]);
});

test('a tube that is oscillator and mixer in one needs no coupling', () => {
  const text = edited(
    superheterodyneExample({ pickup: 'to SPARE', loopEnd: 'GND' }),
    ['bus LOOP', 'bus SPARE'],
    ['oscillator stage OSC', 'mixer oscillator stage OSC'],
  );
  expect(findingsOf(check, text)).toEqual([]);
});
