import { describe, expect, it } from 'vitest';
import {
  asOn,
  type Circuit,
  conductionOf,
  controls,
  type PartDraft,
  supplyReachingFilament,
} from '../src/index.ts';
import {
  battery,
  filamentType,
  jack,
  junction,
  ohms,
  onOff,
  part,
  selector,
  setOf,
  tube,
  type99,
} from './drafts.ts';

const A = battery('A', { 'A-': 0, 'A+': 6 }, { words: new Set(['storage']) });
const B = battery('B', { 'B-': 0, 'B+45': 45, 'B+90': 90 });
const oneTube = ['A- B- V1.filament-', 'A+ V1.filament+'];

function reach(parts: readonly PartDraft[], wires: readonly string[]) {
  return supplyReachingFilament(setOf([A, B, ...parts], wires));
}

describe('plate voltage on a filament', () => {
  it('is not there in a set of one stage wired right', () => {
    const answer = reach(
      [tube('V1'), onOff('S1', 'open'), ohms('rheostat', 'RH1', 20), ohms('phones', 'P1', 2000)],
      [
        'A- B- S1.start',
        'S1.finish RH1.start',
        'RH1.finish V1.filament-',
        'A+ V1.filament+',
        'B+90 P1.start',
        'P1.finish V1.plate',
      ],
    );
    expect(answer).toEqual({ reaches: false, exhaustive: true, through: [] });
  });

  it('is there when the B+ lead is on the A+ post', () => {
    const answer = reach([tube('V1')], ['A- B- V1.filament-', 'A+ V1.filament+ B+45']);
    expect(answer).toMatchObject({
      reaches: true,
      tap: 'B.B+45',
      terminal: 'V1.filament+',
      steps: [],
    });
  });

  it('is not there for B- on A-, nor for B- on A+', () => {
    const strapped = reach([tube('V1')], oneTube);
    const onPositive = reach([tube('V1')], ['A- V1.filament-', 'A+ B- V1.filament+']);
    expect([strapped.reaches, onPositive.reaches]).toEqual([false, false]);
  });

  it('is not there for the plate current of the tube itself', () => {
    expect(reach([tube('V1')], [...oneTube, 'B+90 V1.plate']).reaches).toBe(false);
  });

  it('is there when a rheostat could be turned down between them', () => {
    const answer = reach(
      [tube('V1'), ohms('rheostat', 'RH1', 10_000)],
      [...oneTube, 'B+45 RH1.start', 'RH1.finish V1.filament+'],
    );
    expect(answer.reaches && answer.settings.travels.get('RH1')).toBe(0);
  });

  it('is not there for a bleeder from B+ to B-', () => {
    const answer = reach(
      [tube('V1'), ohms('resistor', 'R9', 150)],
      [...oneTube, 'B+90 R9.start', 'R9.finish B-'],
    );
    expect(answer.reaches).toBe(false);
  });

  it('is there for a bleeder to the set side of the switch, once the switch is open', () => {
    const answer = reach(
      [tube('V1'), onOff('S1', 'closed'), ohms('resistor', 'R9', 150)],
      ['A- B- S1.start', 'S1.finish V1.filament- R9.finish', 'A+ V1.filament+', 'B+90 R9.start'],
    );
    expect(answer.reaches && answer.settings.positions.get('S1')).toBe(0);
  });

  it('counts a bare tap called B+ whose volts are not said', () => {
    const answer = supplyReachingFilament(
      setOf(
        [A, battery('B', { 'B-': 0, 'B+DET': undefined }), tube('V1')],
        [...oneTube, 'B+DET V1.filament+'],
      ),
    );
    expect(answer.reaches).toBe(true);
  });

  it('is there through the upper of two blocks, and its own tap is named', () => {
    const answer = supplyReachingFilament(
      setOf(
        [
          A,
          battery('B1', { 'B-': 0, 'B1+': 45 }),
          battery('B2', { 'B2-': 0, 'B2+': 45 }),
          tube('V1'),
        ],
        [...oneTube, 'B1+ B2-', 'B2+ V1.filament+'],
      ),
    );
    expect(answer).toMatchObject({ reaches: true, tap: 'B2.B2+' });
  });
});

