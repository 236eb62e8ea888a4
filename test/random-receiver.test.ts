import { operatingPoint } from '@setwright/analysis';
import { type PartKindName, partKinds } from '@setwright/circuit';
import { readReceivers } from '@setwright/language';
import { describe, expect, it } from 'vitest';
import { type RandomMode, randomReceiver } from './support/random-receiver.ts';

const seeds = Array.from({ length: 100 }, (_, at) => at + 1);
const read = (seed: number, mode: RandomMode) =>
  readReceivers(randomReceiver(seed, { mode }), 'chance.receiver');

describe.each(['sane', 'unfinished', 'wild'] as const)('a %s receiver by chance', (mode) => {
  it('is the same for the same seed and another for another', () => {
    const texts = seeds.map((seed) => randomReceiver(seed, { mode }));
    expect(seeds.map((seed) => randomReceiver(seed, { mode }))).toEqual(texts);
    expect(new Set(texts).size).toBe(seeds.length);
  });

  it('has every kind of part sooner or later', () => {
    const kinds = new Set<PartKindName>(
      seeds.flatMap((seed) =>
        read(seed, mode).circuits.flatMap(({ parts }) => parts.map(({ kind }) => kind)),
      ),
    );
    expect(Object.keys(partKinds).filter((kind) => !kinds.has(kind as PartKindName))).toEqual([]);
  });
});

it.each(['sane', 'unfinished'] as const)('a %s receiver is read without an error', (mode) => {
  const said = seeds.flatMap((seed) => {
    const { circuits, remarks } = read(seed, mode);
    return [...remarks, ...circuits.flatMap((circuit) => circuit.remarks)]
      .filter(({ severity }) => severity === 'error')
      .map(({ message }) => `${seed}: ${message}`);
  });
  expect(said).toEqual([]);
});

it('a sane receiver comes to rest under direct current, with every filament lit', () => {
  const wrong = seeds.flatMap((seed) => {
    const circuit = read(seed, 'sane').circuits[0]!;
    const point = operatingPoint(circuit);
    const dark = circuit.parts
      .filter(({ kind }) => kind === 'tube')
      .filter(({ name, tubeType }) => {
        const volts = point.voltage(`${name}.filament+`, `${name}.filament-`);
        return volts === undefined || volts < 0.5 * (tubeType?.filamentVolts ?? 0);
      })
      .map(({ name }) => `${seed}: ${name} is dark`);
    return point.converged ? dark : [`${seed}: does not come to rest`, ...dark];
  });
  expect(wrong).toEqual([]);
});
