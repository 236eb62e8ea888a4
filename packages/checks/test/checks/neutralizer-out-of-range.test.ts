import { expect, test } from 'vitest';
import { neutralizerOutOfRange as check } from '../../src/checks/neutralizer-out-of-range.ts';
import { neutralizedExample } from '../../src/examples/neutralized-example.ts';
import { edited } from '../edited.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

test('a condenser too large at its least cannot balance', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    'neutralizer-out-of-range warning @ condenser CN1 neutralizing 20 to 60 mmfd from V1.grid to L2.grid.tap7',
  ]);
  const [finding] = findingsOf(check, check.fails);
  expect(finding?.message).toMatch(/it takes about (8|9|10)(\.\d)? mmfd\.$/);
  expect(finding?.cure).toContain('fewer turns of L2.grid');
});

test('a condenser too small at its most cannot either', () => {
  const [finding] = findingsOf(check, neutralizedExample({ range: '.5 to 3 mmfd' }));
  expect(finding?.cure).toContain('more turns of L2.grid');
});

test('a tap with a third of the turns wants about three times the capacity', () => {
  const text = neutralizedExample({ range: '2 to 10 mmfd' })
    .replaceAll('tap 7', 'tap 2')
    .replaceAll('tap7', 'tap2');
  expect(findingsOf(check, text)[0]?.message).toMatch(/it takes about (2|3)\d mmfd\.$/);
});

test('what balances may lie near an end of the range', () => {
  expect(heard(check, neutralizedExample({ range: '10 to 40 mmfd' }))).toEqual([]);
});

test('an unknown range, coil or tube is not judged', () => {
  expect(heard(check, neutralizedExample({ range: '' }))).toEqual([]);
  expect(heard(check, check.fails.replaceAll('form 3 in', ''))).toEqual([]);
  expect(
    findingsOf(check, edited(check.fails, ['tube V1 01-A', 'tube V1 Q9'])).map(
      (each) => each.message,
    ),
  ).toEqual([]);
});

test('a winding of the wrong sign is the business of neutralizing-sense', () => {
  const text = neutralizedExample({ range: '20 to 60 mmfd', plateEnds: 'from B+67 to V1.plate' });
  expect(heard(check, text)).toEqual([]);
});