describe('through a resistance', () => {
  const behind = (amount: number, filament: PartDraft) =>
    reach(
      [filament, ohms('resistor', 'R9', amount)],
      [...oneTube, 'B+90 R9.start', 'R9.finish V1.filament+'],
    );

  it('of 199 ohms plate voltage counts as there, of 400 it does not harm a 01-A', () => {
    expect([behind(199, tube('V1')).reaches, behind(400, tube('V1')).reaches]).toEqual([
      true,
      false,
    ]);
  });

  it('of 1000 ohms 90 V burns a 99 of 63 mA', () => {
    // 90 V / (1000 + 3.3 / 0.063) ohms is 85.5 mA, 136 % of 63 mA.
    expect(behind(1000, tube('V1', type99)).reaches).toBe(true);
  });

  it('of 1300 ohms it does not', () => {
    // 90 V / (1300 + 52.4) ohms is 66.5 mA, 106 % of 63 mA.
    expect(behind(1300, tube('V1', type99)).reaches).toBe(false);
  });

  it('a string of five 99s fed from an eliminator at its rated current is left in peace', () => {
    const eliminator = battery('E', { 'E-': 0, 'E+90': 90 }, { kind: 'eliminator' });
    const string = [1, 2, 3, 4, 5];
    const answer = supplyReachingFilament(
      setOf(
        // 90 V less five times 3.3 V, at 63 mA: 1167 ohms.
        [eliminator, ohms('resistor', 'R1', 1167), ...string.map((n) => tube(`V${n}`, type99))],
        [
          'E+90 R1.start',
          'R1.finish V5.filament+',
          ...string.slice(1).map((n) => `V${n}.filament- V${n - 1}.filament+`),
          'V1.filament- E-',
        ],
      ),
    );
    expect(answer.reaches).toBe(false);
  });

  it('not stated, of an audio primary, it is told but not called a fault', () => {
    const answer = reach(
      [tube('V1'), part('transformer', 'T1'), part('winding', 'T1.primary', { owner: 'T1' })],
      [...oneTube, 'B+90 T1.primary.start', 'T1.primary.finish V1.filament+'],
    );
    expect(answer).toMatchObject({
      reaches: false,
      exhaustive: true,
      through: [{ tap: 'B.B+90', terminal: 'V1.filament+', steps: [{ part: 'T1.primary' }] }],
    });
  });

  it('not stated, of a coil wound on air, it is a few ohms', () => {
    const answer = reach(
      [tube('V1'), part('coil', 'L2'), part('winding', 'L2.plate', { owner: 'L2' })],
      [...oneTube, 'B+90 L2.plate.start', 'L2.plate.finish V1.filament+'],
    );
    expect(answer.reaches).toBe(true);
  });
});

describe('a C battery', () => {
  const grid = [tube('V1'), part('winding', 'T1.secondary'), ohms('phones', 'P1', 2000)];
  const gridWires = ['T1.secondary.finish V1.grid', 'B+90 P1.start', 'P1.finish V1.plate'];

  it('measured from its own minus reaches the filament on purpose', () => {
    const answer = reach(
      [...grid, battery('C', { 'C-': 0, 'C+22': 22.5 })],
      [...oneTube, ...gridWires, 'C+22 A-', 'C- T1.secondary.start'],
    );
    expect(answer.reaches).toBe(false);
  });

  it('of 22 volts does harm when its minus is on the other filament end', () => {
    const answer = reach(
      [...grid, battery('C', { 'C+': 0, 'C-22': -22.5 })],
      [...oneTube, ...gridWires, 'C+ A-', 'C-22 T1.secondary.start A+'],
    );
    expect(answer).toMatchObject({ reaches: true, tap: 'C.C-22' });
  });
});

