import { describe, expect, it } from 'vitest';
import { folderWith, runIn, sound } from './support.ts';

const biased = sound
  .replace('wire A- to B-', 'battery C dry { tap C+ tap C-4.5 }\n  wire A- to B- to C+')
  .replace('from V1.grid to V1.filament-', '"grid resistor" from V1.grid to C-4.5');
const traced = (terminal: string, text = biased, ...more: string[]) =>
  runIn(folderWith({ 'set.receiver': text }), ['trace', 'set.receiver', terminal, ...more]);

describe('the trace of a grid', () => {
  it('goes step by step, and says why each part passes and what a battery adds', () => {
    const { code, out } = traced('V1.grid', biased, '--kind', 'direct');
    expect(code).toBe(0);
    expect(out.trimEnd().split('\n')).toEqual([
      'Sound: bias of V1.grid, back to V1.filament-',
      expect.stringMatching(
        /^ {2}1\. R2 \(grid resistor\), from R2\.start to R2\.finish: .*conducts/,
      ),
      expect.stringMatching(/^ {2}2\. C, from C-4\.5 to C\+: .*; gains 4\.5 V$/),
      expect.stringMatching(/^ {2}3\. R1, from R1\.start to R1\.finish: .*4 ohms$/),
    ]);
  });

  it('names the ohms at which a rheostat comes to stand that the text does not set', () => {
    // A quarter ampere of an 01-A, 5 volts from 6: 4 ohms, by Ohm's law; 20 ohms would be 5 volts.
    const third = (rheostat: string) => {
      const text = biased.replace('resistor R1 4 ohms', `rheostat R1 ${rheostat}`);
      return traced('V1.grid', text, '--kind', 'direct').out.split('\n')[3];
    };
    expect(third('20 ohms')).toMatch(/, (?:3\.9|4) ohms of its 20 ohms, at which .* rated volts$/);
    expect(third('20 ohms set 6 ohms')).toMatch(/carries the current, 6 ohms$/);
  });

  it('that floats names what stops it', () => {
    const floating = biased.replace('resistor R2 100 kilohms', 'condenser R2 250 mmfd');
    expect(traced('V1.grid', floating).out).toMatch(/Stopped at R2: a condenser blocks/);
  });
});

describe('the trace of a grid whose way home is open', () => {
  it('tells the steps to where it ends, and what nothing joins that to', () => {
    const { out } = traced('V1.grid', biased.replace(' to C+', ''), '--kind', 'direct');
    expect(out.trimEnd().split('\n')).toEqual([
      'Sound: bias of V1.grid, back to V1.filament-',
      expect.stringMatching(/^ {2}1\. R2 /),
      expect.stringMatching(/^ {2}2\. C, from C-4\.5 to C\+: .*; gains 4\.5 V$/),
      '  Stopped: it ends at C+, and nothing joins that to V1.filament-.',
    ]);
  });
});

describe('the trace of a signal', () => {
  const bypassed = sound
    .replace('receiver "Sound" {', 'receiver "Sound" {\n  tunes 500 kc to 2000 kc')
    .replace('phones P1', 'condenser C1 .001 mfd from V1.plate to V1.filament-\n  phones P1');
  const signal = (terminal: string, kind: string) => {
    const { out } = traced(terminal, bypassed, '--kind', kind, '--format', 'json');
    return JSON.parse(out).receivers[0].signals;
  };

  it('of radio goes home by the bypass, in the middle of the band', () => {
    // 1/(2\u03c0fC) of .001 mfd at 1000 kc, by hand.
    expect(signal('V1.plate', 'radio')).toEqual([
      expect.objectContaining({
        kind: 'radio',
        frequency: 1e6,
        to: 'V1.filament-',
        impedance: expect.closeTo(159.15, 1),
        steps: [expect.objectContaining({ part: 'C1', from: 'C1.start', to: 'C1.finish' })],
      }),
    ]);
  });

  it('of audio goes by the phones and the battery', () => {
    const [audio] = signal('V1.plate', 'audio');
    expect(audio.steps.map(({ part }: { part: string }) => part).slice(0, 2)).toEqual(['P1', 'B']);
  });

  it('stands below that of direct current', () => {
    const headings = traced('V1.plate', bypassed)
      .out.split('\n')
      .filter((line) => line.startsWith('Sound: '));
    expect(headings).toEqual([
      'Sound: feed of V1.plate from B+45',
      'Sound: return from V1.filament- to B-',
      'Sound: radio from V1.plate to V1.filament-, at 1000 kc',
      'Sound: audio from V1.plate to V1.filament-, at 1 kc',
    ]);
  });
});

describe('the name of a terminal', () => {
  it.each([
    ['B+45', 'B+45 to'],
    ['V1.F-', 'filament current of V1'],
    ['V1.P', 'feed of V1.plate from B+45'],
    ['C\u22124.5', 'C-4.5 to'],
  ])('may be %s', (name, heading) => {
    expect(traced(name).out).toContain(heading);
  });

  it('that nothing bears is answered with the nearest', () => {
    const { code, err } = traced('V1.grd');
    expect([code, err]).toEqual([
      2,
      'setwright: No terminal is called "V1.grd". Did you mean V1.grid?\n',
    ]);
  });

  it('of a part with two ends must say which', () => {
    const { code, err } = traced('R2');
    expect([code, err]).toEqual([2, expect.stringContaining('R2.start or R2.finish')]);
  });
});

describe('the JSON of a trace', () => {
  it('has a version and every step', () => {
    const { version, receivers } = JSON.parse(traced('V1.grid', biased, '--format', 'json').out);
    expect(version).toBe(1);
    expect(receivers[0]).toMatchObject({ title: 'Sound', terminal: 'V1.grid' });
    expect(receivers[0].paths[0].steps.map(({ part }: { part: string }) => part)).toEqual([
      'R2',
      'C',
      'R1',
    ]);
  });
});

describe('the trace of a set that cannot be read whole', () => {
  it('says that a path may be missing', () => {
    expect(traced('V1.grid', biased.replace('phones', 'phones @@')).err).toMatch(
      /line 9 cannot be read, so a path may be missing/,
    );
  });

  it('is refused where there is no set', () => {
    const { code, err } = traced('V1.grid', '// nothing\n');
    expect([code, err]).toEqual([2, expect.stringContaining('there is no receiver in it')]);
  });
});
