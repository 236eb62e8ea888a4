import { readFileSync } from 'node:fs';
import { readReceivers } from '@setwright/language';
import { describe, expect, it } from 'vitest';
import { allChecks } from '../src/all.ts';
import { stageOscillates } from '../src/checks/stage-oscillates.ts';
import { quickChecks } from '../src/quick.ts';
import { checkCircuit, checkedAndLeft } from '../src/run.ts';
import { edited } from './edited.ts';
import { circuitOf } from './support.ts';

const leftOf = (text: string, checks = quickChecks): string[] =>
  checkedAndLeft(circuitOf(text), checks).left.map(({ id }) => id);
const example = (name: string): string =>
  readFileSync(new URL(`../../../examples/${name}.receiver`, import.meta.url), 'utf8');
const radio = stageOscillates.passes;

describe('what the quick checks leave out', () => {
  it('is whether a radio stage squeals, where there is one', () => {
    expect(leftOf(radio)).toEqual(['stage-oscillates']);
    expect(leftOf(example('five-tube-trf'))).toEqual(['stage-oscillates']);
  });

  it('is how far regeneration reaches, where there is a tickler', () => {
    expect(leftOf(example('one-tube-regenerative'))).toEqual(['regeneration-out-of-reach']);
  });

  it('is nothing in a set that has neither', () => {
    expect(leftOf(example('crystal'))).toEqual([]);
  });

  it('is nothing where the text does not tell enough to reckon with', () => {
    expect(leftOf(example('bare-wiring'))).toEqual([]);
    expect(leftOf(edited(radio, ['tube V1 01-A', 'tube V1 XYZ']))).toEqual([]);
  });

  it('is nothing while a line or a size cannot be read: it would wait for that', () => {
    expect(leftOf(edited(radio, ['tunes 550 kc', 'wire NEG to\n  tunes 550 kc']))).toEqual([]);
    expect(leftOf(edited(radio, ['resistor R1 1500 ohms', 'resistor R1 1500']))).toEqual([]);
  });

  it('is nothing where what it finds is meant, in the whole set', () => {
    const meant = 'meant stage-oscillates "it is held down by hand"\n  tunes 550 kc';
    expect(leftOf(edited(radio, ['tunes 550 kc', meant]))).toEqual([]);
  });

  it('is nothing of what has been run', () => {
    expect(leftOf(radio, allChecks)).toEqual([]);
  });

  it('changes nothing of what is found', () => {
    const { circuits } = readReceivers(stageOscillates.fails, 'x.receiver');
    for (const circuit of circuits)
      expect(checkedAndLeft(circuit, quickChecks).checked).toEqual(checkCircuit(circuit));
  });
});

it('a check that takes long examines its own failing set', () => {
  for (const check of allChecks.filter(({ thorough }) => thorough))
    expect(leftOf(check.fails)).toContain(check.id);
});
