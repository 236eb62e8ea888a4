import { describe, expect, it } from 'vitest';
import { readReceivers } from '../src/receivers.ts';
import { areJoined, circuitOf, partOf, remarksOf, setOf, textOf, told, valuesOf } from './set.ts';

describe('the facts of a set', () => {
  it('year, band and notes', () => {
    const set = setOf('year 1926\ntunes 550 kc to 1500 kc\nnote "Found in a barn."');
    expect(set.title).toBe('Test');
    expect(set.year?.value).toBe(1926);
    expect([set.tunes?.low.value, set.tunes?.high.value]).toEqual([550e3, 1500e3]);
    expect(set.notes.map(({ text }) => text)).toEqual(['Found in a barn.']);
    expect(set.remarks).toEqual([]);
  });

  it.each([
    ['tunes 1500 kc to 550 kc', 550e3, 1500e3],
    ['tunes 550 to 1500 kHz', 550e3, 1500e3],
    ['tunes .55 Mc to 1.5 MHz', 550e3, 1500e3],
    ['tunes 200 to 545 meters', 299_792_458 / 545, 299_792_458 / 200],
  ])('%s: either order, and a unit lent to both', (line, low, high) => {
    const set = setOf(line);
    expect(set.tunes?.low.value).toBeCloseTo(low, 0);
    expect(set.tunes?.high.value).toBeCloseTo(high, 0);
    expect(set.remarks).toEqual([]);
  });

  it('a file may hold several receivers, with the same names in each', () => {
    const { circuits, remarks } = readReceivers(textOf('post X ground') + textOf('post X'), 'f');
    expect(circuits.map(({ title }) => title)).toEqual(['Test', 'Test']);
    expect(circuits.flatMap((circuit) => circuit.remarks)).toEqual([]);
    expect(remarks).toEqual([]);
    expect(circuits.map((circuit) => partOf(circuit, 'X').words.has('ground'))).toEqual([
      true,
      false,
    ]);
  });

  it('comments of both kinds say nothing', () => {
    const set = setOf('post X ground // battery Y\n/* post Z\n condenser C1 */ post W');
    expect(set.parts.map(({ name }) => name)).toEqual(['A', 'X', 'W']);
    expect(set.remarks).toEqual([]);
  });

  it('lines may end in CR LF, and places still fit', () => {
    const text = textOf('leak R1 2 M from A- to A+').replaceAll('\n', '\r\n');
    const [only, ...rest] = remarksOf(text);
    expect(rest).toEqual([]);
    expect(text.slice(only?.place.start, only?.place.end)).toBe('2 M');
    expect(circuitOf(text.replace('2 M', '2 meg')).remarks).toEqual([]);
  });

  it('a printed minus and the ohm and micro signs read as their plain forms', () => {
    const set = setOf(
      'battery C dry {\n tap C+\n tap C\u22124.5\n}\nresistor R1 2 M\u2126 from C\u22124.5 to A\u2212\nresistor R2 5 \u03a9 from A+ to C-4.5\ncondenser C1 .1 \u00b5F from A\u2212 to A+\nchoke L1 5 \u03bcH from A- to A+',
    );
    expect(set.remarks).toEqual([]);
    expect(partOf(set, 'C').supplyTaps.map(({ end, volts }) => [end, volts])).toEqual([
      ['C+', 0],
      ['C-4.5', -4.5],
    ]);
    expect(areJoined(set, 'R1.start', 'R2.finish', 'C.C-4.5')).toBe(true);
    expect(valuesOf(partOf(set, 'R1')).resistance).toBe(2e6);
    expect(valuesOf(partOf(set, 'C1')).capacitance).toBe(1e-7);
    expect(valuesOf(partOf(set, 'L1')).inductance).toBe(5e-6);
  });

  it('nothing depends on what stands above or below', () => {
    const lines = [
      'resistor R1 5 ohms from NEG to P1',
      'bus NEG',
      'post P1',
      'wire A- to NEG',
      'leak R2 2 meg from R1.finish to A+',
    ];
    const down = setOf(lines.join('\n'));
    const up = setOf([...lines].reverse().join('\n'));
    for (const set of [down, up]) {
      expect(set.remarks).toEqual([]);
      expect(areJoined(set, 'A.A-', 'NEG', 'R1.start')).toBe(true);
      expect(areJoined(set, 'R1.finish', 'P1', 'R2.start')).toBe(true);
    }
  });

  it('a detail may stand on the next, deeper line when a connecting word leads it', () => {
    const set = setOf('resistor R1 5 ohms\n    from A-\n    to A+');
    expect(set.remarks).toEqual([]);
    expect(areJoined(set, 'R1.start', 'A.A-')).toBe(true);
    expect(areJoined(set, 'R1.finish', 'A.A+')).toBe(true);
  });
});

