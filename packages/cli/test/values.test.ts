import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { folderWith, runIn, sound } from './support.ts';

const examples = new URL('../../../examples/', import.meta.url);
const read = (name: string) => readFileSync(new URL(name, examples), 'utf8');
const valuesFor = (text: string, ...more: string[]) =>
  runIn(folderWith({ 'set.receiver': text }), ['values', 'set.receiver', ...more]);

interface Row {
  receiver: string;
  part: string;
  quantity: string;
  at?: number;
  to?: string;
  value: number;
  unit: string;
  because: string;
}

const report = (text: string) => JSON.parse(valuesFor(text, '--format', 'json').out);
const rows = (text: string): Row[] => report(text).values;
const value = (text: string, part: string, quantity: string, at?: number) =>
  rows(text).find((row) => row.part === part && row.quantity === quantity && row.at === at)?.value;

const bench = (...lines: string[]) =>
  `receiver "Bench" {\n  tunes 500 kc to 1500 kc\n  ${lines.join('\n  ')}\n}\n`;

describe('the values of every example', () => {
  it.each(readdirSync(examples).filter((name) => name.endsWith('.receiver')))(
    'are numbers with a unit and a because, or name what is missing: %s',
    (name) => {
      const { values, missing } = report(read(name));
      for (const row of values)
        expect(row).toMatchObject({
          part: expect.stringMatching(/./),
          quantity: expect.stringMatching(/^[a-z-]+$/),
          value: expect.any(Number),
          unit: expect.stringMatching(/^(?:H|Ω|F|1|Hz|m|V|A|S|W|h)$/),
          because: expect.stringMatching(/./),
        });
      for (const row of missing) expect(row.missing).not.toEqual([]);
      expect(values.length + missing.length).toBeGreaterThan(10);
      expect(valuesFor(read(name)).out).not.toMatch(/NaN|Infinity|undefined|unknown\b|null/);
    },
  );
});

