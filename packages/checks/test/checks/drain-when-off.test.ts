import { describe, expect, it } from 'vitest';
import { drainWhenOff } from '../../src/checks/drain-when-off.ts';
import { findingsOf, told } from '../support.ts';

const say = (text: string): string[] => told(text, findingsOf(drainWhenOff, text));
const messages = (text: string): string[] =>
  findingsOf(drainWhenOff, text).map(({ message }) => message);

const set = (lines: string): string => `receiver "x" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+90
  }
  battery C dry {
    tap C+
    tap C-4.5
  }
  bus NEG
  bus TOP
  tube V1 01-A {
    filament from NEG
    plate to H1.start
  }
  horn H1 2000 ohms to TOP
${lines}
}
`;
const usual = `  wire B- to A- to C+
  wire V1.filament+ to A+
  wire TOP to B+90
`;
const switched = `${usual}  switch S1 from A- to NEG closed\n`;

describe('a battery drains with the set off', () => {
  it('through a lamp on the battery side of the switch', () => {
    const text = drainWhenOff.fails;
    expect(say(text)).toEqual(['drain-when-off warning @ lamp PL1 6 V .15 A from A- to A+']);
    expect(messages(text)).toEqual(['With S1 open, A still drives 0.15 A through PL1.']);
    expect(findingsOf(drainWhenOff, text)[0]).toMatchObject({
      why: 'It runs down while the set stands idle: its 100 Ah are gone in 28 days.',
      cure: 'Move PL1.start from A- to NEG, the other side of S1.',
      parts: ['A', 'PL1'],
    });
    expect(say(drainWhenOff.passes)).toEqual([]);
  });

  it('through a stabilizing potentiometer on the battery side of the switch', () => {
    const text = (side: string): string =>
      set(`${switched}  potentiometer P1 400 ohms from ${side} to A+ arm to V1.grid set 10 %\n`);
    expect(messages(text('A-'))).toEqual(['With S1 open, A still drives 15 mA through P1.']);
    expect(say(text('NEG'))).toEqual([]);
  });

  it('until the fix has moved it to the other side', () => {
    const text = drainWhenOff.fails;
    const edit = findingsOf(drainWhenOff, text)[0]?.fixes[0]?.edits[0];
    if (!edit) throw new Error('there is no fix');
    const cured = text.slice(0, edit.place.start) + edit.text + text.slice(edit.place.end);
    expect(cured).toContain('lamp PL1 6 V .15 A from NEG to A+');
    expect(say(cured)).toEqual([]);
  });

  it('when a second lead goes round the switch', () => {
    const text = set(`${switched}  wire NEG to B-\n`);
    expect(say(text)).toEqual(['drain-when-off warning @ switch S1 from A- to NEG closed']);
    expect(messages(text)).toEqual(['With S1 open, A still drives 0.3 A through V1.']);
    expect(findingsOf(drainWhenOff, text)[0]?.cure).toContain('leads round S1');
  });

  it('when the switch is in neither A lead', () => {
    const text = set(`  wire B- to A- to C+ to NEG
  wire V1.filament+ to A+
  switch S1 from B+90 to TOP closed
`);
    expect(messages(text)).toEqual(['With S1 open, A still drives 0.3 A through V1.']);
    expect(findingsOf(drainWhenOff, text)[0]?.cure).toContain('Put S1 in the one lead of A');
  });

  it('through a bleeder across B', () => {
    const text = set(`${switched}  resistor R1 100 kilohms from B+90 to B-\n`);
    expect(messages(text)).toEqual(['With S1 open, B still drives 0.9 mA through R1.']);
  });

  it('but not a battery that another drives its current through', () => {
    const found = messages(set(`${switched}  potentiometer P9 50 kilohms from NEG to B+90`));
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(/^With S1 open, B still drives/);
  });

  it('and a filament that some milliamperes pass is not said to burn', () => {
    const [found] = findingsOf(
      drainWhenOff,
      set(`${switched}  potentiometer P9 50 kilohms from NEG to B+90`),
    );
    expect(found?.message).toMatch(/through .*V1/);
    expect(found?.why).not.toMatch(/burns/);
  });

  it('through a bias potentiometer across C, which no switch of the A battery opens', () => {
    const text = set(`${switched}  potentiometer P2 5000 ohms from C-4.5 to C+ arm to V1.grid\n`);
    expect(messages(text)).toEqual(['With S1 open, C still drives 0.9 mA through P2.']);
  });

  it('is told of a set that is drawn switched off as well', () => {
    const text = drainWhenOff.fails.replace('NEG closed', 'NEG open');
    expect(messages(text)).toEqual(['With S1 open, A still drives 0.15 A through PL1.']);
  });
});

describe('a battery is left in peace', () => {
  it('in a set without a switch', () => {
    expect(say(set(`${usual}  wire A- to NEG\n`))).toEqual([]);
  });

  it('when a rheostat drawn at its off stop opens the filaments', () => {
    expect(say(set(`${usual}  rheostat RH1 20 ohms from A- to NEG set off\n`))).toEqual([]);
  });

  it('when pulling the plug puts the filament out', () => {
    const text = set(`${usual}  switch S1 from C-4.5 to V1.grid closed
  post X
  phones PH1 2000 ohms into J1
  jack J1 from X to TOP makes A- to NEG
`);
    expect(say(text)).toEqual([]);
  });

  it('where the only switch cuts a condenser out of the aerial', () => {
    const text = set(`${usual}  wire A- to NEG
  post ANT aerial
  condenser C1 .00025 mfd from ANT to X
  post X
  switch S1 from ANT to X open
`);
    expect(say(text)).toEqual([]);
  });

  it('where the only switch shorts a rheostat for more volume', () => {
    const text = set(
      `${usual}  rheostat RH1 20 ohms from A- to NEG set 4 ohms\n  switch S1 from A- to NEG open\n`,
    );
    expect(say(text)).toEqual([]);
  });

  it('when it is an eliminator', () => {
    const text = set(`${switched}  eliminator E {
    tap E-
    tap E+90 90 V
  }
  resistor R1 10 kilohms from E- to E+90
`);
    expect(say(text)).toEqual([]);
  });

  it('when it is shorted outright, which is told as such', () => {
    expect(say(set(`${switched}  wire B- to B+90\n`))).toEqual([]);
  });

  it('when only insulation drains it', () => {
    expect(say(set(`${switched}  resistor R1 10 meg from B+90 to B-\n`))).toEqual([]);
  });

  it('through a resistor of which the ohms are not known', () => {
    expect(say(set(`${switched}  resistor R1 from B+90 to B-\n`))).toEqual([]);
  });
});
