import { coilMatrix, operatingPoint, tunedCircuits } from '@setwright/analysis';
import type { Circuit } from '@setwright/circuit';
import { describe, expect, it } from 'vitest';
import { standingOf } from '../src/chart/rest-source.ts';
import { type Edit, type Edited, edited, lineOf } from '../src/index.ts';
import { exampleSet, exampleText, setOf } from './example-set.ts';

const known = { laws: new WeakMap(), wires: new WeakMap() };
const five = exampleSet('five-tube-trf');

function with_(circuit: Circuit, ...edits: readonly Edit[]): Edited {
  const done = edited(standingOf(circuit, known), edits);
  expect(done.refused).toEqual([]);
  return done;
}

function pointOf({ circuit, settings, held }: Edited) {
  return operatingPoint(circuit, settings, { held, laws: known.laws });
}

function tubeOf(done: Edited, name: string) {
  return pointOf(done).tubes.find(({ tube }) => tube === name);
}

const ohms = (value: number) => ({ value, dimension: 'resistance' }) as const;
const sound = with_(five);

describe('a supposed fault', () => {
  it('leaves the set itself as it was', () => {
    const before = JSON.stringify(five.parts.map(({ ends, values }) => [ends, values]));
    with_(five, { verb: 'open', target: 'T1.primary' }, { verb: 'short', target: 'R1' });
    expect(JSON.stringify(five.parts.map(({ ends, values }) => [ends, values]))).toBe(before);
  });

  it('may be several at once, one after another', () => {
    const done = with_(
      five,
      { verb: 'open', target: 'R3' },
      { verb: 'join', target: 'V3.grid', other: 'A.A-', amount: ohms(2e6) },
    );
    expect(tubeOf(done, 'V3')?.bias?.value).toBeLessThan(-0.5);
  });

  it('of a part that is not there is refused in words', () => {
    const { refused } = edited(standingOf(five, known), [{ verb: 'open', target: 'R77' }]);
    expect(refused).toEqual(['there is no R77']);
  });
});

describe('the line of an edit', () => {
  it.each([
    [{ verb: 'change', target: 'R3' }, 'change R3'],
    [{ verb: 'swap', target: 'V1' }, 'swap V1'],
    [{ verb: 'join', target: 'V1.grid' }, 'join V1.grid'],
    [{ verb: 'plug', target: 'PH1' }, 'plug PH1'],
    [{ verb: 'turns shorted', target: 'L1.grid' }, 'turns shorted in L1.grid'],
    [{ verb: 'damped', target: 'L1.grid' }, 'damped L1.grid'],
    [{ verb: 'join', target: 'A+', other: 'B-', amount: ohms(5) }, 'join A+ to B- through 5 ohms'],
  ] satisfies [Edit, string][])('%j is: %s', (edit, line) => {
    expect(lineOf(edit)).toBe(line);
  });
});

