import type { Circuit } from '@setwright/circuit';
import { describe, expect, it } from 'vitest';
import { effectOfFault } from '../src/effects/effect-of.ts';
import { soundSet } from '../src/effects/sound-set.ts';
import { faultsOf } from '../src/faults/faults-of.ts';
import { exampleSet } from './example-set.ts';

/** The same set as it is traced wire by wire, without a word of stages. */
function withoutStages(circuit: Circuit): Circuit {
  const parts = circuit.parts.map((part) => ({ ...part, stage: undefined }));
  return {
    ...circuit,
    stages: [],
    parts,
    partNamed: new Map(parts.map((part) => [part.name, part])),
  };
}

/** What is heard of some faults of a set. */
function heardOf(circuit: Circuit, ids: readonly string[]): readonly (readonly string[])[] {
  const sound = soundSet(circuit, { bench: undefined });
  const faults = faultsOf(circuit);
  return ids.map((id) => {
    const fault = faults.find((each) => each.id === id);
    if (!fault) throw new Error(`the set has no fault ${id}`);
    return effectOfFault(sound, fault).heard;
  });
}

describe('a set traced wire by wire', () => {
  it.each([
    ['five-tube-trf', ['weak V5 50 %', 'gas V5', 'gas V1', 'weak C 0 V', 'open C-4.5', 'open V4']],
    ['push-pull', ['gas V4', 'open V4', 'open V5', 'weak V5 50 %']],
  ])('is heard as the same set with its stages said: %s', (name, ids) => {
    const set = exampleSet(name);
    expect(heardOf(withoutStages(set), ids)).toEqual(heardOf(set, ids));
  });
});
