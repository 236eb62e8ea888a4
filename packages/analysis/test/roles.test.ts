import { type Circuit, rolesOf } from '@setwright/circuit';
import { describe, expect, it } from 'vitest';
import { operatingPoint, response } from '../src/index.ts';
import { exampleSets } from './reading-set.ts';

/** The set as it would be traced wire by wire, in no stages. */
function withoutStages(circuit: Circuit): Circuit {
  const parts = circuit.parts.map((part) => ({ ...part, stage: undefined }));
  const partNamed = new Map(parts.map((part) => [part.name, part]));
  return { ...circuit, stages: [], parts, partNamed };
}

const tubesOf = ({ parts }: Circuit) => parts.filter(({ kind }) => kind === 'tube');

/** A wiring does not tell a last audio stage from one before, nor a first radio stage from a later. */
const alike: Readonly<Record<string, string>> = { output: 'audio', intermediate: 'radio' };

/** Tubes of which wiring alone does not tell what their stage says. */
const untold: Readonly<Record<string, string>> = {
  'superheterodyne V1': 'a mixer is a detector whose grid an oscillator reaches',
  'superheterodyne V2': 'an oscillator has its coils on grid and plate as a radio stage has',
  'reflex V1': 'audio comes to the cold end of its grid winding',
};

describe('what a tube is for', () => {
  it.each([...exampleSets])('is told by its wiring as by its stage: %s', (name, circuit) => {
    const bare = withoutStages(circuit);
    const told = tubesOf(circuit).filter((tube) => !untold[`${name} ${tube.name}`]);
    const byStage = told.map((tube) => rolesOf(circuit, tube).map((role) => alike[role] ?? role));
    const byWiring = told.map(({ name: tube }) => {
      const part = bare.partNamed.get(tube);
      return part && rolesOf(bare, part);
    });
    expect(byWiring).toEqual(byStage);
  });

  it('lets the signal of a set that was traced wire by wire end at its detector', () => {
    const circuit = exampleSets.get('five-tube-trf') as Circuit;
    const stagesOf = (set: Circuit) =>
      response(set, operatingPoint(set), { stations: [1e6] }).stations.map(({ stages }) =>
        stages?.map(({ tube }) => tube),
      );
    expect(stagesOf(withoutStages(circuit))).toEqual([['V1', 'V2', 'V3']]);
  });
});