describe('positions', () => {
  const posts = ['X', 'Y', 'Z'].map((name) => part('post', name));

  it('one bad stud of a selector is found, and named', () => {
    const answer = reach(
      [tube('V1'), ...posts, selector('S2', ['X', 'Y', 'Z'])],
      [...oneTube, 'B+45 S2.arm', 'Y A+'],
    );
    expect(answer).toMatchObject({
      reaches: true,
      steps: [{ part: 'S2', direct: { because: 'its contact is closed (Y)' } }],
    });
    expect(answer.reaches && answer.settings.positions.get('S2')).toBe(1);
  });

  it('a way that needs a selector on two studs at once is no way', () => {
    const answer = reach(
      [tube('V1'), ...posts, selector('S2', ['X', 'Y', 'Z'])],
      [...oneTube, 'B+45 X', 'Y A+'],
    );
    expect(answer).toEqual({ reaches: false, exhaustive: true, through: [] });
  });

  it('a longer way that is possible is found behind a shorter that is not', () => {
    const answer = reach(
      [
        tube('V1'),
        ...posts,
        selector('S2', ['X', 'Y', 'Z']),
        ohms('resistor', 'R9', 100),
        onOff('S1', 'open'),
      ],
      [...oneTube, 'B+45 X R9.start', 'Y A+', 'R9.finish S1.start', 'S1.finish A+'],
    );
    expect(answer.reaches && answer.steps.map((step) => step.part)).toEqual(['R9', 'S1']);
  });

  it('one pair of phones does not stand in two jacks', () => {
    const parts = [tube('V1'), part('post', 'X'), part('post', 'Y'), ohms('phones', 'P1', 50)];
    const wires = [...oneTube, 'B+45 J1.tip', 'J1.sleeve X', 'J2.tip Y', 'J2.sleeve A+'];
    const springs = (name: string) => ({
      ...jack(name, 'P1'),
      contacts: jack(name, 'P1').contacts.slice(1),
    });
    const both = reach([...parts, springs('J1'), springs('J2')], wires);
    expect(both).toEqual({ reaches: false, exhaustive: true, through: [] });
  });

  it('a potentiometer is not at both its ends at once', () => {
    const wires = [...oneTube, 'B+45 R9.start', 'R9.finish A+'];
    const whole = reach([tube('V1'), ohms('potentiometer', 'R9', 5000)], wires);
    const arm = reach(
      [tube('V1'), ohms('potentiometer', 'R9', 5000)],
      [...oneTube, 'B+45 R9.finish', 'R9.arm A+'],
    );
    expect([whole.reaches, arm.reaches]).toEqual([false, true]);
    expect(arm.reaches && arm.settings.travels.get('R9')).toBe(1);
  });
});

/** A small generator of whole numbers, so that every run is the same. */
function numbers(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}

/** Selectors, switches, a potentiometer and resistors wired at random round one sturdy tube. */
function randomSet(seed: number): Circuit {
  const pick = numbers(seed);
  const names = ['A-', 'A+', 'B-', 'B+45', 'V1.filament-', 'V1.filament+', 'X', 'Y', 'Z', 'W'];
  const posts = ['X', 'Y', 'Z', 'W'].map((name) => part('post', name));
  const parts: PartDraft[] = [
    A,
    battery('B', { 'B-': 0, 'B+45': 45 }),
    tube('V1', filamentType('sturdy', 5, 1000)),
    ...posts,
  ];
  const wires = ['A- V1.filament-'];
  const anywhere = () => names[pick(names.length)] as string;
  const inside = () => ['X', 'Y', 'Z', 'W', 'B+45', 'V1.filament+', 'A+'][pick(7)] as string;
  if (pick(2)) wires.push('A+ V1.filament+');
  if (pick(3)) wires.push('B- A-');
  for (let n = 0; n < 3; n++) {
    const studs = ['X', 'Y', 'Z', 'W', 'V1.filament+'].filter(() => pick(2));
    if (studs.length < 2) continue;
    parts.push(selector(`S${n}`, studs, pick(studs.length)));
    if (pick(2)) wires.push(`S${n}.arm ${inside()}`);
  }
  for (let n = 0; n < 2; n++) {
    parts.push(onOff(`K${n}`, pick(2) ? 'open' : 'closed'));
    wires.push(`K${n}.start ${anywhere()}`, `K${n}.finish ${anywhere()}`);
  }
  parts.push(ohms('potentiometer', 'P', 300));
  wires.push(`P.start ${inside()}`, `P.arm ${inside()}`, `P.finish ${inside()}`);
  for (let n = 0; n < 2; n++) {
    parts.push(ohms('resistor', `R${n}`, [50, 150, 250][pick(3)] as number));
    wires.push(`R${n}.start ${inside()}`, `R${n}.finish ${inside()}`);
  }
  return setOf(parts, wires);
}