describe('each verb', () => {
  it('open: no current goes through the part', () => {
    const point = pointOf(with_(five, { verb: 'open', target: 'T1.primary' }));
    expect(
      point.supplies.flatMap(({ taps }) => taps).find(({ tap }) => tap === 'B+45')?.amperes?.value,
    ).toBeCloseTo(0, 9);
  });

  it('open, of one end: that end alone is off', () => {
    const done = with_(five, { verb: 'open', target: 'V4.plate' });
    expect(tubeOf(done, 'V4')?.plateCurrent?.value).toBeCloseTo(0, 9);
    expect(tubeOf(done, 'V5')?.plateCurrent?.value).toBeGreaterThan(1e-3);
  });

  it('short: both ends have the same volts', () => {
    const point = pointOf(with_(five, { verb: 'short', target: 'RH1' }));
    expect(point.voltage('RH1.start', 'RH1.finish')).toBeCloseTo(0, 9);
  });

  it('leaky: a condenser passes direct current', () => {
    const done = with_(five, { verb: 'leaky', target: 'C5', amount: ohms(20e3) });
    const before = pointOf(sound).supplies.find(({ supply }) => supply === 'B')?.drain?.value ?? 0;
    const after = pointOf(done).supplies.find(({ supply }) => supply === 'B')?.drain?.value ?? 0;
    expect(after - before).toBeCloseTo(67.5 / 20e3, 3);
  });

  it('weak, of a tube: about so much of its plate current is left', () => {
    const half = { value: 0.5, dimension: 'percent' } as const;
    const before = tubeOf(sound, 'V1')?.plateCurrent?.value ?? 0;
    const after = tubeOf(with_(five, { verb: 'weak', target: 'V1', amount: half }), 'V1');
    expect((after?.plateCurrent?.value ?? 0) / before).toBeGreaterThan(0.4);
    expect((after?.plateCurrent?.value ?? 0) / before).toBeLessThan(0.55);
  });

  it('weak, of a tube: a little more on its filament brings much of it back', () => {
    const tired = {
      verb: 'weak',
      target: 'V1',
      amount: { value: 0.3, dimension: 'percent' },
    } as const;
    const cold = tubeOf(with_(five, tired, { verb: 'set', target: 'RH1', amount: ohms(3) }), 'V1');
    const hot = tubeOf(with_(five, tired), 'V1');
    const rise = (hot?.plateCurrent?.value ?? 0) / (cold?.plateCurrent?.value ?? 1);
    const soundCold = tubeOf(with_(five, { verb: 'set', target: 'RH1', amount: ohms(3) }), 'V1');
    const soundRise =
      (tubeOf(sound, 'V1')?.plateCurrent?.value ?? 0) / (soundCold?.plateCurrent?.value ?? 1);
    expect(rise).toBeGreaterThan(1.2 * soundRise);
  });

  it('gas: ions drive the grid up through a high leak', () => {
    const resistance = exampleSet('resistance-coupled');
    const amount = { value: 2e-6, dimension: 'current' } as const;
    const before = tubeOf(with_(resistance), 'V4')?.bias?.value ?? 0;
    const after = tubeOf(with_(resistance, { verb: 'gas', target: 'V4', amount }), 'V4');
    expect((after?.bias?.value ?? 0) - before).toBeGreaterThan(0.2);
  });

  it('change, of a contact: its ohms stand in the lead', () => {
    const done = with_(five, { verb: 'change', target: 'S1', amount: ohms(0.5) });
    expect(tubeOf(done, 'V1')?.filamentVolts?.value).toBeLessThan(4.6);
  });

  it('set: a rheostat turned', () => {
    const done = with_(five, { verb: 'set', target: 'RH1', amount: ohms(4) });
    expect(tubeOf(done, 'V1')?.filamentVolts?.value).toBeLessThan(4.5);
  });

  it('set off: its tubes are dark', () => {
    const done = with_(five, { verb: 'set', target: 'RH1', words: ['off'] });
    expect(Math.abs(tubeOf(done, 'V1')?.filamentVolts?.value ?? 0)).toBeLessThan(1e-6);
  });

  it('remove: the tube is out of its socket, and the others on its rheostat burn brighter', () => {
    const done = with_(five, { verb: 'remove', target: 'V1' });
    expect(tubeOf(done, 'V1')).toBeUndefined();
    expect(tubeOf(done, 'V2')?.filamentVolts?.value).toBeGreaterThan(5.3);
  });

  it('reverse, of a C battery: the grids it biases are positive', () =>
    expect(
      tubeOf(with_(five, { verb: 'reverse', target: 'C' }), 'V5')?.bias?.value,
    ).toBeGreaterThan(0));

  it('swap: two tubes in each other’s socket', () => {
    const set = exampleSet('neutralized-five');
    const done = with_(set, { verb: 'swap', target: 'V4', other: 'V5' });
    expect(done.circuit.partNamed.get('V4')?.typeName).toBe('12-A');
    expect(done.circuit.partNamed.get('V5')?.typeName).toBe('01-A');
  });

  it('swap, of two terminals: each has what the other had', () => {
    const done = with_(five, { verb: 'swap', target: 'B.B+45', other: 'B.B+67' });
    expect(tubeOf(done, 'V3')?.plateVolts?.value).toBeGreaterThan(60);
  });

  it('join: through ohms current flows from one point to the other', () => {
    const done = with_(five, {
      verb: 'join',
      target: 'T2.primary.start',
      other: 'T2.secondary.finish',
      amount: ohms(20e3),
    });
    expect(tubeOf(done, 'V5')?.bias?.value).toBeGreaterThan(0);
  });

  it('turns shorted: the winding has fewer ohms and its coil tunes higher', () => {
    const amount = { value: 5, dimension: 'turns' } as const;
    const done = with_(five, { verb: 'turns shorted', target: 'L2.grid', amount });
    const henries = (circuit: Circuit) => {
      const matrix = coilMatrix(circuit, 'L2');
      const at =
        matrix?.sections.findIndex(({ winding, to }) => winding === 'L2.grid' && to !== '') ?? -1;
      return matrix?.entries[at]?.[at] ?? Number.NaN;
    };
    expect(henries(done.circuit)).toBeLessThan(0.97 * henries(five));
  });

  it('damped: a resistance across the coil that leaves it the Q that is said', () => {
    const amount = { value: 20, dimension: 'number' } as const;
    const done = with_(five, { verb: 'damped', target: 'L2.grid', amount });
    const loss = done.circuit.partNamed.get('loss in L2.grid')?.values.resistance?.value ?? 0;
    const henries =
      coilMatrix(five, 'L2')?.windings.find(({ part }) => part.name === 'L2.grid')?.inductance
        .value ?? 0;
    // Q of 20 at the middle of 550 to 1500 kc: a little more ohms than twenty times the reactance.
    const reactance = 2 * Math.PI * Math.sqrt(550e3 * 1500e3) * henries;
    expect(loss / reactance).toBeGreaterThan(20);
    expect(loss / reactance).toBeLessThan(25);
  });

  it('plug: the phones stand in the jack, and out of the other', () => {
    const pair = exampleSet('two-tube');
    const before = pointOf(with_(pair)).parts.find(({ part }) => part === 'PH1')?.amperes?.value;
    const done = with_(pair, { verb: 'plug', target: 'PH1', other: 'J1' });
    const point = pointOf(done);
    const phones = point.parts.find(({ part }) => part === 'PH1')?.amperes?.value;
    expect(phones).not.toBeCloseTo(before ?? 0, 5);
    expect(Math.abs(phones ?? 0)).toBeCloseTo(tubeOf(done, 'V1')?.plateCurrent?.value ?? 0, 6);
  });

  it('intermittent and microphonic: while they hold off every number is that of the sound set', () => {
    const done = with_(
      five,
      { verb: 'intermittent', target: 'S1' },
      { verb: 'microphonic', target: 'V3' },
    );
    expect(tubeOf(done, 'V3')?.plateCurrent?.value).toBe(tubeOf(sound, 'V3')?.plateCurrent?.value);
  });
});

