import { expect, test } from 'vitest';
import { bandNotCovered as check } from '../../src/checks/band-not-covered.ts';
import { superheterodyneExample } from '../../src/examples/superheterodyne-example.ts';
import { edited } from '../edited.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

test('too few turns miss the long-wave end; the finding says by how much and what to wind', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    'band-not-covered warning @ winding grid 40 turns of 26 DCC beside aerial spaced 1/4 in from GND',
  ]);
  const [finding] = findingsOf(check, check.fails);
  expect(finding?.message).toMatch(
    /^L1\.grid with C1 tunes down to 6\d\d kc only, 2\d % short of 550 kc\.$/,
  );
  expect(finding?.cure).toMatch(/^Make L1\.grid 21\d µH where it has 1[34]\d µH, about 5\d turns/);
});

test('the turns that are advised cover the band', () => {
  const turns = /about (\d+) turns/.exec(findingsOf(check, check.fails)[0]?.cure ?? '')?.[1];
  expect(heard(check, edited(check.fails, ['40 turns', `${turns} turns`]))).toEqual([]);
});

test('too many turns miss the short-wave end', () => {
  const text = edited(check.passes, ['58 turns', '80 turns']);
  expect(findingsOf(check, text)[0]?.message).toMatch(/tunes up to 1\d\d\d kc only/);
  expect(findingsOf(check, text)[0]?.cure).toContain('Make L1.grid');
});

test('a condenser that spans too little is to be changed itself', () => {
  const text = edited(check.passes, ['14 to 365 mmfd', '14 to 150 mmfd']);
  expect(findingsOf(check, text)[0]?.cure).toMatch(/^Use a condenser with about .* more for C1/);
});

test('a set that does not say what it tunes cannot miss it', () => {
  expect(heard(check, edited(check.fails, ['  tunes 550 kc to 1500 kc\n', '']))).toEqual([]);
});

test('missing by less than the reckoning may be out is no fault', () => {
  // 52 turns come down to about 557 kc, a little over 1 % short.
  expect(heard(check, edited(check.passes, ['58 turns', '52 turns']))).toEqual([]);
});

test('a wave trap in the aerial lead is made for one wave', () => {
  const text = edited(
    check.passes,
    ['from GND to ANT', 'from GND to L9.trap.finish'],
    [
      '    condenser C1',
      `    coil L9 {
      winding trap 60 uH from ANT
    }
    condenser C9 variable 14 to 365 mmfd across L9.trap
    condenser C1`,
    ],
  );
  expect(heard(check, text)).toEqual([]);
});

test('intermediate circuits and oscillators have bands of their own', () => {
  expect(heard(check, superheterodyneExample({ oscillatorTurns: 30 }))).toEqual([]);
});

test('two taps reach the band together', () => {
  const tapped = edited(
    check.passes,
    ['58 turns of 26 DCC beside', '80 turns of 26 DCC taps 58 beside'],
    ['stator to L1.grid.finish', 'stator to TOP'],
    ['from L1.grid.finish to V1.grid', 'from TOP to V1.grid'],
    [
      '    condenser C1',
      '    bus TOP\n    selector S1 from TOP to L1.grid.finish, L1.grid.tap58\n    condenser C1',
    ],
  );
  expect(heard(check, tapped)).toEqual([]);
  // With no position that reaches the short waves it is a fault still.
  expect(
    findingsOf(check, edited(tapped, ['taps 58', 'taps 76'], ['tap58', 'tap76'])),
  ).toHaveLength(1);
});

test('a first circuit with a tapped aerial winding is only told as information', () => {
  const text = edited(check.fails, [
    '10 turns of 26 DCC from GND to ANT',
    '10 turns of 26 DCC tap 5 to ANT from GND',
  ]);
  expect(findingsOf(check, text).map(({ severity }) => severity)).toEqual(['information']);
});

test('a coil of which not enough is said is not judged', () => {
  expect(heard(check, edited(check.fails, ['40 turns of 26 DCC', '40 turns']))).toEqual([]);
});