/** The same question by trying every combination of positions one after the other. */
function byEveryPosition(circuit: Circuit): boolean {
  const base = asOn(circuit).settings;
  const free = controls(circuit);
  const total = free.reduce((product, { positions }) => product * positions.length, 1);
  for (let number = 0; number < total * 2; number++) {
    let rest = number >> 1;
    const positions = new Map(base.positions);
    for (const { part: control, positions: choices } of free) {
      positions.set(control.name, choices[rest % choices.length] as number);
      rest = Math.floor(rest / choices.length);
    }
    const conduction = conductionOf(circuit, {
      ...base,
      positions,
      travels: new Map([['P', number & 1]]),
    });
    const zero = junction(circuit, 'B.B-');
    const shorted = directReach(conduction, zero, (o) => o === 0, new Set(), 0);
    const tap = junction(circuit, 'B.B+45');
    if (shorted.has(tap)) continue;
    const reached = directReach(conduction, tap, () => true, shorted, 199.9);
    for (const end of ['V1.filament-', 'V1.filament+']) {
      const at = junction(circuit, end);
      if (reached.has(at)) return true;
    }
  }
  return false;
}

/** Junctions within so many ohms, by repeated relaxation (no cleverness to get wrong). */
function directReach(
  conduction: ReturnType<typeof conductionOf>,
  start: number,
  takes: (ohms: number) => boolean,
  barred: ReadonlySet<number>,
  most: number,
): Set<number> {
  const best = new Map([[start, 0]]);
  for (let changed = true; changed; ) {
    changed = false;
    for (const branch of conduction.branches) {
      if (branch.part === 'B' || branch.direct.kind === 'blocks') continue;
      const isSource = branch.direct.kind === 'source';
      const size = isSource ? 0 : (branch.direct.ohms ?? 0);
      if (isSource ? most === 0 : !takes(size)) continue;
      for (const [from, to] of [
        [branch.fromJunction, branch.toJunction],
        [branch.toJunction, branch.fromJunction],
      ] as const) {
        const here = best.get(from);
        if (here === undefined || barred.has(to) || here + size > most) continue;
        if (here + size < (best.get(to) ?? Number.POSITIVE_INFINITY)) {
          best.set(to, here + size);
          changed = true;
        }
      }
    }
  }
  return new Set(best.keys());
}

describe('the answer', () => {
  it('is that of trying every position, for 300 sets wired at random', () => {
    const answers = new Set<boolean>();
    for (let seed = 1; seed <= 300; seed++) {
      const circuit = randomSet(seed);
      const answer = supplyReachingFilament(circuit);
      answers.add(answer.reaches);
      expect([seed, answer.reaches]).toEqual([seed, byEveryPosition(circuit)]);
    }
    expect(answers.size).toBe(2);
  });

  it('comes with settings at which its path conducts', () => {
    for (let seed = 1; seed <= 200; seed++) {
      const circuit = randomSet(seed);
      const answer = supplyReachingFilament(circuit);
      if (!answer.reaches) continue;
      const conduction = conductionOf(circuit, answer.settings);
      let here = junction(circuit, answer.tap);
      for (const step of answer.steps) {
        const passes = conduction.at[here]?.some(
          (branch) =>
            branch.part === step.part &&
            branch.direct.kind !== 'blocks' &&
            (branch.fromJunction === step.junction || branch.toJunction === step.junction),
        );
        expect([seed, step.part, passes]).toEqual([seed, step.part, true]);
        here = step.junction;
      }
      expect(here).toBe(junction(circuit, answer.terminal));
    }
  });

  it('is settled in a second for a thousand stages with a switch and a jack each', () => {
    const stages = Array.from({ length: 1000 }, (_, index) => index);
    const circuit = setOf(
      [
        A,
        B,
        ...stages.flatMap((n) => [
          tube(`V${n}`),
          ohms('rheostat', `RH${n}`, 20),
          onOff(`S${n}`, 'closed'),
          jack(`J${n}`),
          ohms('winding', `L${n}`, 5),
        ]),
      ],
      [
        'A- B-',
        ...stages.flatMap((n) => [
          `A- S${n}.start`,
          `S${n}.finish RH${n}.start`,
          `RH${n}.finish V${n}.filament-`,
          `A+ V${n}.filament+`,
          `B+45 L${n}.start`,
          `L${n}.finish J${n}.tip`,
          `J${n}.sleeve V${n}.plate`,
        ]),
      ],
    );
    expect(supplyReachingFilament(circuit)).toEqual({
      reaches: false,
      exhaustive: true,
      through: [],
    });
  });
});