/** Volts of every terminal that both sets have, above A−. */
function voltsOf({ circuit, settings, held }: Edited): Map<string, number> {
  const point = operatingPoint(circuit, settings, { held, laws: known.laws });
  return new Map(
    [...circuit.endNamed.keys()].flatMap((id) => {
      const volts = point.voltage(id, 'A.A-');
      return volts === undefined ? [] : [[id, volts] as const];
    }),
  );
}

describe('a supposed fault gives what the text with the fault in it gives', () => {
  const cases: readonly [name: string, edit: Edit, from: string | RegExp, to: string][] = [
    ['a condenser taken out', { verb: 'open', target: 'C5' }, /\n.*condenser C5 .*\n/, '\n'],
    [
      'a leak of another value',
      { verb: 'change', target: 'R3', amount: ohms(10e6) },
      'leak R3 "grid leak" 2 meg 30 %',
      'leak R3 "grid leak" 10 meg',
    ],
    [
      'a losser bridged by wire',
      { verb: 'short', target: 'R1' },
      'resistor R1 "first losser"',
      'wire L1.grid.finish to V1.grid\n    resistor R1 "first losser"',
    ],
    [
      'a rheostat turned',
      { verb: 'set', target: 'RH1', amount: ohms(4) },
      'rheostat RH1 "radio rheostat" 10 ohms from NEG set 2 ohms',
      'rheostat RH1 "radio rheostat" 10 ohms from NEG set 4 ohms',
    ],
    [
      'a leak across a bypass',
      { verb: 'leaky', target: 'C5', amount: ohms(20e3) },
      'condenser C5 "radio bypass"',
      'resistor LEAK 20 kilohms from B+67 to NEG\n    condenser C5 "radio bypass"',
    ],
    [
      'a battery down',
      { verb: 'change', target: 'B.B+45', amount: { value: 38, dimension: 'voltage' } },
      'tap B+45 45 V',
      'tap B+45 38 V',
    ],
  ];

  it.each(cases)('%s', (_, edit, from, to) => {
    const text = exampleText('five-tube-trf')
      .replace(from, to)
      .replace(/bench "[\s\S]*$/, '}');
    const written = setOf(text);
    const [one, other] = [voltsOf(with_(five, edit)), voltsOf(with_(written))];
    let compared = 0;
    for (const [id, volts] of other) {
      const here = one.get(id);
      if (here === undefined) continue;
      expect(Math.abs(here - volts) / (1 + Math.abs(volts))).toBeLessThan(1e-6);
      compared++;
    }
    expect(compared).toBeGreaterThan(60);
    // The circuits are tuned alike besides.
    expect(tunedCircuits(with_(five, edit).circuit).map(({ name }) => name)).toEqual(
      tunedCircuits(written).map(({ name }) => name),
    );
  });
});