describe('supplies, posts and wires', () => {
  it('taps take their volts from the line, else from the name', () => {
    const set = setOf(
      'battery B dry "two blocks" {\n tap B-\n tap B+45\n tap B+112 112.5 V\n capacity 5 Ah\n resistance 30 ohms\n}',
    );
    const battery = partOf(set, 'B');
    expect(battery.title).toBe('two blocks');
    expect(battery.words.has('dry')).toBe(true);
    expect(battery.supplyTaps.map(({ volts }) => volts)).toEqual([0, 45, 112.5]);
    expect(battery.supplyTaps.map(({ said }) => said?.text)).toEqual([
      undefined,
      undefined,
      '112.5 V',
    ]);
    expect(valuesOf(battery)).toEqual({ capacity: 5 * 3600, resistance: 30 });
    expect(set.remarks).toEqual([]);
  });

  it('a bare plus is the zero of a C battery, and a bare minus that of any other', () => {
    const set = setOf('battery C dry {\n tap C+\n tap C-4.5\n tap C-9\n}');
    expect(partOf(set, 'C').supplyTaps.map(({ volts }) => volts)).toEqual([0, -4.5, -9]);
    expect(partOf(set, 'A').supplyTaps.map(({ volts }) => volts)).toEqual([0, 6]);
  });

  it('an eliminator tap has its load and its resistance', () => {
    const set = setOf(
      'eliminator E {\n tap E-\n tap B+45 45 V at 1 mA resistance 20 kilohms\n earthed E-\n}',
    );
    const [, tap] = partOf(set, 'E').supplyTaps;
    expect([tap?.volts, tap?.atLoad, tap?.resistance]).toEqual([45, 0.001, 20_000]);
    expect(partOf(set, 'E').words.has('earthed E-')).toBe(true);
    expect(set.remarks).toEqual([]);
  });

  it('a battery is made like another', () => {
    const set = setOf('battery B2 like A {\n tap X-\n tap X+6 6 V\n}');
    expect(partOf(set, 'B2').words.has('storage')).toBe(true);
    expect(set.remarks).toEqual([]);
  });

  it('posts have their kind, and an aerial its capacity and resistance', () => {
    const set = setOf(
      'post ANT "long aerial" aerial 250 mmfd 20 ohms\npost GND ground\npost L loop\npost S speaker\npost P phones',
    );
    expect(valuesOf(partOf(set, 'ANT'))).toEqual({ capacitance: 250e-12, resistance: 20 });
    expect(partOf(set, 'ANT').title).toBe('long aerial');
    for (const [name, word] of [
      ['GND', 'ground'],
      ['L', 'loop'],
      ['S', 'speaker'],
      ['P', 'phones'],
    ] as const)
      expect(partOf(set, name).words.has(word)).toBe(true);
    expect(set.remarks).toEqual([]);
  });

  it('a wire joins all that it names', () => {
    const set = setOf('bus NEG "negative bus"\npost GND ground\nwire A- to NEG to GND');
    expect(areJoined(set, 'A.A-', 'NEG', 'GND')).toBe(true);
    expect(set.junctions.find(({ terminals }) => terminals.includes('NEG'))?.name).toBe('A-');
  });

  it('a wire with ohms is a lead between two points', () => {
    const set = setOf('bus NEG\nwire A- to NEG .4 ohms');
    expect(areJoined(set, 'A.A-', 'NEG')).toBe(false);
    const lead = set.parts.find(({ kind }) => kind === 'lead');
    expect(lead && valuesOf(lead)).toEqual({ resistance: 0.4 });
    expect(areJoined(set, 'A.A-', `${lead?.name}.start`)).toBe(true);
    expect(areJoined(set, 'NEG', `${lead?.name}.finish`)).toBe(true);
  });

  it('saying a join twice is no fault of the reading', () => {
    const set = setOf('resistor R1 5 ohms from A- to A+\nwire A- to R1.start');
    expect(set.remarks).toEqual([]);
    expect(areJoined(set, 'A.A-', 'R1.start')).toBe(true);
  });

  it('a post that has the name of a tap is that tap', () => {
    const set = setOf('post A+\nresistor R1 5 ohms from A- to A+');
    expect(set.remarks).toEqual([]);
    expect(areJoined(set, 'A.A+', 'A+', 'R1.finish')).toBe(true);
  });

  it('in a set of two boxes a tap is that of its own stage', () => {
    const set = setOf(
      ['RF', 'AF']
        .map(
          (stage) =>
            `radio stage ${stage} {\n battery B${stage} dry {\n tap B-\n tap B+90\n }\n resistor R${stage} 5 ohms from B- to B+90\n}`,
        )
        .join('\n'),
    );
    expect(set.remarks).toEqual([]);
    expect(areJoined(set, 'RRF.finish', 'BRF.B+90')).toBe(true);
    expect(areJoined(set, 'RAF.finish', 'BAF.B+90')).toBe(true);
    expect(areJoined(set, 'RRF.finish', 'RAF.finish')).toBe(false);
  });
});

