import { describe, expect, it } from 'vitest';
import { type TracePath, traceDirectCurrent } from '../src/index.ts';
import { battery, ohms, onOff, part, setOf, tube } from './drafts.ts';

const A = battery('A', { 'A-': 0, 'A+': 6 });
const B = battery('B', { 'B-': 0, 'B+45': 45, 'B+90': 90 });
const C = battery('C', { 'C+': 0, 'C-4.5': -4.5 });

const set = setOf(
  [
    A,
    B,
    C,
    onOff('S1', 'open'),
    ohms('rheostat', 'RH1', 10),
    tube('V3'),
    part('condenser', 'C4'),
    ohms('leak', 'R3', 2e6),
    ohms('winding', 'L3.grid', 3.2),
    ohms('winding', 'T1.primary', 800),
    ohms('winding', 'T1.secondary', 5200),
    tube('V4'),
    part('condenser', 'C9'),
    part('phones', 'P1'),
    tube('V5'),
  ],
  [
    'A- B- C+ S1.start L3.grid.start',
    'S1.finish RH1.start',
    'RH1.finish V3.filament- V4.filament- V5.filament-',
    'A+ V3.filament+ V4.filament+ V5.filament+ R3.start',
    'L3.grid.finish C4.start',
    'C4.finish R3.finish V3.grid',
    'V3.plate T1.primary.start',
    'T1.primary.finish B+45',
    'T1.secondary.start C-4.5',
    'T1.secondary.finish V4.grid',
    'V4.plate P1.start',
    'P1.finish B+90',
    'V4.plate C9.start',
    'C9.finish V5.grid',
  ],
);

const parts = (path: TracePath | undefined) => path?.steps.map((step) => step.part);

describe('the trace of a grid', () => {
  it('leads through the secondary, the C battery, the switch and the rheostat', () => {
    expect(parts(traceDirectCurrent(set, 'V4.grid')[0])).toEqual([
      'T1.secondary',
      'C',
      'S1',
      'RH1',
    ]);
  });

  it('says why each part passes, with its ohms and volts', () => {
    const [path] = traceDirectCurrent(set, 'V4.grid');
    expect(path?.steps.slice(0, 2)).toEqual([
      {
        part: 'T1.secondary',
        from: 'T1.secondary.finish',
        to: 'T1.secondary.start',
        passes: true,
        because: 'the winding is one length of wire, 5200 ohms',
        ohms: 5200,
      },
      {
        part: 'C',
        from: 'C.C-4.5',
        to: 'C.C+',
        passes: true,
        because: 'the cells carry the current, 4.5 V',
        volts: 4.5,
      },
    ]);
  });

  it('with a leak to A+ leads through the A battery, not through the filament', () => {
    expect(parts(traceDirectCurrent(set, 'V3.grid')[0])).toEqual(['R3', 'A', 'S1', 'RH1']);
  });

  it('behind a condenser alone is stopped, and the condenser is named', () => {
    expect(traceDirectCurrent(set, 'V5.grid')[0]).toMatchObject({
      steps: [],
      blocked: { part: 'C9', because: 'a condenser blocks direct current' },
    });
  });

  it('that ends at a battery tells the steps to it, and where it ends', () => {
    const open = setOf(
      [A, C, ohms('winding', 'T1.secondary', 5200), tube('V2')],
      [
        'A- V2.filament-',
        'A+ V2.filament+',
        'C-4.5 T1.secondary.start',
        'T1.secondary.finish V2.grid',
      ],
    );
    const [path] = traceDirectCurrent(open, 'V2.grid');
    expect([parts(path), path?.blocked?.part, path?.blocked?.because]).toEqual([
      ['T1.secondary', 'C'],
      undefined,
      'it ends at C+, and nothing joins that to V2.filament-',
    ]);
  });

  it('that ends at a battery of several taps ends at its positive one', () => {
    const large = battery('C', { 'C+': 0, 'C-4.5': -4.5, 'C-9': -9 });
    const open = setOf(
      [A, large, tube('V2')],
      ['A- V2.filament-', 'A+ V2.filament+', 'C-4.5 V2.grid'],
    );
    expect(traceDirectCurrent(open, 'V2.grid')[0]?.blocked?.because).toMatch(/^it ends at C\+,/);
  });

  it('that ends at a winding is not stopped by the next tube on the same winding', () => {
    const pair = setOf(
      [A, ohms('winding', 'T1.secondary', 5200), tube('V1'), tube('V2')],
      [
        'A- V1.filament- V2.filament-',
        'A+ V1.filament+ V2.filament+',
        'T1.secondary.start V1.grid',
        'T1.secondary.finish V2.grid',
      ],
    );
    expect(traceDirectCurrent(pair, 'V1.grid')[0]?.blocked).toMatchObject({
      part: undefined,
      because: 'it ends at T1.secondary.finish, and nothing joins that to V1.filament-',
    });
  });

  it('behind two condensers names the nearer', () => {
    const two = setOf(
      [A, part('condenser', 'C1'), part('condenser', 'C2'), tube('V1')],
      ['A- V1.filament- C2.finish', 'A+ V1.filament+', 'V1.grid C1.start', 'C1.finish C2.start'],
    );
    expect(traceDirectCurrent(two, 'V1.grid')[0]?.blocked?.part).toBe('C1');
  });

  it('with nothing on it says that nothing leads on', () => {
    const bare = setOf([tube('V1')], []);
    expect(traceDirectCurrent(bare, 'V1.grid')[0]?.blocked).toMatchObject({
      part: undefined,
      because: 'nothing leads on from V1.grid',
    });
  });
});

