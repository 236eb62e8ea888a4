import { describe, expect, it } from 'vitest';
import { asDrawn, asOn, closedCircuits, conductionOf } from '../src/index.ts';
import { battery, jack, nowhere, ohms, onOff, part, setOf, tube } from './drafts.ts';

const A = battery('A', { 'A-': 0, 'A+': 6 }, { words: new Set(['storage']) });

describe('conduction', () => {
  it('lists every branch at both of its junctions', () => {
    const circuit = setOf([A, tube('V1')], ['A- V1.filament-', 'A+ V1.filament+']);
    const conduction = conductionOf(circuit, asDrawn);
    const negative = circuit.endNamed.get('A.A-')?.junction ?? -1;
    const kinds = conduction.at[negative]?.map((branch) => branch.direct.kind);
    // The battery, the filament, and the two cold electrodes that end on the filament.
    expect(kinds).toEqual(['source', 'conducts', 'blocks', 'blocks']);
  });

  it('a tube out of its socket has no filament to conduct', () => {
    const circuit = setOf([A, tube('V1')], ['A- V1.filament-', 'A+ V1.filament+']);
    const conduction = conductionOf(circuit, { ...asDrawn, removed: new Set(['V1']) });
    const kinds = conduction.branches.filter((branch) => branch.part === 'V1');
    expect(kinds.every((branch) => branch.direct.kind === 'blocks')).toBe(true);
  });

  it('a part taken out has no branches at all', () => {
    const circuit = setOf([ohms('resistor', 'R1', 5)], []);
    const conduction = conductionOf(circuit, { ...asDrawn, removed: new Set(['R1']) });
    expect(conduction.branches).toEqual([]);
  });

  it('passes over a contact to a terminal that does not exist', () => {
    const circuit = setOf(
      [
        part('selector', 'S2', {
          positions: ['1'],
          contacts: [{ from: 'S2.arm', to: 'L9.tap4', closedAt: [0], place: nowhere }],
        }),
      ],
      [],
    );
    expect(conductionOf(circuit, asDrawn).branches).toEqual([]);
  });
});

describe('a set switched on', () => {
  it('closes a battery switch drawn open, and says so', () => {
    const circuit = setOf(
      [A, onOff('S1', 'open'), tube('V1')],
      ['A- S1.start', 'S1.finish V1.filament-', 'A+ V1.filament+'],
    );
    const on = asOn(circuit);
    expect(on.switchedOn).toEqual(['S1']);
    expect(on.settings.positions.get('S1')).toBe(1);
  });

  it('closes a switch in the B lead alone', () => {
    const circuit = setOf(
      [A, battery('B', { 'B-': 0, 'B+45': 45 }), onOff('S2', 'open'), tube('V1')],
      ['A- V1.filament- B-', 'A+ V1.filament+', 'B+45 S2.start', 'S2.finish V1.plate'],
    );
    expect(asOn(circuit).switchedOn).toEqual(['S2']);
  });

  it('leaves open a switch that no filament waits for', () => {
    const circuit = setOf(
      [A, onOff('S1', 'open'), onOff('S3', 'open'), part('winding', 'L1'), tube('V1')],
      [
        'A- S1.start',
        'S1.finish V1.filament- L1.start',
        'A+ V1.filament+',
        'S3.start L1.start',
        'S3.finish L1.finish',
      ],
    );
    expect(asOn(circuit).switchedOn).toEqual(['S1']);
  });

  it('a switch that only shorts a rheostat stays as drawn', () => {
    const circuit = setOf(
      [A, ohms('rheostat', 'RH1', 20), onOff('S4', 'open'), tube('V1')],
      ['A- RH1.start S4.start', 'RH1.finish S4.finish V1.filament-', 'A+ V1.filament+'],
    );
    expect(asOn(circuit).switchedOn).toEqual([]);
  });

  it('of two battery switches side by side closes one', () => {
    const circuit = setOf(
      [A, onOff('S1', 'open'), onOff('S2', 'open'), tube('V1')],
      ['A- S1.start S2.start', 'S1.finish S2.finish V1.filament-', 'A+ V1.filament+'],
    );
    expect(asOn(circuit).switchedOn).toHaveLength(1);
  });

  it('takes a rheostat off its off stop', () => {
    const circuit = setOf(
      [A, ohms('rheostat', 'RH1', 20, { setting: { kind: 'off', place: nowhere } }), tube('V1')],
      ['A- RH1.start', 'RH1.finish V1.filament-', 'A+ V1.filament+'],
    );
    const { settings, switchedOn } = asOn(circuit);
    expect(switchedOn).toEqual(['RH1']);
    expect(settings.released.has('RH1')).toBe(true);
    expect(closedCircuits(conductionOf(circuit, settings)).filaments.has('V1')).toBe(true);
  });

  it('had nothing to turn on when it is drawn on', () => {
    const circuit = setOf(
      [A, onOff('S1', 'closed'), tube('V1')],
      ['A- S1.start', 'S1.finish V1.filament-', 'A+ V1.filament+'],
    );
    expect(asOn(circuit).switchedOn).toEqual([]);
  });

  it('takes a switch of which nothing is said as closed', () => {
    const silent = { ...onOff('S1', 'open'), words: new Set<string>() };
    const circuit = setOf(
      [A, silent, tube('V1')],
      ['A- S1.start', 'S1.finish V1.filament-', 'A+ V1.filament+'],
    );
    const on = asOn(circuit);
    expect([on.settings.positions.get('S1'), on.switchedOn]).toEqual([1, []]);
  });

  it('leaves jacks as drawn', () => {
    const circuit = setOf([A, jack('J1')], []);
    expect(asOn(circuit).settings.positions.has('J1')).toBe(false);
  });
});

describe('closed circuits', () => {
  it('a filament with one end off is on none', () => {
    const circuit = setOf(
      [A, tube('V1'), tube('V2')],
      ['A- V1.filament- V2.filament-', 'A+ V1.filament+'],
    );
    expect([...closedCircuits(conductionOf(circuit, asDrawn)).filaments]).toEqual(['V1']);
  });

  it('two filaments in series are on one', () => {
    const circuit = setOf(
      [A, tube('V1'), tube('V2')],
      ['A- V1.filament-', 'V1.filament+ V2.filament-', 'A+ V2.filament+'],
    );
    expect(closedCircuits(conductionOf(circuit, asDrawn)).filaments.size).toBe(2);
  });

  it('a grid leak lights no filament', () => {
    const circuit = setOf(
      [A, ohms('leak', 'R1', 2e6), tube('V1')],
      ['A- V1.filament-', 'A+ R1.start', 'R1.finish V1.filament+'],
    );
    expect(closedCircuits(conductionOf(circuit, asDrawn)).filaments.size).toBe(0);
  });

  it('a thousand stages on one bus take less than half a second', () => {
    const stages = Array.from({ length: 1000 }, (_, index) => index);
    const circuit = setOf(
      [A, ...stages.flatMap((n) => [tube(`V${n}`), ohms('rheostat', `RH${n}`, 20)])],
      stages.flatMap((n) => [
        `A- RH${n}.start`,
        `RH${n}.finish V${n}.filament-`,
        `A+ V${n}.filament+`,
      ]),
    );
    const find = () => closedCircuits(conductionOf(circuit, asDrawn)).filaments;
    expect(find().size).toBe(1000);
  });
});