describe('coils and transformers', () => {
  it('a winding by its geometry', () => {
    const set = setOf(
      'coil L1 "coupler" {\n form 2 3/4 in by 4 in\n tuned 45 kc\n winding aerial 12 turns of 26 DCC taps 4, 8 from A-\n winding grid 58 of 30 swg enamel length 1 1/2 in beside aerial spaced 1/4 in from A+\n winding tick 14 turns of 30 SSC over grid at start paper .01 in reversed\n winding rot 10 turns of 24 bare inside grid on form 2 in set -30 %\n coupling aerial with grid k .3\n}',
    );
    expect(set.remarks).toEqual([]);
    const coil = valuesOf(partOf(set, 'L1'));
    expect(coil.form).toBeCloseTo(2.75 * 0.0254, 9);
    expect(coil.formLength).toBeCloseTo(4 * 0.0254, 9);
    expect(coil.tuned).toBe(45e3);
    expect(coil['coupling aerial grid']).toBe(0.3);
    const aerial = partOf(set, 'L1.aerial');
    expect(aerial.owner).toBe('L1');
    expect(aerial.winding?.turns?.value).toBe(12);
    expect(aerial.winding?.gauge).toMatchObject({ number: 26, table: 'B&S' });
    expect(aerial.winding?.covering).toBe('DCC');
    expect(aerial.winding?.form?.value).toBe(coil.form);
    expect(aerial.taps.map(({ end, turns, fraction }) => [end, turns, fraction])).toEqual([
      ['tap4', 4, 4 / 12],
      ['tap8', 8, 8 / 12],
    ]);
    const grid = partOf(set, 'L1.grid').winding;
    expect(grid?.turns?.value).toBe(58);
    expect(grid?.gauge).toMatchObject({ number: 30, table: 'SWG' });
    expect(grid?.covering).toBe('enamel');
    expect(grid?.beside).toBe('L1.aerial');
    expect(grid?.spaced?.value).toBeCloseTo(0.00635, 9);
    expect(grid?.length?.value).toBeCloseTo(0.0381, 9);
    const tick = partOf(set, 'L1.tick').winding;
    expect([tick?.over, tick?.at, tick?.reversed]).toEqual(['L1.grid', 'start', true]);
    expect(tick?.paper?.value).toBeCloseTo(0.000254, 9);
    const rot = partOf(set, 'L1.rot');
    expect(rot.winding?.inside).toBe('L1.grid');
    expect(rot.winding?.form?.value).toBeCloseTo(0.0508, 9);
    expect(rot.setting).toMatchObject({ kind: 'fraction', fraction: -0.3 });
  });

  it('a winding by its values', () => {
    const set = setOf('coil L1 {\n winding a 240 uH 6 ohms 20 %\n winding b 20 uH\n}');
    expect(valuesOf(partOf(set, 'L1.a'))).toEqual({
      inductance: 240e-6,
      resistance: 6,
      tolerance: 0.2,
    });
    expect(set.remarks).toEqual([]);
  });

  it('taps: ranges, lists, one that goes somewhere, the centre, and a percentage', () => {
    const set = setOf(
      'post P\ncoil L1 {\n winding a 60 turns taps 1 to 3, 20 tap 13 to A+\n winding b 240 uH centre to A-\n winding c 60 turns tap 25 % centre\n}\nwire P to L1.b.centre',
    );
    expect(set.remarks).toEqual([]);
    expect(partOf(set, 'L1.a').taps.map(({ end }) => end)).toEqual([
      'tap1',
      'tap2',
      'tap3',
      'tap20',
      'tap13',
    ]);
    expect(areJoined(set, 'L1.a.tap13', 'A.A+')).toBe(true);
    expect(areJoined(set, 'L1.b.centre', 'A.A-', 'P')).toBe(true);
    expect(partOf(set, 'L1.b').taps[0]?.fraction).toBe(0.5);
    expect(partOf(set, 'L1.c').taps.map(({ fraction }) => fraction)).toEqual([0.25, 0.5]);
  });

  it('an iron transformer answers to the letters stamped on it', () => {
    const set = setOf(
      'post P1\npost P2\npost P3\npost P4\ntransformer T1 ratio 1 to 3.5 {\n winding primary 14 H 800 ohms\n winding secondary 5200 ohms\n}\nwire P1 to T1.P\nwire P2 to T1.B\nwire P3 to T1.F\nwire P4 to T1.G',
    );
    expect(set.remarks).toEqual([]);
    expect(valuesOf(partOf(set, 'T1')).ratio).toBe(3.5);
    expect(areJoined(set, 'P1', 'T1.primary.start')).toBe(true);
    expect(areJoined(set, 'P2', 'T1.primary.finish')).toBe(true);
    expect(areJoined(set, 'P3', 'T1.secondary.start')).toBe(true);
    expect(areJoined(set, 'P4', 'T1.secondary.finish')).toBe(true);
  });

  it('`air` makes a transformer an air-core one', () => {
    const set = setOf('transformer T1 air {\n winding a 1 mH\n winding b 1 mH\n tuned 45 kc\n}');
    expect(partOf(set, 'T1').words.has('air')).toBe(true);
    expect(valuesOf(partOf(set, 'T1')).tuned).toBe(45e3);
  });

  it('a variometer has a range and a setting', () => {
    const set = setOf('variometer VM1 20 to 400 uH from A- to A+ set 30 %');
    const part = partOf(set, 'VM1');
    expect(part.ranges.inductance?.low.value).toBeCloseTo(20e-6, 12);
    expect(part.ranges.inductance?.high.value).toBeCloseTo(400e-6, 12);
    expect(part.setting).toMatchObject({ fraction: 0.3 });
  });

  it('a loop may have a centre', () => {
    const set = setOf('loop LP1 180 uH 18 turns centre to A- from A+');
    expect(set.remarks).toEqual([]);
    expect(areJoined(set, 'LP1.centre', 'A.A-')).toBe(true);
  });
});

