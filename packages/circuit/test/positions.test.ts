import { describe, expect, it } from 'vitest';
import { asDrawn, controls, positionOf, settingsOverPositions, sharedPlugs } from '../src/index.ts';
import { contact, jack, onOff, part, selector, setOf } from './drafts.ts';

const coils = ['L1', 'L2', 'L3', 'L4'].map((name) => part('winding', name));
const studs = coils.map((coil) => `${coil.name}.start`);

describe('controls', () => {
  it('a switch, a selector and a jack stand in more than one way, a coil does not', () => {
    const circuit = setOf([...coils, onOff('S1', 'closed'), selector('S2', studs), jack('J1')], []);
    expect(controls(circuit).map(({ part: { name } }) => name)).toEqual(['S1', 'S2', 'J1']);
  });

  it('studs that are wired together are one position', () => {
    const circuit = setOf([...coils, selector('S2', studs)], ['L1.start L2.start L3.start']);
    expect(controls(circuit)[0]?.positions).toEqual([0, 3]);
  });

  it('a switch that is strapped across stands in one way only', () => {
    const circuit = setOf([onOff('S1', 'open')], ['S1.start S1.finish']);
    expect(controls(circuit)).toEqual([]);
  });

  it('the position as drawn stands for its equals', () => {
    const circuit = setOf([...coils, selector('S2', studs, 2)], ['L1.start L3.start']);
    expect(controls(circuit)[0]?.positions).toEqual([2, 1, 3]);
  });
});

describe('settings over positions', () => {
  it('are all combinations of two switches and a selector of four', () => {
    const circuit = setOf(
      [...coils, onOff('S1', 'closed'), onOff('S3', 'open'), selector('S2', studs)],
      [],
    );
    const { settings, exhaustive } = settingsOverPositions(circuit, asDrawn);
    const seen = new Set(
      [...settings].map((each) => circuit.parts.map((p) => positionOf(p, each)).join()),
    );
    expect([exhaustive, seen.size]).toEqual([true, 16]);
  });

  it('begin with the set as it stands', () => {
    const circuit = setOf([onOff('S1', 'open')], []);
    const base = { ...asDrawn, positions: new Map([['S1', 1]]) };
    expect([...settingsOverPositions(circuit, base).settings][0]).toBe(base);
  });

  it('of seven switches are each switch on its own, and say so', () => {
    const switches = Array.from({ length: 7 }, (_, index) => onOff(`S${index}`, 'closed'));
    const { settings, exhaustive } = settingsOverPositions(setOf(switches, []), asDrawn);
    expect([exhaustive, [...settings].length]).toEqual([false, 8]);
  });

  it('of a thousand switches are no more than 256', () => {
    const switches = Array.from({ length: 1000 }, (_, index) => onOff(`S${index}`, 'closed'));
    expect([...settingsOverPositions(setOf(switches, []), asDrawn).settings]).toHaveLength(256);
  });

  it('leave alone the controls they are told to', () => {
    const circuit = setOf([onOff('S1', 'closed'), onOff('S2', 'closed')], []);
    const { settings } = settingsOverPositions(circuit, asDrawn, { except: new Set(['S1']) });
    expect([...settings].map((each) => each.positions.get('S1'))).toEqual([undefined, undefined]);
  });
});

describe('one pair of phones for two jacks', () => {
  const circuit = setOf([jack('J1', 'P1'), jack('J2', 'P1'), part('phones', 'P1')], []);

  it('is known from the contacts that lead to it', () => {
    expect(sharedPlugs(circuit).map((plug) => [plug.part, [...plug.jacks.keys()]])).toEqual([
      ['P1', ['J1', 'J2']],
    ]);
  });

  it('never stands in both', () => {
    const pairs = [...settingsOverPositions(circuit, asDrawn).settings].map((each) =>
      ['J1', 'J2'].map((name) => each.positions.get(name) ?? 0).join(''),
    );
    expect(pairs.sort()).toEqual(['00', '01', '10']);
  });

  it('is taken out of the one when tried in the other', () => {
    const drawnIn = setOf(
      [
        jack('J1', 'P1', 1),
        jack('J2', 'P1'),
        part('phones', 'P1'),
        ...Array.from({ length: 7 }, (_, index) => onOff(`S${index}`, 'closed')),
      ],
      [],
    );
    const pairs = [...settingsOverPositions(drawnIn, asDrawn).settings].map((each) =>
      ['J1', 'J2'].map((name) => each.positions.get(name) ?? (name === 'J1' ? 1 : 0)).join(''),
    );
    expect(new Set(pairs)).toEqual(new Set(['10', '00', '01']));
  });

  it('does not count the phones that an empty jack leads through', () => {
    const through = part('jack', 'J3', {
      positions: ['empty', 'plugged'],
      companions: ['P1'],
      contacts: [contact('J3.tip', 'P1.start', 0)],
    });
    const wired = setOf([through, jack('J1', 'P1'), part('phones', 'P1')], []);
    expect(sharedPlugs(wired)).toEqual([]);
  });
});
