import { describe, expect, it } from 'vitest';
import { asDrawn, type Circuit, conductionOf, directIslands, directPath } from '../src/index.ts';
import { battery, junction, ohms, onOff, part, setOf, tube, value } from './drafts.ts';

function pathBetween(circuit: Circuit, from: string, to: string, options = {}) {
  const goal = junction(circuit, to);
  return directPath(
    conductionOf(circuit, asDrawn),
    junction(circuit, from),
    (here) => here === goal,
    options,
  );
}

const detector = [
  battery('A', { 'A-': 0, 'A+': 6 }),
  part('winding', 'L3.grid'),
  part('condenser', 'C3'),
  part('condenser', 'C4'),
  tube('V3'),
];
const detectorWires = [
  'A- L3.grid.start C3.start V3.filament-',
  'A+ V3.filament+',
  'L3.grid.finish C3.finish C4.start',
  'C4.finish V3.grid',
];

describe('the direct path', () => {
  it('from a grid through its coil and the C battery back to its filament', () => {
    const circuit = setOf(
      [battery('C', { 'C+': 0, 'C-4.5': -4.5 }), part('winding', 'T1.secondary'), tube('V4')],
      ['C-4.5 T1.secondary.start', 'T1.secondary.finish V4.grid', 'C+ V4.filament-'],
    );
    const path = pathBetween(circuit, 'V4.grid', 'V4.filament-');
    expect(path).toMatchObject({
      found: true,
      steps: [
        { part: 'T1.secondary', from: 'T1.secondary.finish', to: 'T1.secondary.start' },
        { part: 'C', from: 'C.C-4.5', to: 'C.C+', direct: { kind: 'source', volts: 4.5 } },
      ],
    });
  });

  it('does not lead through a battery when told not to', () => {
    const circuit = setOf(
      [battery('C', { 'C+': 0, 'C-4.5': -4.5 }), tube('V4')],
      ['C-4.5 V4.grid', 'C+ V4.filament-'],
    );
    const path = pathBetween(circuit, 'V4.grid', 'V4.filament-', { throughSources: false });
    expect(path.found).toBe(false);
  });

  it('takes the way with fewer parts even where it has more ohms', () => {
    const circuit = setOf(
      [ohms('resistor', 'R1', 1), ohms('resistor', 'R2', 1), ohms('leak', 'R3', 2e6)],
      ['R1.start R3.start', 'R1.finish R2.start', 'R2.finish R3.finish'],
    );
    const path = pathBetween(circuit, 'R1.start', 'R2.finish');
    expect(path.found && path.steps.map((step) => step.part)).toEqual(['R3']);
  });

  it('takes the way with fewer ohms when that is preferred', () => {
    const circuit = setOf(
      [ohms('resistor', 'R1', 1), ohms('resistor', 'R2', 1), ohms('leak', 'R3', 2e6)],
      ['R1.start R3.start', 'R1.finish R2.start', 'R2.finish R3.finish'],
    );
    const path = pathBetween(circuit, 'R1.start', 'R2.finish', { prefer: 'ohms' });
    expect(path.found && path.steps.map((step) => step.part)).toEqual(['R1', 'R2']);
  });

  it('takes the lower of two resistances side by side', () => {
    const circuit = setOf(
      [ohms('resistor', 'R1', 500), ohms('resistor', 'R2', 50)],
      ['R1.start R2.start', 'R1.finish R2.finish'],
    );
    const path = pathBetween(circuit, 'R1.start', 'R1.finish');
    expect(path.found && path.steps.map((step) => step.part)).toEqual(['R2']);
  });

  it('counts a winding with taps as one part', () => {
    const tap = (end: string, fraction: number) => ({
      end,
      fraction,
      turns: undefined,
      place: part('winding', 'x').place,
    });
    const circuit = setOf(
      [
        part('winding', 'L1', {
          ends: ['start', 'tap4', 'tap8', 'finish'],
          values: { resistance: value(3, 'resistance') },
          taps: [tap('tap4', 1 / 3), tap('tap8', 2 / 3)],
        }),
        ohms('resistor', 'R1', 1),
        ohms('resistor', 'R2', 1),
      ],
      ['L1.start R1.start', 'R1.finish R2.start', 'R2.finish L1.finish'],
    );
    const path = pathBetween(circuit, 'L1.start', 'L1.finish');
    expect(path.found && path.steps.map((step) => step.part)).toEqual(['L1', 'L1', 'L1']);
  });

  it('has no steps where start and goal are one junction', () => {
    const circuit = setOf([tube('V1')], ['V1.grid V1.filament-']);
    expect(pathBetween(circuit, 'V1.grid', 'V1.filament-')).toMatchObject({
      found: true,
      steps: [],
    });
  });

  it('does not lead through a part that is skipped', () => {
    const circuit = setOf([ohms('resistor', 'R1', 5)], []);
    const path = pathBetween(circuit, 'R1.start', 'R1.finish', { skip: new Set(['R1']) });
    expect(path.found).toBe(false);
  });
});

describe('what blocks the direct path', () => {
  it('a grid behind a condenser with no leak floats, and the condenser is named', () => {
    const path = pathBetween(setOf(detector, detectorWires), 'V3.grid', 'V3.filament-');
    expect(path.found).toBe(false);
    expect(!path.found && path.blockers[0]).toMatchObject({
      part: 'C4',
      from: 'C4.finish',
      to: 'C4.start',
      distance: 0,
      goalBeyond: true,
    });
  });

  it("a tube's own grid comes last of what blocks", () => {
    const path = pathBetween(setOf(detector, detectorWires), 'V3.grid', 'V3.filament-');
    expect(!path.found && path.blockers.map((blocker) => blocker.part)).toEqual(['C4', 'V3']);
  });

  it('a leak across the condenser brings the grid home', () => {
    const circuit = setOf(
      [...detector, ohms('leak', 'R3', 2e6)],
      [...detectorWires, 'R3.start C4.start', 'R3.finish C4.finish'],
    );
    const path = pathBetween(circuit, 'V3.grid', 'V3.filament-');
    expect(path.found && path.steps.map((step) => step.part)).toEqual(['R3', 'L3.grid']);
  });

  it('an open switch is named with the position it stands at', () => {
    const circuit = setOf(
      [battery('A', { 'A-': 0, 'A+': 6 }), onOff('S1', 'open'), tube('V1')],
      ['A- S1.start', 'S1.finish V1.filament-'],
    );
    const path = pathBetween(circuit, 'V1.filament-', 'A.A-');
    expect(!path.found && path.blockers[0]).toMatchObject({
      part: 'S1',
      because: 'its contact is open (open)',
    });
  });

  it('a condenser whose two sides are both reached blocks nothing', () => {
    const path = pathBetween(setOf(detector, detectorWires), 'L3.grid.finish', 'V3.grid');
    expect(!path.found && path.blockers.map((blocker) => blocker.part)).not.toContain('C3');
  });
});

describe('islands of direct current', () => {
  it('a coil, a battery and a filament tie junctions together, a condenser does not', () => {
    const circuit = setOf(detector, detectorWires);
    const island = directIslands(conductionOf(circuit, asDrawn));
    const of = (id: string) => island[junction(circuit, id)];
    expect([of('L3.grid.finish'), of('A.A+')]).toEqual([of('A.A-'), of('A.A-')]);
    expect(of('V3.grid')).not.toBe(of('A.A-'));
  });
});