describe('made like another', () => {
  it('a coil takes the form, windings, taps and couplings, and none of the joins', () => {
    const set = setOf(
      'coil L1 {\n form 3 in\n winding a 10 turns of 24 DCC from A-\n winding b 40 turns of 24 DCC tap 20 to A+ beside a from A-\n coupling a with b k .3\n}\ncoil L2 like L1 {\n winding b 50 turns from A+\n}',
    );
    expect(set.remarks).toEqual([]);
    expect(valuesOf(partOf(set, 'L2'))).toEqual(valuesOf(partOf(set, 'L1')));
    const a = partOf(set, 'L2.a');
    const b = partOf(set, 'L2.b');
    expect(a.winding?.turns?.value).toBe(10);
    expect(a.winding?.form?.value).toBeCloseTo(0.0762, 9);
    expect(b.winding?.turns?.value).toBe(50);
    expect(b.winding?.beside).toBe('L2.a');
    expect(b.taps.map(({ end }) => end)).toEqual(['tap20']);
    expect(areJoined(set, 'L2.b.start', 'A.A+')).toBe(true);
    expect(areJoined(set, 'L2.a.start', 'A.A-')).toBe(false);
    expect(areJoined(set, 'L2.b.tap20', 'A.A+')).toBe(false);
  });

  it('a condenser takes values and words, says its own anew, and is not found the same', () => {
    const set = setOf(
      'condenser C1 variable 14 to 365 mmfd 200 V 10 % found 300 mmfd rotor to A- stator to A+\ncondenser C2 insulated 20 to 500 mmfd like C1 rotor to A- stator to A+\ncondenser C3 like C1 from A- to A+',
    );
    expect(set.remarks).toEqual([]);
    const second = partOf(set, 'C2');
    expect(second.ranges.capacitance?.high.value).toBeCloseTo(500e-12, 15);
    expect([...second.words].sort()).toEqual(['insulated', 'variable']);
    expect(valuesOf(second)).toEqual({ ratedVoltage: 200, tolerance: 0.1 });
    const third = partOf(set, 'C3');
    expect(third.ends.map(({ name }) => name)).toEqual(['rotor', 'stator']);
    expect(third.ranges.capacitance?.low.value).toBeCloseTo(14e-12, 15);
    expect(third.values.found).toBeUndefined();
  });

  it('a tube takes the type', () => {
    const set = setOf('tube V1 01-A\ntube V2 like V1 {\n filament from A- to A+\n}');
    expect(set.remarks).toEqual([]);
    expect(partOf(set, 'V2').tubeType?.name).toBe('01-A');
  });

  it('a chain of likes reaches the last, in whatever order it is written', () => {
    const set = setOf(
      'condenser C3 like C2 from A- to A+\ncondenser C2 like C1 from A- to A+\ncondenser C1 1 mfd from A- to A+',
    );
    expect(set.remarks).toEqual([]);
    expect(valuesOf(partOf(set, 'C3')).capacitance).toBe(1e-6);
  });

  it('a very long chain of likes is followed', () => {
    const count = 5000;
    const lines = Array.from({ length: count }, (_, index) =>
      index === count - 1 ? `resistor R${index} 5 ohms` : `resistor R${index} like R${index + 1}`,
    );
    expect(valuesOf(partOf(setOf(lines.join('\n')), 'R0')).resistance).toBe(5);
  });
});

describe('tubes', () => {
  it('electrodes go where their lines say; the filament from F- to F+', () => {
    const set = setOf(
      'post G\npost P\ntube V1 01-A "first" {\n filament from A- to A+\n grid to G\n plate to P\n}',
    );
    expect(set.remarks).toEqual([]);
    const tube = partOf(set, 'V1');
    expect(tube.title).toBe('first');
    expect(tube.tubeType?.filamentVolts).toBe(5);
    expect(areJoined(set, 'V1.filament-', 'A.A-')).toBe(true);
    expect(areJoined(set, 'V1.filament+', 'A.A+')).toBe(true);
    expect(areJoined(set, 'V1.grid', 'G')).toBe(true);
    expect(areJoined(set, 'V1.plate', 'P')).toBe(true);
  });

  it('either side of the filament may be said from elsewhere', () => {
    const set = setOf(
      'tube V1 01-A {\n filament to A+\n}\nresistor R1 4 ohms from A- to V1.filament',
    );
    expect(set.remarks).toEqual([]);
    expect(areJoined(set, 'R1.finish', 'V1.filament-')).toBe(true);
  });

  it('a heater tube has a cathode, a screen-grid tube a screen', () => {
    const set = setOf(
      'post K\npost S\ntube V1 27 {\n heater from A- to A+\n cathode to K\n}\ntube V2 22 {\n screen to S\n}',
    );
    expect(set.remarks).toEqual([]);
    expect(areJoined(set, 'V1.cathode', 'K')).toBe(true);
    expect(areJoined(set, 'V1.filament-', 'A.A-')).toBe(true);
    expect(areJoined(set, 'V2.screen', 'S')).toBe(true);
  });

  it('a tube of unknown type has the electrodes that are spoken of', () => {
    const set = setOf('post K\ntube V1 XYZ {\n cathode to K\n screen to A+\n}');
    expect(partOf(set, 'V1').ends.map(({ name }) => name)).toContain('cathode');
    expect(areJoined(set, 'V1.screen', 'A.A+')).toBe(true);
  });

  it('socket letters name the electrodes', () => {
    const set = setOf(
      'post P\npost Q\ntube V1 01-A\nwire P to V1.G\nwire Q to V1.P\nwire A- to V1.F-\nwire A+ to V1.F+',
    );
    expect(set.remarks).toEqual([]);
    expect(areJoined(set, 'P', 'V1.grid')).toBe(true);
    expect(areJoined(set, 'Q', 'V1.plate')).toBe(true);
    expect(areJoined(set, 'A.A+', 'V1.filament+')).toBe(true);
  });

  it.each(['01-A', '01A', '01a', '27', '12-A'])('the type %s is known', (type) => {
    const set = setOf(`tube V1 ${type}`);
    expect(set.remarks).toEqual([]);
    expect(partOf(set, 'V1').tubeType).toBeDefined();
  });
});

