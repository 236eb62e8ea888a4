import { readReceivers } from '@setwright/language';
import { describe, expect, it } from 'vitest';
import { standingOf } from '../src/chart/rest-source.ts';
import { edited } from '../src/edits/edited.ts';
import { catalogue } from '../src/faults/faults-of.ts';
import { calledSo, editsOf, faultsOf, lineOf } from '../src/index.ts';
import { exampleSet, exampleText } from './example-set.ts';

const examples = [
  'crystal',
  'one-tube-regenerative',
  'two-tube',
  'reflex',
  'five-tube-trf',
  'neutralized-five',
  'potentiometer-stabilized-trf',
  'superheterodyne',
  'resistance-coupled',
  'push-pull',
  'screen-grid',
  'heater-tubes',
  'dry-cell-portable',
  'bare-wiring',
];

describe('the single faults of a set', () => {
  it('are more than 150 in a set of five tubes', () =>
    expect(faultsOf(exampleSet('five-tube-trf')).length).toBeGreaterThan(150));

  it('have each an id of their own', () => {
    for (const name of examples) {
      const ids = faultsOf(exampleSet(name)).map(({ id }) => id);
      expect(new Set(ids).size).toBe(ids.length);
    }
  });

  it('can all be done to their set', () => {
    for (const name of examples) {
      const circuit = exampleSet(name);
      const standing = standingOf(circuit, { laws: new WeakMap(), wires: new WeakMap() });
      const refused = faultsOf(circuit).flatMap(({ edits }) => edited(standing, edits).refused);
      expect(refused).toEqual([]);
    }
  });

  it('come from every row of the catalogue that the examples have a part for', () => {
    const kinds = new Set(
      examples.flatMap((name) => faultsOf(exampleSet(name)).map((f) => f.kind)),
    );
    const never = catalogue.map(({ kind }) => kind).filter((kind) => !kinds.has(kind));
    // No example has a lead whose resistance counts.
    expect(never).toEqual(['broken-lead']);
  });

  it('say of each how common it is, and where that is from', () => {
    for (const { prior, weight, source } of faultsOf(exampleSet('five-tube-trf'))) {
      expect(['very common', 'common', 'rare']).toContain(prior);
      expect(weight).toBeGreaterThan(0);
      expect(source).toBe('common practice');
    }
  });
});

describe('the id of a fault', () => {
  it.each(examples)('is a line of a suppose that reads back as the same fault: %s', (name) => {
    const circuit = exampleSet(name);
    const called = (each: string) => calledSo(circuit, each);
    const sayable = faultsOf(circuit).filter(({ edits }) => edits.length > 0);
    const lines = sayable.map(({ id }) => `    suppose "${id}" {\n      ${id}\n    }`);
    const text = exampleText(name);
    const end = text.lastIndexOf('}');
    const { circuits } = readReceivers(`${text.slice(0, end)}${lines.join('\n')}\n}\n`, name);
    expect(circuits[0]?.remarks.map(({ message }) => message)).toEqual([]);
    const read = (circuits[0]?.supposes ?? []).slice(circuit.supposes.length);
    expect(read.map((suppose) => editsOf(suppose).map((edit) => lineOf(edit, called)))).toEqual(
      sayable.map(({ id }) => [id]),
    );
  });
});
