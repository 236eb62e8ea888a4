import { describe, expect, it } from 'vitest';
import { fuseGuardsNothing } from '../../src/checks/fuse-guards-nothing.ts';
import { edited } from '../edited.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

const say = (text: string): string[] => told(text, findingsOf(fuseGuardsNothing, text));
const inOneLead = edited(
  fuseGuardsNothing.passes,
  ['fuse F1 .06 A from B- to A-', 'fuse F1 .06 A from B+90 to H1.finish'],
  ['wire A- to C+ to GND', 'wire B- to A- to C+ to GND'],
  ['from V2.plate to B+90', 'from V2.plate'],
);

describe('a fuse that guards nothing', () => {
  it('lets half an ampere through before 63 mA filaments', () => {
    const text = fuseGuardsNothing.fails;
    expect(say(text)).toEqual(['fuse-guards-nothing warning @ fuse F1 .5 A from B- to A-']);
    expect(heard(fuseGuardsNothing, text)).toEqual([
      'F1 lets 0.5 A through, more than the 63 mA that light V1.',
    ]);
    expect(findingsOf(fuseGuardsNothing, text)[0]?.cure).toBe(
      'Put one of less than 63 mA in B-, the lead that all B current comes back by.',
    );
    expect(findingsOf(fuseGuardsNothing, text)[0]?.parts).toEqual(['F1']);
  });

  it('may be a lamp', () => {
    const text = edited(fuseGuardsNothing.fails, ['fuse F1 .5 A', 'lamp F1 6 V .15 A']);
    expect(heard(fuseGuardsNothing, text)).toEqual([
      'F1 lets 0.15 A through, more than the 63 mA that light V1.',
    ]);
  });

  it('stands in one of two B leads only', () => {
    expect(say(inOneLead)).toEqual([
      'fuse-guards-nothing warning @ fuse F1 .06 A from B+90 to H1.finish',
    ]);
    expect(heard(fuseGuardsNothing, inOneLead)).toEqual([
      'F1 guards B+90 only: B+45 has nothing in the lead.',
    ]);
    expect(findingsOf(fuseGuardsNothing, inOneLead)[0]?.cure).toBe(
      'Move it to B-, the one lead that all B current comes back by.',
    );
  });
});

describe('a fuse guards what it should', () => {
  it('in B-, below the smallest filament’s current', () => {
    expect(heard(fuseGuardsNothing, fuseGuardsNothing.passes)).toEqual([]);
  });

  it('in every B lead that is used', () => {
    const text = edited(
      inOneLead,
      ['from V1.plate to B+45', 'from V1.plate'],
      ['  fuse F1', '  fuse F2 .06 A from B+45 to T1.primary.finish\n  fuse F1'],
    );
    expect(heard(fuseGuardsNothing, text)).toEqual([]);
  });

  it('in the A lead, where it must carry all filaments', () => {
    const text = edited(
      fuseGuardsNothing.passes,
      ['fuse F1 .06 A from B- to A-', 'fuse F1 3 A from A- to NEG'],
      ['switch S1 from A- to NEG closed', 'wire B- to A-'],
    );
    expect(heard(fuseGuardsNothing, text)).toEqual([]);
  });

  it('where its rating is not stated', () => {
    const text = edited(fuseGuardsNothing.passes, ['fuse F1 .06 A', 'fuse F1']);
    expect(heard(fuseGuardsNothing, text)).toEqual([]);
  });

  it('and a set without one is not blamed for it', () => {
    const text = edited(
      fuseGuardsNothing.passes,
      ['  fuse F1 .06 A from B- to A-\n', ''],
      ['wire A- to C+ to GND', 'wire B- to A- to C+ to GND'],
    );
    expect(heard(fuseGuardsNothing, text)).toEqual([]);
  });
});