describe('condensers', () => {
  it('from and to, and across another part', () => {
    const set = setOf(
      'resistor R1 5 ohms from A- to A+\ncondenser C1 .00025 mfd 200 V 20 % mica from A- to A+\ncondenser C2 225 cm across R1',
    );
    expect(set.remarks).toEqual([]);
    expect(valuesOf(partOf(set, 'C1'))).toEqual({
      capacitance: 0.25e-9,
      ratedVoltage: 200,
      tolerance: 0.2,
    });
    expect(valuesOf(partOf(set, 'C2')).capacitance).toBeCloseTo(250.3e-12, 13);
    expect(areJoined(set, 'C2.start', 'R1.start')).toBe(true);
    expect(areJoined(set, 'C2.finish', 'R1.finish')).toBe(true);
  });

  it('a variable one has a rotor and a stator, a range and a law', () => {
    const set = setOf(
      'condenser C1 variable 14 to 365 mmfd law wavelength rotor to A- stator to A+\ncondenser C2 variable 23 plates from A- to A+\ncondenser C3 variable\nwire A- to C3.rotor',
    );
    expect(set.remarks).toEqual([]);
    expect(partOf(set, 'C1').ranges.capacitance?.low.value).toBeCloseTo(14e-12, 15);
    expect(partOf(set, 'C1').words.has('law wavelength')).toBe(true);
    expect(areJoined(set, 'C1.rotor', 'A.A-')).toBe(true);
    expect(valuesOf(partOf(set, 'C2')).plates).toBe(23);
    expect(['C1', 'C2', 'C3'].map((name) => partOf(set, name).sidesKnown)).toEqual([
      true,
      false,
      true,
    ]);
  });

  it('trimmers and neutralizing condensers may state how they are set', () => {
    const set = setOf(
      'condenser C1 trimmer 5 to 50 mmfd set 40 % from A- to A+\ncondenser C2 neutralizing 2 to 15 mmfd set 8 mmfd from A- to A+',
    );
    expect(set.remarks).toEqual([]);
    expect(partOf(set, 'C1').setting).toMatchObject({ fraction: 0.4 });
    expect(partOf(set, 'C2').values.set?.value).toBeCloseTo(8e-12, 15);
  });

  it('an electrolytic one has sides', () => {
    const set = setOf('condenser C1 electrolytic 8 mfd positive to A+ negative to A-');
    expect(set.remarks).toEqual([]);
    expect(areJoined(set, 'C1.positive', 'A.A+')).toBe(true);
    expect(partOf(set, 'C1').sidesKnown).toBe(true);
  });

  it('what it was found to be stands beside what it should be', () => {
    const set = setOf(
      'condenser C1 .006 mfd found .005 mfd from A- to A+\nleak R1 2 meg found open from A- to A+',
    );
    expect(valuesOf(partOf(set, 'C1'))).toEqual({ capacitance: 6e-9, found: 5e-9 });
    expect(partOf(set, 'R1').words.has('found open')).toBe(true);
  });
});

describe('resistances and controls', () => {
  it('resistor with a tap and a rating; leak with a range', () => {
    const set = setOf(
      'post P\nresistor R1 100 ohms 1/2 W 10 % tap 10 ohms to P from A- to A+\nleak R2 variable .5 to 10 meg from A- to A+\nresistor R3 20 ohms centre to P from A- to A+',
    );
    expect(set.remarks).toEqual([]);
    expect(valuesOf(partOf(set, 'R1'))).toEqual({
      resistance: 100,
      ratedPower: 0.5,
      tolerance: 0.1,
    });
    expect(partOf(set, 'R1').taps[0]?.fraction).toBeCloseTo(0.1, 12);
    expect(areJoined(set, 'R1.tap10', 'P', 'R3.centre')).toBe(true);
    expect(partOf(set, 'R2').ranges.resistance?.high.value).toBe(10e6);
  });

  it('rheostats and potentiometers are set in ohms, in percent, or off', () => {
    const set = setOf(
      'rheostat RH1 20 ohms from A- set 1.5 ohms\nrheostat RH2 20 ohms 1 A from A- set off\npotentiometer P1 400 ohms across A arm to RH1 set 30 %\npotentiometer P2 400 ohms from A- to A+ arm to RH2',
    );
    expect(set.remarks).toEqual([]);
    expect(partOf(set, 'RH1').setting).toMatchObject({ kind: 'ohms', ohms: 1.5 });
    expect(partOf(set, 'RH2').setting).toMatchObject({ kind: 'off' });
    expect(valuesOf(partOf(set, 'RH2')).ratedCurrent).toBe(1);
    expect(partOf(set, 'P1').setting).toMatchObject({ kind: 'fraction', fraction: 0.3 });
    expect(areJoined(set, 'P1.start', 'A.A-', 'P2.start')).toBe(true);
    expect(areJoined(set, 'P1.arm', 'RH1.finish')).toBe(true);
    expect(partOf(set, 'P2').setting).toBeUndefined();
  });

  it('ballasts, chokes, lamps and fuses', () => {
    const set = setOf(
      'ballast BA1 5 V .25 A from A- to A+\nchoke CH1 30 H 400 ohms 50 mA from A- to A+\nlamp LA1 6 V .15 A from A- to A+\nfuse F1 .5 A from A- to A+',
    );
    expect(set.remarks).toEqual([]);
    expect(valuesOf(partOf(set, 'BA1'))).toEqual({ volts: 5, ratedCurrent: 0.25 });
    expect(valuesOf(partOf(set, 'CH1'))).toEqual({
      inductance: 30,
      resistance: 400,
      ratedCurrent: 0.05,
    });
    expect(valuesOf(partOf(set, 'LA1'))).toEqual({ volts: 6, ratedCurrent: 0.15 });
    expect(valuesOf(partOf(set, 'F1'))).toEqual({ ratedCurrent: 0.5 });
  });

  it('units may be of two words', () => {
    const set = setOf(
      'resistor R1 100 k ohms from A- to A+\nbattery B dry {\n tap B-\n tap B+45\n capacity 5 ampere hours\n}',
    );
    expect(set.remarks).toEqual([]);
    expect(valuesOf(partOf(set, 'R1')).resistance).toBe(100e3);
    expect(valuesOf(partOf(set, 'B')).capacity).toBe(18_000);
  });
});

