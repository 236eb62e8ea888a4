import { asOn, type Circuit, type Part } from '@setwright/circuit';
import { describe, expect, it } from 'vitest';
import { operatingPoint, restModel } from '../src/index.ts';
import { exampleSets } from './reading-set.ts';

const laws = new WeakMap();

/** The set with a part's ohms at so many times what they are. */
function withOhms(circuit: Circuit, name: string, times: number): Circuit {
  const changed = (part: Part): Part => {
    const { resistance } = part.values;
    if (part.name !== name || !resistance) return part;
    const value = { ...resistance, value: times * resistance.value };
    return { ...part, values: { ...part.values, resistance: value } };
  };
  const parts = circuit.parts.map(changed);
  return { ...circuit, parts, partNamed: new Map(parts.map((part) => [part.name, part])) };
}

/** A set whose controls stand where they are found, with its model. */
function modelled(name: string) {
  const circuit = exampleSets.get(name);
  if (!circuit) throw new Error(`there is no example ${name}`);
  const { settings, controls } = operatingPoint(circuit, asOn(circuit).settings, { laws });
  const held = new Map(
    controls.flatMap(({ part, ohms, travel }) =>
      travel === undefined ? [[part, ohms] as const] : [],
    ),
  );
  const model = restModel(circuit, settings, { held, laws });
  if (!model) throw new Error('the set has no model');
  const tubes = circuit.parts.filter(({ kind }) => kind === 'tube');
  const resistors = circuit.parts.filter(
    ({ kind, values }) => (kind === 'resistor' || kind === 'leak') && values.resistance,
  );
  return { circuit, settings, held, model, tubes, resistors };
}

const names = ['one-tube-regenerative', 'five-tube-trf', 'resistance-coupled', 'screen-grid'];

describe.each(names)('%s at rest with a part changed', (name) => {
  const { circuit, settings, held, model, tubes, resistors } = modelled(name);
  const ends = tubes.flatMap((tube) =>
    tube.ends.map(({ id }) => [id, `${tube.name}.filament-`] as const),
  );

  it('has the volts of working it out anew, whichever resistor is at three times its ohms', () => {
    for (const { name: resistor } of resistors) {
      const other = withOhms(circuit, resistor, 3);
      const changed = model.changed(other, settings);
      const anew = operatingPoint(other, settings, { held, laws });
      for (const [at, to] of ends)
        expect(changed?.voltage(at, to), `${resistor}: ${at}`).toBeCloseTo(
          anew.voltage(at, to) ?? Number.NaN,
          5,
        );
    }
  });

  it('has the volts of working it out anew with a tube out', () => {
    for (const { name: out } of tubes) {
      const without = { ...settings, removed: new Set([out]) };
      const changed = model.changed(circuit, without);
      // Where a tube alone held a grid or plate to the rest a model of its own is to be made.
      if (!changed) continue;
      const anew = operatingPoint(circuit, without, { held, laws });
      for (const [at, to] of ends.filter(([id]) => !id.startsWith(`${out}.`)))
        expect(changed.voltage(at, to), `${out}: ${at}`).toBeCloseTo(
          anew.voltage(at, to) ?? Number.NaN,
          5,
        );
    }
  });

  it('follows a little change of ohms as a little step shows', () => {
    const step = 1e-4;
    for (const { name: resistor } of resistors) {
      const push = model.asItIs.push({ kind: 'ohms', part: resistor });
      const volts = (times: number, at: string, to: string) =>
        operatingPoint(withOhms(circuit, resistor, times), settings, { held, laws }).voltage(
          at,
          to,
        ) ?? Number.NaN;
      for (const { name: tube } of tubes) {
        const [at, to] = [`${tube}.plate`, `${tube}.filament-`];
        const slope = (volts(1 + step, at, to) - volts(1 - step, at, to)) / (2 * step);
        const reckoned = model.asItIs.metered(at, to, Number.POSITIVE_INFINITY)?.by(push);
        expect(reckoned, `${at} by ${resistor}`).toBeCloseTo(slope, 3);
      }
    }
  });
});
