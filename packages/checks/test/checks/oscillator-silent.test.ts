import { expect, test } from 'vitest';
import { oscillatorSilent as check } from '../../src/checks/oscillator-silent.ts';
import { superheterodyneExample } from '../../src/examples/superheterodyne-example.ts';
import { edited } from '../edited.ts';
import { circuitOf, findingsOf, told } from '../support.ts';
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

/** The oscillator with so many turns in its plate, so far from those of its grid. */
const loosely = (plateTurns: number, inches: number): string =>
  edited(superheterodyneExample({ plateTurns }), [
    'beside grid spaced 1/8 in',
    `beside grid spaced ${inches} in`,
  ]);

test('one turn two inches off feeds back less than the circuit loses', () => {
  const text = loosely(1, 2);
  const findings = findingsOf(check, text);
  expect(told(text, findings)).toEqual([
    'oscillator-silent error @ winding plate 1 turns of 26 DCC beside grid spaced 2 in from V2.plate to B+67',
  ]);
  expect(findings[0]?.parts).toEqual(['L1.plate', 'V2']);
});

test('what oscillates in a part of its range alone is a warning, with the place', () => {
  const [only, ...more] = findingsOf(check, loosely(2, 1));
  expect(more).toEqual([]);
  expect(only?.severity).toBe('warning');
  expect(only?.message).toBe('The oscillator V2 does not oscillate with L1.grid tuned to 600 kc.');
});

test('the turns that the finding asks for make it oscillate', () => {
  const cure = findingsOf(check, loosely(2, 1))[0]?.cure ?? '';
  const turns = Number(/about (\d+) turns where it has 2/.exec(cure)?.[1]);
  expect(turns).toBeGreaterThan(2);
  expect(heard(check, loosely(turns, 1))).toEqual([]);
});

test('a still oscillator with a floating grid is told of by its grid', () => {
  const text = edited(loosely(1, 2), [
    'grid to L1.grid.finish',
    'grid to C30.finish\n    }\n    condenser C30 .00025 mfd from L1.grid.finish\n    bus SPARE {',
  ]).replace('bus SPARE {\n    }', 'bus SPARE');
  expect(circuitOf(text).remarks.filter(({ severity }) => severity === 'error')).toEqual([]);
  expect(findingsOf(check, text)).toEqual([]);
});

test('a still oscillator of unknown tube is not judged', () => {
  expect(heard(check, edited(loosely(1, 2), ['tube V2 01-A', 'tube V2']))).toEqual([]);
});

test('the oscillator of the example oscillates over its whole range', () => {
  expect(heard(check, superheterodyneExample({}))).toEqual([]);
});