describe('phones, horns, crystals and shields', () => {
  it('a horn with its polarity, and without', () => {
    const set = setOf(
      'horn H1 2000 ohms positive to A+ negative to A-\nhorn H2 2000 ohms from A+ to A-\nspeaker S1 from A+ to A-\nwire A+ to S1.positive',
    );
    expect(set.remarks).toEqual([]);
    expect(areJoined(set, 'H1.start', 'A.A+')).toBe(true);
    expect(['H1', 'H2', 'S1'].map((name) => partOf(set, name).sidesKnown)).toEqual([
      true,
      false,
      true,
    ]);
  });

  it('a crystal has a mineral and a whisker', () => {
    const set = setOf('crystal X1 mineral to A- whisker to A+');
    expect(areJoined(set, 'X1.mineral', 'A.A-')).toBe(true);
    expect(areJoined(set, 'X1.whisker', 'A.A+')).toBe(true);
  });

  it('a shield stands around parts and goes to one point', () => {
    const set = setOf('condenser C1 1 mfd from A- to A+\nshield SH around C1, A to A-');
    expect(partOf(set, 'SH').companions).toEqual(['C1', 'A']);
    expect(areJoined(set, 'SH.shield', 'A.A-')).toBe(true);
  });
});

describe('switches, selectors and jacks', () => {
  const contacts = (body: string, name: string) =>
    partOf(setOf(body), name).contacts.map(
      ({ from, to, closedAt }) => `${from} ${to} ${closedAt.join(',')}`,
    );

  it('a switch is closed or open as drawn, and may have more poles', () => {
    const body =
      'post P\npost Q\nswitch S1 from A- to P open\nswitch S2 from A- to P breaks A+ to Q makes P to Q';
    expect(partOf(setOf(body), 'S1').drawnAt).toBe(1);
    expect(contacts(body, 'S1')).toEqual(['S1.start S1.finish 0']);
    expect(contacts(body, 'S2')).toEqual(['S2.start S2.finish 0', 'A.A+ Q 1', 'P Q 0']);
    expect(told(body)).toEqual([]);
  });

  it('a selector has a stud for each name and tap, and stands where it is set', () => {
    const body =
      'post ANT aerial\ncoil L1 {\n winding p 40 turns taps 1 to 9 from A-\n}\nselector S1 from ANT to A+, L1.p taps 2 to 3, 9, L1.p.finish set tap3';
    const selector = partOf(setOf(body), 'S1');
    expect(selector.positions).toEqual(['A+', 'tap2', 'tap3', 'tap9', 'L1.p.finish']);
    expect(selector.drawnAt).toBe(2);
    expect(contacts(body, 'S1')).toEqual([
      'S1.arm A.A+ 0',
      'S1.arm L1.p.tap2 1',
      'S1.arm L1.p.tap3 2',
      'S1.arm L1.p.tap9 3',
      'S1.arm L1.p.finish 4',
    ]);
    expect(told(body)).toEqual([]);
  });

  it.each([
    ['set tap9', 1],
    ['set 2', 1],
    ['set L1.p.tap9', 1],
    ['', 0],
  ])('a selector %s', (set, drawnAt) => {
    const body = `coil L1 {\n winding p 40 turns taps 4, 9\n}\nselector S1 from A- to L1.p.tap4, L1.p.tap9 ${set}`;
    expect(partOf(setOf(body), 'S1').drawnAt).toBe(drawnAt);
  });

  it('an empty jack passes the current through what it is switched to', () => {
    const body =
      'tube V1 01-A\ntransformer T1 {\n winding primary to A+\n winding secondary\n}\nphones PH1 2000 ohms into J1\njack J1 from V1.plate to A+ through T1.primary breaks A- to A+';
    expect(told(body)).toEqual([]);
    expect(partOf(setOf(body), 'J1').positions).toEqual(['empty', 'PH1']);
    expect(partOf(setOf(body), 'J1').drawnAt).toBe(1);
    expect(contacts(body, 'J1')).toEqual([
      'J1.tip T1.primary.start 0',
      'J1.tip PH1.start 1',
      'J1.sleeve PH1.finish 1',
      'A.A- A.A+ 0',
    ]);
  });

  it('a jack with nothing said closes its contact when it is empty', () => {
    const body = 'tube V1 01-A\njack J1 from V1.plate to A+';
    expect(contacts(body, 'J1')).toEqual(['J1.tip J1.sleeve 0', 'J1.tip J1.sleeve 1']);
  });
});

