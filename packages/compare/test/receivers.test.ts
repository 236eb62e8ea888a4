import { readReceivers } from '@setwright/language';
import { expect, it } from 'vitest';
import { pairedSets } from '../src/index.ts';
import { cove } from './texts.ts';

const circuitsOf = (text: string) => readReceivers(text, 'sets.receiver').circuits;
const paired = (olds: string, nows: string) =>
  pairedSets(circuitsOf(olds), circuitsOf(nows)).map(({ old, now }) => [
    old?.title ?? null,
    now?.title ?? null,
  ]);

const skiff = cove;
const punt = 'receiver "Punt" {\n  coil LX { winding w 240 uH }\n  crystal CR9\n}\n';

it('sets are paired by their titles, whatever their order', () => {
  expect(paired(skiff + punt, punt + skiff)).toEqual([
    ['Punt', 'Punt'],
    ['Lantern Cove Skiff', 'Lantern Cove Skiff'],
  ]);
});

it('a set under a new title is known by its parts', () => {
  expect(paired(skiff + punt, punt + skiff.replace('Skiff', 'Yawl'))).toEqual([
    ['Punt', 'Punt'],
    ['Lantern Cove Skiff', 'Lantern Cove Yawl'],
  ]);
});

it('one set alone in each file is the same one', () => {
  expect(paired(skiff, punt)).toEqual([['Lantern Cove Skiff', 'Punt']]);
});

it('a set that only one file has is new or gone', () => {
  expect(paired(skiff, skiff + punt)).toEqual([
    ['Lantern Cove Skiff', 'Lantern Cove Skiff'],
    [null, 'Punt'],
  ]);
  expect(paired(skiff + punt, skiff)).toEqual([
    ['Lantern Cove Skiff', 'Lantern Cove Skiff'],
    ['Punt', null],
  ]);
  expect(paired('', punt)).toEqual([[null, 'Punt']]);
});