describe('the because of every value of every example', () => {
  /** Laws of circuits that need no publication, by the name that they go by. */
  const plainLaws =
    /^(?:Ohm’s law|Kirchhoff’s first law|Joule’s law|as stated|V\(|2π times frequency|1 over 2π|speed of light|volts at |the most that any|set so that)/;

  it.each(readdirSync(examples).filter((name) => name.endsWith('.receiver')))(
    'rests on facts or on what is taken, and names a source or a plain law: %s',
    (name) => {
      for (const { part, quantity, because } of rows(read(name))) {
        const told = `${part} ${quantity}: ${because}`;
        const isGrounded = /; (?:from|taking|source:|the whole set solved)/.test(because);
        expect(isGrounded || because.startsWith('Kirchhoff'), told).toBe(true);
        expect(/; source: \S/.test(because) || plainLaws.test(because), told).toBe(true);
      }
    },
  );
});

describe('the values of a faulty set', () => {
  const faulty = new URL('faulty/', examples);

  it('are never what is no number', () => {
    for (const name of readdirSync(faulty).filter((file) => file.endsWith('.receiver'))) {
      const { code, out } = valuesFor(readFileSync(new URL(name, faulty), 'utf8'));
      expect([name, code]).toEqual([name, 0]);
      expect(out, name).not.toMatch(/NaN|Infinity|undefined|unknown\b|null/);
    }
  });
});

describe('the reactance', () => {
  // 1/(2πfC) and 2πfL, reckoned by hand.
  it('of a condenser is that at the edges of the band', () => {
    const text = bench('condenser C1 250 mmfd');
    expect(value(text, 'C1', 'reactance', 500e3)).toBeCloseTo(1273.24, 1);
    expect(value(text, 'C1', 'reactance', 1500e3)).toBeCloseTo(424.41, 1);
  });

  it('of a bypass is told at audio frequencies too', () => {
    expect(value(bench('condenser C1 1 mfd'), 'C1', 'reactance', 100)).toBeCloseTo(1591.5, 0);
  });

  it('of a radio choke is that at the edges of the band', () => {
    const text = bench('choke RFC1 10 mH');
    expect(value(text, 'RFC1', 'reactance', 500e3)).toBeCloseTo(31_416, 0);
  });

  it('of an audio choke is told at audio frequencies alone', () => {
    const told = rows(bench('choke CH1 30 H')).filter(({ quantity }) => quantity === 'reactance');
    expect(told.map(({ at }) => at)).toEqual([100, 5000]);
  });

  it('is not known where the set does not say what it tunes', () => {
    const { out } = valuesFor('receiver "Bench" {\n  condenser C1 250 mmfd\n}\n');
    expect(out).toContain('not known: reactance, for want of what the set tunes');
  });
});

describe('the numbers of a coil', () => {
  const coil = bench(
    'coil L1 {',
    '  form 3 in',
    '  winding aerial 25 turns of 24 DCC',
    '  winding grid 50 turns of 24 DCC beside aerial spaced 1/4 in',
    '}',
    'condenser C1 variable 20 to 500 mmfd from L1.grid.start to L1.grid.finish',
  );

  it('come winding by winding, then how they are coupled, then what they tune', () => {
    const told = rows(coil).filter(({ at, part }) => at === undefined && part.startsWith('L1'));
    expect(told.map(({ part, to, quantity }) => [part, to, quantity].join(' ').trim())).toEqual([
      'L1.aerial  inductance',
      'L1.aerial  resistance',
      'L1.aerial  self-capacitance',
      'L1.grid  inductance',
      'L1.grid  resistance',
      'L1.grid  self-capacitance',
      'L1.aerial L1.grid mutual-inductance',
      'L1.aerial L1.grid coupling',
      'L1.grid C1 lowest-frequency',
      'L1.grid C1 highest-frequency',
      'L1.grid C1 longest-wavelength',
      'L1.grid C1 shortest-wavelength',
      'L1.grid C1 least-capacitance',
      'L1.grid C1 most-capacitance',
    ]);
  });

  it('give a wave that is the speed of light over the frequency', () => {
    const frequency = value(coil, 'L1.grid', 'lowest-frequency') ?? 0;
    expect((value(coil, 'L1.grid', 'longest-wavelength') ?? 0) * frequency).toBeCloseTo(
      299_792_458,
      0,
    );
  });

  it('have a Q at either edge of the band that the circuit reaches', () => {
    const told = rows(coil).filter(({ part, quantity }) => part === 'L1.grid' && quantity === 'q');
    expect(told.map(({ at }) => at)).toEqual([500e3, 1500e3]);
  });

  it('name in their because the turns, the wire and the form as they were written', () => {
    const { because } = rows(coil).find(({ quantity }) => quantity === 'inductance') ?? {};
    expect(because).toMatch(/25 turns.*24 DCC.*3 in/);
  });
});

describe('the gain of a set that squeals', () => {
  it('is wanting for every radio tube because it oscillates', () => {
    const text = read('five-tube-trf.receiver').replace(/ 1500 ohms from (L\d)/g, ' 1 ohm from $1');
    const { missing } = report(text);
    const gains = missing.filter(
      ({ quantity, part }: Row) => quantity === 'gain' && /^V[12]$|^ANT$/.test(part),
    );
    expect(new Set(gains.map(({ part }: Row) => part))).toEqual(new Set(['ANT', 'V1', 'V2']));
    for (const each of gains) expect(each.missing).toEqual(['a set that is quiet: it oscillates']);
  });
});

describe('a bias that hangs on the arm of a potentiometer', () => {
  const because = (setting: string) => {
    const text = read('potentiometer-stabilized-trf.receiver').replace(
      /(potentiometer P1 .*?)( set \d+ %)?$/m,
      (_, line) => `${line}${setting}`,
    );
    return rows(text).find(({ part, quantity }) => part === 'V1' && quantity === 'bias')?.because;
  };

  it('says so where the text does not set it', () => {
    expect(because('')).toContain('taking P1 is set half way (not said)');
    expect(because(' set 20 %')).not.toContain('half way');
  });
});

describe('the numbers of a set at work', () => {
  it('give the filament its volts less what the resistor loses', () => {
    // A quarter ampere through 4 ohms of the resistor, and next to none in the battery.
    expect(value(sound, 'V1', 'filament-voltage')).toBeCloseTo(5, 1);
    expect(value(sound, 'V1', 'filament-current')).toBeCloseTo(0.25, 2);
  });

  it('give the hours that a battery lasts: its capacity over the drain', () => {
    const text = sound.replace('storage { tap A- 0 V', 'storage { capacity 100 Ah tap A- 0 V');
    const drain = value(text, 'A', 'drain') ?? 0;
    expect(value(text, 'A', 'hours')).toBeCloseTo(100 / drain, 6);
  });

  it('name the capacity of a battery where that is missing', () => {
    expect(valuesFor(sound).out).toContain(
      'not known: hours of service, for want of the capacity of A, as in: capacity',
    );
  });

  it('say of a grid without a way home that it floats, and give no bias', () => {
    const grid = 'resistor R2 100 kilohms from V1.grid to V1.filament-';
    const { values, missing } = report(sound.replace(grid, ''));
    expect(values.filter((row: Row) => row.part === 'V1' && row.quantity === 'bias')).toEqual([]);
    expect(missing).toContainEqual(
      expect.objectContaining({
        part: 'V1',
        quantity: 'bias',
        missing: [expect.stringContaining('it floats')],
      }),
    );
  });

  it('are told with the switches that had to be turned on', () => {
    const off = sound
      .replace('from A- to V1.filament-', 'from S1.finish to V1.filament-')
      .replace('wire A- to B-', 'switch S1 from A- open\n  wire A- to B-');
    expect(valuesFor(off).out).toContain('Reckoned with S1 turned on.');
  });
});

describe('the gain', () => {
  const gains = (name: string, part: string) =>
    rows(read(`${name}.receiver`)).filter((row) => row.part === part && row.quantity === 'gain');

  it('of a radio stage is told at both ends of the band and in its middle', () => {
    const told = gains('five-tube-trf', 'V1');
    expect(told.map(({ at, to }) => [at, to])).toEqual([
      [550e3, 'V2.grid'],
      [910e3, 'V2.grid'],
      [1500e3, 'V2.grid'],
    ]);
    for (const { value: gain, unit } of told) expect([gain > 0.5, unit]).toEqual([true, '1']);
  });

  it('of the aerial and its coil is told at its post', () => {
    expect(gains('five-tube-trf', 'ANT').map(({ to }) => to)).toEqual(Array(3).fill('V1.grid'));
  });

  it('says in its because what it rests on, and that it is an upper bound', () => {
    const [{ because } = { because: '' }] = gains('five-tube-trf', 'V1');
    expect(because).toMatch(
      /volts at V2\.grid for one at V1\.grid.*mutual conductance.*plate resistance.*nothing lost in form, covering and shields of coils, so that it is an upper bound/,
    );
  });

  it('of an intermediate stage is told at its frequency', () => {
    const [only, ...more] = gains('superheterodyne', 'V3');
    expect([only?.to, more]).toEqual(['V4.grid', []]);
    expect((only?.at ?? 0) / 45e3).toBeCloseTo(1, 1);
  });

  it('of an audio stage is told at 100, 1000 and 5000 cycles', () => {
    expect(gains('five-tube-trf', 'V4').map(({ at }) => at)).toEqual([100, 1000, 5000]);
  });

  it('of a set that oscillates as drawn is missing, and says why', () => {
    expect(valuesFor(read('two-tube.receiver')).out.replace(/\s+/g, ' ')).toContain(
      'not known: gain at 550 kc, gain at 910 kc and gain at 1500 kc, for want of a set that is quiet: it oscillates',
    );
  });
});

describe('the numbers of a superheterodyne', () => {
  const told = rows(read('superheterodyne.receiver'));
  const at = (part: string, quantity: string) =>
    told.filter((row) => row.part === part && row.quantity === quantity).map((row) => row.at);

  it('are those at the intermediate frequency for all behind the mixer', () => {
    expect(at('T1.primary', 'q')).toEqual([45e3]);
    expect(at('C10', 'reactance')).toEqual([45e3]);
  });

  it('are those of its own range for the oscillator: the band and 45 kc above it', () => {
    expect(at('L1.grid', 'q')).toEqual([595e3, 1545e3]);
  });

  it('do not take the primary with its bypass for what the transformer is tuned to', () => {
    const { out } = valuesFor(read('superheterodyne.receiver'));
    expect(out).toContain('T1.primary with C4: a resonance beside the 45 kc that T1 is tuned to');
    expect(out).toMatch(/T1\.secondary tuned by C6\n {4}frequency +44\.5 kc/);
  });
});

describe('a number at work', () => {
  it('rests on facts with their units', () => {
    const because = (part: string, quantity: string) =>
      rows(read('five-tube-trf.receiver')).find(
        (row) => row.part === part && row.quantity === quantity,
      )?.because;
    expect(because('B+67', 'current')).toMatch(
      /cells B\+45 to B\+67: [\d.]+ mA, cells B\+67 to B\+90: [\d.]+ mA$/,
    );
    expect(because('B', 'hours')).toMatch(/capacity: [\d.]+ Ah, drain: [\d.]+ mA/);
    expect(because('L2.plate', 'current')).toMatch(/ohms, those of its wire: [\d.]+ ohms/);
  });
});

describe('the Q of a coil', () => {
  it('is said to be an upper bound', () => {
    const found = rows(read('five-tube-trf.receiver')).find(({ quantity }) => quantity === 'q');
    expect(found?.because).toContain(
      'nothing lost in form, covering and shields, so that Q is an upper bound',
    );
  });
});

describe('the text', () => {
  it('goes stage by stage', () => {
    const { out } = valuesFor(read('five-tube-trf.receiver'), '--short');
    const stages = out.split('\n').filter((line) => /^(?:Stage|The set)/.test(line));
    expect(stages).toEqual([
      'The set as a whole',
      'Stage RF1, first radio-frequency amplifier',
      'Stage RF2, second radio-frequency amplifier',
      'Stage DET, detector',
      'Stage AF1, first audio amplifier',
      'Stage AF2, second audio amplifier',
    ]);
  });

  it('is in the units of the time, and in SI units where that is asked for', () => {
    const text = bench('condenser C1 250 mmfd');
    expect(valuesFor(text).out).toContain('reactance at 500 kc              1270 ohms');
    expect(valuesFor(text, '--units', 'si').out).toContain(
      'reactance at 500 kHz             1.27 kΩ',
    );
  });

  it('keeps within the columns of the terminal', () => {
    const lines = valuesFor(read('five-tube-trf.receiver')).out.split('\n');
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(80);
  });
});

describe('a file', () => {
  it('of two sets gives the numbers of both', () => {
    const two = `${bench('choke CH1 10 mH')}${bench('choke CH2 10 mH').replace('Bench', 'Other')}`;
    const told = rows(two).filter(({ quantity }) => quantity === 'inductance');
    expect(told.map(({ receiver, part }) => [receiver, part])).toEqual([
      ['Bench', 'CH1'],
      ['Other', 'CH2'],
    ]);
  });

  it('with lines that cannot be read says that a number may be missing', () => {
    expect(valuesFor(sound.replace('phones', 'phones @@')).err).toMatch(
      /line 8 cannot be read, so a number may be missing or wrong here/,
    );
  });

  it('without a set is refused', () => {
    const { code, out, err } = valuesFor('// nothing\n');
    expect([code, out, err]).toEqual([
      2,
      '',
      expect.stringContaining('there is no receiver in it'),
    ]);
  });
});

describe('the CSV', () => {
  it('has one line for every number, with the same number of cells', () => {
    const { out } = valuesFor(sound, '--format', 'csv');
    const [heading, ...lines] = out.trimEnd().split('\n');
    expect(heading).toBe('receiver,stage,part,quantity,at,to,note,value,unit,because,missing');
    const cells = lines.map((line) => line.replace(/"(?:[^"]|"")*"/g, 'quoted').split(',').length);
    expect(new Set(cells)).toEqual(new Set([11]));
  });

  it('quotes a name with a comma or a quotation mark', () => {
    const named = bench('choke CH1 10 mH').replace('"Bench"', '"Bench, old"');
    expect(valuesFor(named, '--format', 'csv').out).toContain('\n"Bench, old",');
  });
});

describe('parts as they were found', () => {
  const set = bench(
    'post ANT aerial',
    'post GND ground',
    'coil L1 {',
    '  form 3 in',
    '  winding grid 50 turns of 24 DCC found 190 uH from GND to ANT',
    '}',
    'condenser C1 variable 15 to 365 mmfd found 340 mmfd across L1.grid',
  );

  it('give their own numbers', () => {
    const inductance = (...more: string[]) =>
      JSON.parse(valuesFor(set, '--format', 'json', ...more).out).values.find(
        ({ part, quantity }: Row) => part === 'L1.grid' && quantity === 'inductance',
      )?.value;
    expect(inductance('--as', 'found')).toBeCloseTo(190e-6, 9);
    expect(inductance('--as', 'written')).toBe(inductance());
    expect(inductance()).not.toBeCloseTo(190e-6, 6);
  });

  it('move the dials', () => {
    const read = (...more: string[]) =>
      runIn(folderWith({ 'set.receiver': set }), [
        'dials',
        'set.receiver',
        '--stations',
        '1000',
        ...more,
      ]).out;
    expect(read('--as', 'found')).toMatch(/1000 kc/);
    expect(read('--as', 'found')).not.toBe(read());
  });
});