describe('gangs and dials', () => {
  const condensers =
    'condenser C1 variable 14 to 365 mmfd stator to A+\ncondenser C2 variable 14 to 365 mmfd stator to A+\n';

  it('a gang joins the rotors to its frame', () => {
    const set = setOf(`${condensers}gang G1 C1, C2 insulated frame to A-`);
    expect(set.remarks).toEqual([]);
    expect(set.gangs.map(({ name, members }) => [name, ...members])).toEqual([['G1', 'C1', 'C2']]);
    expect(areJoined(set, 'C1.rotor', 'C2.rotor', 'A.A-')).toBe(true);
    expect(partOf(set, 'C1').words.has('insulated')).toBe(true);
  });

  it('a dial drives gangs, condensers, controls and movable windings', () => {
    const set = setOf(
      `${condensers}rheostat RH1 20 ohms from A-\ncoil L1 {\n winding t 5 turns set 20 %\n}\ngang G1 C1, C2\ndial D1 "tuning" 0 to 180 drives G1\ndial D2 100 to 0 reversed drives RH1, L1.t`,
    );
    expect(set.remarks).toEqual([]);
    const [first, second] = set.dials;
    expect(first).toMatchObject({ name: 'D1', title: 'tuning', low: 0, high: 180, drives: ['G1'] });
    expect(second).toMatchObject({
      low: 100,
      high: 0,
      reversed: true,
      drives: ['RH1', 'L1.t'],
    });
  });
});

describe('a bare name is the free end', () => {
  it('where the part’s own line speaks of one end', () => {
    const set = setOf(
      'rheostat RH1 20 ohms from A-\ntube V1 01-A {\n filament from RH1 to A+\n}\ntube V2 01-A {\n filament from RH1 to A+\n}',
    );
    expect(set.remarks).toEqual([]);
    expect(areJoined(set, 'RH1.finish', 'V1.filament-', 'V2.filament-')).toBe(true);
  });

  it('where another line names one end', () => {
    const set = setOf('resistor R1 5 ohms\nwire A- to R1.start\nwire A+ to R1');
    expect(set.remarks).toEqual([]);
    expect(areJoined(set, 'A.A+', 'R1.finish')).toBe(true);
  });

  it('of both parts that a wire joins', () => {
    const set = setOf(
      'resistor R1 5 ohms\nresistor R2 5 ohms\nwire A- to R1.start\nwire A+ to R2.finish\nwire R1 to R2',
    );
    expect(set.remarks).toEqual([]);
    expect(areJoined(set, 'R1.finish', 'R2.start')).toBe(true);
  });

  it('where a selector names the other', () => {
    const set = setOf(
      'post ANT aerial\ncoil L1 {\n winding aerial 20 turns tap 10\n}\nselector S1 from ANT to L1.aerial.tap10, L1.aerial.finish\nwire L1.aerial to A-',
    );
    expect(set.remarks).toEqual([]);
    expect(areJoined(set, 'L1.aerial.start', 'A.A-')).toBe(true);
  });

  it('is the arm of a potentiometer or selector', () => {
    const set = setOf('post P\npotentiometer P1 400 ohms across A\nwire P to P1');
    expect(areJoined(set, 'P', 'P1.arm')).toBe(true);
  });

  it('a coil with one winding goes by the name of the whole', () => {
    const set = setOf(
      'coil L1 {\n winding only 40 turns from A-\n}\ncondenser C1 1 mfd across L1\nwire A+ to L1.finish',
    );
    expect(set.remarks).toEqual([]);
    expect(areJoined(set, 'C1.start', 'L1.only.start', 'A.A-')).toBe(true);
    expect(areJoined(set, 'L1.only.finish', 'A.A+')).toBe(true);
  });
});

describe('stages', () => {
  it('have roles, a title and parts, windings among them', () => {
    const set = setOf(
      'radio audio stage RX "reflex" {\n coil L1 {\n winding a 5 turns\n }\n tube V1 01-A\n wire A- to V1.F-\n}',
    );
    expect(set.stages[0]).toMatchObject({
      name: 'RX',
      title: 'reflex',
      roles: ['radio', 'audio'],
      parts: ['L1', 'L1.a', 'V1'],
    });
    expect(partOf(set, 'V1').stage).toBe('RX');
    expect(set.remarks).toEqual([]);
  });

  it('words that lead a statement may be names in another', () => {
    const set = setOf(
      'coil L1 {\n winding grid 5 turns from A-\n winding open 5 turns\n}\nbus change',
    );
    expect(set.remarks).toEqual([]);
    expect(set.partNamed.has('L1.grid')).toBe(true);
    expect(set.partNamed.has('change')).toBe(true);
  });
});

describe('what is meant', () => {
  it('holds for the set, a stage, a part or a winding', () => {
    const set = setOf(
      'meant shock-hazard "cabinet"\nradio stage RF {\n meant stage-oscillates "so it was"\n tube V1 01-A {\n meant grid-biased-positive "volume control"\n }\n coil L1 {\n winding a 5 turns {\n meant dangling-end "balancing"\n }\n }\n}',
    );
    expect(set.remarks).toEqual([]);
    expect(set.waivers.map(({ check, reason, parts }) => [check, reason, parts.join(' ')])).toEqual(
      expect.arrayContaining([
        ['shock-hazard', 'cabinet', ''],
        ['stage-oscillates', 'so it was', 'V1 L1 L1.a'],
        ['grid-biased-positive', 'volume control', 'V1'],
        ['dangling-end', 'balancing', 'L1.a'],
      ]),
    );
  });
});