describe('the trace of a plate', () => {
  it('leads to the tap that feeds it, and back from the zero to the filament', () => {
    const [feed, back] = traceDirectCurrent(set, 'V3.plate');
    expect([feed?.heading, parts(feed)]).toEqual(['feed of V3.plate from B+45', ['T1.primary']]);
    expect([back?.heading, parts(back)]).toEqual(['return from V3.filament- to B-', ['RH1', 'S1']]);
  });

  it('fed from the A battery leads there', () => {
    const low = setOf(
      [A, ohms('phones', 'P1', 2000), tube('V1')],
      ['A- V1.filament-', 'A+ V1.filament+ P1.start', 'P1.finish V1.plate'],
    );
    expect(traceDirectCurrent(low, 'V1.plate')[0]).toMatchObject({
      heading: 'feed of V1.plate from A+',
      steps: [{ part: 'P1' }],
    });
  });
});

describe('the trace of a filament', () => {
  it('leads round through its battery, switch and rheostat', () => {
    const [path] = traceDirectCurrent(set, 'V3.filament-');
    expect(path?.steps.map((step) => [step.part, step.from, step.to])).toEqual([
      ['A', 'A.A+', 'A.A-'],
      ['S1', 'S1.start', 'S1.finish'],
      ['RH1', 'RH1.start', 'RH1.finish'],
    ]);
  });

  it('of a series string leads through its neighbours', () => {
    const string = setOf(
      [A, tube('V1'), tube('V2')],
      ['A- V1.filament-', 'V1.filament+ V2.filament-', 'V2.filament+ A+'],
    );
    expect(parts(traceDirectCurrent(string, 'V1.filament+')[0])).toEqual(['V2', 'A']);
  });

  it('is stopped at an open switch', () => {
    const path = traceDirectCurrent(set, 'V3.filament+', {
      positions: new Map([['S1', 0]]),
      travels: new Map(),
      removed: new Set(),
    })[0];
    expect(path?.blocked).toMatchObject({ part: 'S1', because: 'its contact is open (open)' });
  });
});

describe('the trace of a tap', () => {
  it('leads to the plates that it feeds, and back from the filaments', () => {
    const paths = traceDirectCurrent(set, 'B.B+45');
    expect(paths.map((path) => [path.heading, parts(path)])).toEqual([
      ['B+45 to V3.plate', ['T1.primary']],
      ['return to B-, from the filaments', ['S1', 'RH1']],
    ]);
  });
});

describe('the trace of any other terminal', () => {
  it('leads to the nearest tap or filament', () => {
    expect(parts(traceDirectCurrent(set, 'L3.grid.finish')[0])).toEqual(['L3.grid']);
  });

  it('is nothing for a terminal that does not exist', () => {
    expect(traceDirectCurrent(set, 'V9.grid')).toEqual([]);
  });
});

describe('the trace of a crystal', () => {
  const round = (joins: readonly string[]) =>
    traceDirectCurrent(
      setOf(
        [
          part('crystal', 'CR1'),
          ohms('winding', 'L1.grid', 1),
          part('phones', 'P1'),
          part('condenser', 'C1'),
          part('condenser', 'C2'),
        ],
        joins,
      ),
      'CR1.mineral',
    )[0];

  it('goes round through phones and coil to its other end', () => {
    const path = round([
      'CR1.mineral L1.grid.finish C1.start',
      'CR1.whisker P1.start C2.start',
      'P1.finish C2.finish L1.grid.start C1.finish',
    ]);
    expect(path?.blocked).toBeUndefined();
    expect(parts(path)).toEqual(['L1.grid', 'P1']);
  });

  it('names the condenser that stops it', () => {
    const path = round([
      'CR1.mineral L1.grid.finish C1.start',
      'CR1.whisker C2.start',
      'C2.finish L1.grid.start C1.finish',
    ]);
    expect(path?.blocked?.part).toBe('C2');
  });
});
