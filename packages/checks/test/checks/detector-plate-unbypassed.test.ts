import { expect, test } from 'vitest';
import { detectorPlateUnbypassed as check } from '../../src/checks/detector-plate-unbypassed.ts';
import { regenerativeExample } from '../../src/examples/regenerative-example.ts';
import { edited } from '../edited.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

test('a tickler into a plate resistor with no bypass gets a third of the radio current', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    'detector-plate-unbypassed warning @ tube V1 01-A',
  ]);
  expect(findingsOf(check, check.fails)[0]?.message).toBe(
    'Behind L1.tickler the radio current of V1 has only R2 and stray capacity: 29 kilohms at 550 kc.',
  );
});

test('a small bypass behind the tickler serves', () => {
  expect(heard(check, check.passes)).toEqual([]);
});

test('a radio choke behind the tickler needs its bypass', () => {
  const text = regenerativeExample({
    behind:
      'choke CH1 85 mH 200 ohms from TIC to PHX\n    bus PHX\n    phones PH1 2000 ohms from PHX to B+45',
  });
  expect(findingsOf(check, text)).toHaveLength(1);
});

test('phones or a transformer let it pass by their own capacity', () => {
  expect(
    heard(check, regenerativeExample({ behind: 'phones PH1 2000 ohms from TIC to B+45' })),
  ).toEqual([]);
  const transformer = regenerativeExample({
    behind:
      'transformer T1 ratio 1 to 3 {\n      winding primary 14 H 800 ohms from TIC to B+45\n      winding secondary 5000 ohms\n    }',
  });
  expect(heard(check, transformer)).toEqual([]);
});

test('a detector without a tickler can do without', () => {
  const text = edited(
    check.fails,
    [
      '      winding tickler 16 turns of 30 DSC beside grid spaced 1/8 in from V1.plate to TIC\n',
      '',
    ],
    ['  bus TIC', '  bus TIC\n  wire TIC to V1.plate'],
  );
  expect(heard(check, text)).toEqual([]);
});

test('half of the radio current is enough', () => {
  expect(heard(check, edited(check.fails, ['R2 100 kilohms', 'R2 10 kilohms']))).toEqual([]);
});

test('a throttle condenser counts at its most', () => {
  const text = check.passes.replace('C3 .0003 mfd', 'C3 variable 15 to 250 mmfd');
  expect(heard(check, text)).toEqual([]);
});

test('a tube of unknown type is not judged', () => {
  expect(findingsOf(check, edited(check.fails, ['tube V1 01-A', 'tube V1 Q9']))).toEqual([]);
});