describe('a bench', () => {
  it('keeps every reading with the terminal it speaks of', () => {
    const set = setOf(
      'tube V1 01-A\nresistor R1 5 ohms from A-\ncondenser C1 variable\ndial D1 0 to 100 drives C1\nbench "first" {\n meter 1000 ohms per volt 2 %\n actual A+ 5.9 V\n reading V1.plate to V1.filament 104 V on 250 V\n reading R1 open lifted\n reading A+ 1.26 A\n tubes out\n dial D1 42\n dial D1 no effect\n dial D1 broad\n heard "weak"\n click V1 heard\n click V1 faint\n note "warm"\n}',
    );
    expect(set.remarks).toEqual([]);
    const [bench] = set.benches;
    expect(bench?.title).toBe('first');
    expect(
      bench?.entries.map(({ kind, at, to, value, range, words, text }) =>
        [kind, at, to, value?.value, range?.value, words.join(' '), text].map((x) => x ?? '-'),
      ),
    ).toEqual([
      ['meter', '-', '-', 1000, 0.02, 'per volt', '-'],
      ['actual', 'A.A+', '-', 5.9, '-', '', '-'],
      ['reading', 'V1.plate', 'V1', 104, 250, '', '-'],
      ['reading', 'R1', '-', '-', '-', 'open lifted', '-'],
      ['reading', 'A.A+', '-', 1.26, '-', '', '-'],
      ['tubes-out', '-', '-', '-', '-', 'out', '-'],
      ['dial', 'D1', '-', 42, '-', '', '-'],
      ['dial', 'D1', '-', '-', '-', 'no effect', '-'],
      ['dial', 'D1', '-', '-', '-', 'broad', '-'],
      ['heard', '-', '-', '-', '-', '', 'weak'],
      ['click', 'V1', '-', '-', '-', 'heard', '-'],
      ['click', 'V1', '-', '-', '-', 'faint', '-'],
      ['state', '-', '-', '-', '-', '', 'warm'],
    ]);
  });

  it('of which there may be several', () => {
    const set = setOf('bench "one" {\n}\nbench "two" {\n tubes out\n}');
    expect(set.benches.map(({ title }) => title)).toEqual(['one', 'two']);
  });
});

describe('a suppose', () => {
  const parts =
    'tube V1 01-A\ntube V2 01-A\nresistor R1 5 ohms from A-\ncondenser C1 1 mfd from A-\ncoil L1 {\n winding a 5 turns\n}\nphones PH1\njack J1 from V1.plate\nrheostat RH1 20 ohms from A-\n';

  it.each([
    ['open C1', ['open', 'C1', '-', '-']],
    ['open C1.finish', ['open', 'C1.finish', '-', '-']],
    ['short R1', ['short', 'R1', '-', '-']],
    ['leaky C1 1 meg', ['leaky', 'C1', '-', 1e6]],
    ['weak V1', ['weak', 'V1', '-', '-']],
    ['gas V1', ['gas', 'V1', '-', '-']],
    ['change R1 to 50 ohms', ['change', 'R1', '-', 50]],
    ['change A to 5.4 V', ['change', 'A', '-', 5.4]],
    ['change C1.finish to 50 ohms', ['change', 'C1.finish', '-', 50]],
    ['set RH1 2 ohms', ['set', 'RH1', '-', 2]],
    ['remove V1', ['remove', 'V1', '-', '-']],
    ['reverse L1.a', ['reverse', 'L1.a', '-', '-']],
    ['swap V1.grid with V1.plate', ['swap', 'V1.grid', 'V1.plate', '-']],
    ['join V1.grid to V1.plate', ['join', 'V1.grid', 'V1.plate', '-']],
    ['join V1.grid to A- through 1 meg', ['join', 'V1.grid', 'A.A-', 1e6]],
    ['turns 3 shorted in L1.a', ['turns shorted', 'L1.a', '-', 3]],
    ['turns 1/2 shorted in L1.a', ['turns shorted', 'L1.a', '-', 0.5]],
    ['damped L1.a to Q 20', ['damped', 'L1.a', '-', 20]],
    ['plug PH1 into J1', ['plug', 'PH1', 'J1', '-']],
  ])('%s', (line, expected) => {
    const set = setOf(`${parts}suppose "what if" {\n ${line}\n}`);
    expect(set.remarks).toEqual([]);
    const [edit] = set.supposes[0]?.edits ?? [];
    expect([
      edit?.verb,
      edit?.target ?? '-',
      edit?.other ?? '-',
      edit?.value?.value ?? '-',
    ]).toEqual(expected);
  });
});

describe('tube types', () => {
  const own = `tube type 01-A "as measured" {
  base UX
  filament 4.8 V .24 A
  amplification 7.5
  point plate 90 V grid -4.5 V current 2.4 mA resistance 11500 ohms transconductance 650 source "own tester"
  capacitance plate grid 8 mmfd
  limit plate 120 V
  detector plate 45 V return A+ leak 2 to 9 meg condenser .00025 mfd
  source "own tester"
}
`;

  it('a type of the file wins over the library, with a note', () => {
    const text = own + textOf('tube V1 01-A');
    const [circuit] = readReceivers(text, 'f').circuits;
    const type = circuit?.partNamed.get('V1')?.tubeType;
    expect(type).toMatchObject({
      builtIn: false,
      base: 'UX',
      filamentVolts: 4.8,
      filamentAmperes: 0.24,
      amplification: 7.5,
      plateLimit: 120,
      source: 'own tester',
      capacitances: { 'grid plate': 8e-12 },
    });
    expect(type?.detector).toMatchObject({ plateVolts: 45, returnTo: 'A+', leak: [2e6, 9e6] });
    expect(type?.points[0]).toMatchObject({
      plateVolts: 90,
      gridVolts: -4.5,
      plateAmperes: 0.0024,
      plateResistance: 11500,
    });
    expect(remarksOf(text).map(({ check, severity }) => `${check} ${severity}`)).toEqual([
      'own-tube-type hint',
    ]);
  });

  it('the library itself reads without a word amiss', async () => {
    const { tubeLibraryText } = await import('../src/library.ts');
    expect(
      readReceivers(tubeLibraryText, 'library').remarks.filter(
        ({ check }) => check !== 'own-tube-type',
      ),
    ).toEqual([]);
  });
});
