import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Resvg } from '@resvg/resvg-js';
import { describe, expect, it } from 'vitest';
import { folderWith, runIn } from './support.ts';

const examples = new URL('../../../examples/', import.meta.url);
const example = (name: string) => readFileSync(new URL(`${name}.receiver`, examples), 'utf8');

const responseFor = (text: string, ...more: string[]) =>
  runIn(folderWith({ 'set.receiver': text }), ['response', 'set.receiver', ...more]);
const report = (text: string, ...more: string[]) =>
  JSON.parse(responseFor(text, '--format', 'json', ...more).out).receivers[0];

/** What has a frequency in a report. */
interface Told {
  frequency: number;
}

const stations = ['--stations', '600,1000,1400'];

describe('the response of every example', () => {
  it.each(readdirSync(examples).filter((name) => name.endsWith('.receiver')))(
    'is told without a number that is none: %s',
    (name) => {
      const text = readFileSync(new URL(name, examples), 'utf8');
      const { code, out } = responseFor(text, '--plot', '--stations', '700,1200');
      expect([code, out]).toEqual([0, expect.not.stringMatching(/NaN|Infinity|undefined|null/)]);
    },
  );
});

describe('the table of a response', () => {
  it('gives volts at the detector, gain stage by stage, and width at every station', () => {
    const { out } = responseFor(example('five-tube-trf'), ...stations);
    expect(out).toMatch(/station +at detector +V1 +V2 +at \u22126 dB +at \u221220 dB +oscillation/);
    expect(out.match(/^ {2}\d+ kc +[\d.]+ +[\d.]+ +[\d.]+ +[\d.]+ kc +[\d.]+ kc /gm)).toHaveLength(
      3,
    );
  });

  it('has the gains of the stages make up what comes to the detector', () => {
    const [{ stages, voltsAtDetector }] = report(example('five-tube-trf'), ...stations).stations;
    const [first, second] = stages;
    expect(first.gridVolts * first.gain * second.gain).toBeCloseTo(voltsAtDetector, 6);
  });

  it('is wider 20 decibels down than 6', () => {
    for (const { width6, width20 } of report(example('five-tube-trf'), ...stations).stations)
      expect(width20).toBeGreaterThan(width6);
  });

  it('tells of the ends of the band and round frequencies where no stations are named', () => {
    const told = report(example('five-tube-trf')).stations;
    expect(told.map(({ frequency }: { frequency: number }) => frequency / 1000)).toEqual([
      550, 600, 700, 800, 900, 1000, 1100, 1200, 1300, 1400, 1500,
    ]);
  });
});

describe('a set that oscillates', () => {
  // Without its lossers the five-tube set has nothing that holds its stages down.
  const squealing = example('five-tube-trf').replace(/ 1500 ohms from (L\d)/g, ' 1 ohm from $1');

  it('is said to squeal, and where', () => {
    const { out } = responseFor(squealing, ...stations);
    expect(out).toMatch(/squeals.* at [\d.]+ kc/);
    expect(out).toMatch(/It (?:oscillates by itself|squeals with its dials apart)/);
  });

  const cureIn = (text: string) =>
    /It would just be quiet with .*? will do\./.exec(
      responseFor(text, ...stations).out.replace(/\s+/g, ' '),
    )?.[0];

  it('is told what would just cure it, with coils that lose little and with usual ones', () => {
    expect(cureIn(squealing)).toMatch(
      /^It would just be quiet with about \d+ ohms more in R1 and R2, or with neutralizing that balances at least [\d.]+ mmfd between grid and plate of each of V1 and V2\. That is with the losses of the wire alone; with coils of a usual Q of 100, with which it squeals as well, about \d+ ohms or [\d.]+ mmfd will do\.$/,
    );
  });

  it('is told where the resistance goes when there is none yet', () => {
    const bare = squealing.replace(/resistor (R\d) "[a-z ]+" 1 ohm from/g, 'wire');
    expect(cureIn(bare.replace('short R1', 'open C5'))).toMatch(
      /^It would just be quiet with about \d+ ohms in the lead of each of V1\.grid and V2\.grid, or/,
    );
  });

  it('needs less with coils of a usual Q', () => {
    const { cure } = report(squealing, ...stations);
    expect(cure.usual.q).toBe(100);
    expect(cure.usual.seriesResistance).toBeGreaterThan(100);
    expect(cure.usual.seriesResistance).toBeLessThan(cure.seriesResistance);
  });

  it('is quiet with the resistance that it is told of', () => {
    const { cure } = report(squealing, ...stations);
    const ohms = Math.ceil(cure.seriesResistance) + 1;
    const cured = squealing.replace(/ 1 ohm from/g, ` ${ohms} ohms from`);
    expect(report(cured, ...stations).verdict).toBe('steady');
    expect(report(cured, ...stations).cure).toBeNull();
  });

  it('is quiet with its lossers', () => {
    expect(report(example('five-tube-trf'), ...stations).verdict).toBe('steady');
  });
});

describe('the upper bound of a response', () => {
  it('is told beside what coils of a usual Q leave of it', () => {
    const { usualCoils, stations: told } = report(example('screen-grid'), ...stations);
    const same = told.find(({ frequency }: Told) => frequency === usualCoils.frequency);
    expect(usualCoils.voltsAtDetector).toBeLessThan(same.voltsAtDetector);
    expect(responseFor(example('screen-grid'), ...stations).out.replace(/\s+/g, ' ')).toContain(
      'so gain and sharpness are upper bounds: with coils of a Q of 100',
    );
  });
});

describe('a bypass of the plate supply that opens', () => {
  const words = (name: string) => responseFor(example(name), ...stations).out.replace(/\s+/g, ' ');

  it('is said to leave every DC voltage, and to matter by the resistance of the supply', () => {
    expect(words('five-tube-trf')).toMatch(
      /If C5 opens, every DC voltage stays as it was: no voltmeter finds it\. What it does to the signal of V1 and V2 depends on the resistance of B: with the 23 ohms that it has up to B\+67 it does hardly anything \([\d.]+ decibels?\); with 500 ohms up to B\+67, as in a tired block, it (?:loses|squeals)/,
    );
  });

  it('does next to nothing where the supply has condensers of its own', () => {
    const { bypassesOpened } = report(example('heater-tubes'), ...stations);
    const [{ cases }] = bypassesOpened;
    for (const { decibels } of cases[0].losses) expect(Math.abs(decibels)).toBeLessThan(0.1);
  });

  it('that is not there is told of by what the supply does as it ages', () => {
    const bare = example('five-tube-trf')
      .replace(/condenser C5 .*\n/, '')
      .replace('open C5', 'open R1');
    const { out } = responseFor(bare, ...stations);
    expect(out.replace(/\s+/g, ' ')).toMatch(
      /No bypass lies between B\+67 and the filaments, as in most sets to 1926\. What that does to the signal of V1 and V2 as B ages no DC voltage tells: with 500 ohms up to B\+67, as in a tired block, it (?:loses|squeals)/,
    );
  });

  it('is no bypass of the supply where a transformer lies between', () => {
    expect(report(example('reflex'), ...stations).bypassesOpened).toEqual([]);
  });

  it('of a superheterodyne is judged at its intermediate frequency', () => {
    const { bypassesOpened, intermediate } = report(example('superheterodyne'), ...stations);
    for (const { cases } of bypassesOpened)
      for (const { losses } of cases)
        expect(losses.map(({ frequency }: Told) => frequency)).toEqual([intermediate.frequency]);
  });
});

describe('a superheterodyne', () => {
  it('is told to its mixer, and from there at its intermediate frequency', () => {
    const { out } = responseFor(example('superheterodyne'), ...stations);
    expect(out).toMatch(/station +at mixer +at/);
    expect(out.replace(/\s+/g, ' ')).toMatch(
      /The intermediate amplifier, from V1 to V5, passes most at 43\.\d kc, where the text says 45 kc: a gain of \d+, [\d.]+ kc wide 6 decibels down and [\d.]+ kc wide 20 down\./,
    );
  });
});

describe('a regenerative set', () => {
  it('that the text does not set is told of short of oscillation', () => {
    const { out } = responseFor(example('two-tube'), ...stations);
    expect(out.replace(/\s+/g, ' ')).toMatch(
      /All figures are with C3 backed off to \d+ mmfd.* C3 makes V1 oscillate from \d+ mmfd at 600 kc, \d+ mmfd at 1000 kc and \d+ mmfd at 1400 kc on/,
    );
    expect(report(example('two-tube'), ...stations).verdict).toBe('steady');
  });

  it('that the text sets is told of as it stands', () => {
    const { regeneration } = report(example('one-tube-regenerative'), ...stations);
    expect(regeneration).toMatchObject({ control: 'L1.tickler', tube: 'V1', backedOff: null });
    for (const { share } of regeneration.begins) expect(share).toBeGreaterThan(0.1);
  });
});

describe('a regenerative set whose tickler the text does not say to turn', () => {
  it('is told that it is taken as fixed, and how to say that it turns', () => {
    const fixed = example('one-tube-regenerative')
      .replace(/ set \d+ %/g, '')
      .replace(/^.* drives L1\.tickler.*$/m, '');
    const { out } = responseFor(fixed, ...stations);
    expect(out.replace(/\s+/g, ' ')).toContain(
      'V1 keeps it going by L1.tickler, which is taken as fixed: if it turns, the text should say how it stands, as in: set 30 %.',
    );
  });

  it('is kept going by no audio tube', () => {
    const { out } = responseFor(example('resistance-coupled'), ...stations);
    expect(out).not.toMatch(/V[345] keeps? it going/);
  });
});

describe('a set tuned by a variometer', () => {
  const text = `receiver "Bench" {
  tunes 550 kc to 1350 kc
  post ANT aerial 250 mmfd
  post GND ground
  variometer L1 60 uH to 600 uH 3 ohms from ANT to GND
  crystal CR1 mineral to ANT whisker to PH1.start
  phones PH1 2000 ohms to GND
}
`;

  it('is told with it as it stands, and that this is so', () => {
    const out = responseFor(text, ...stations).out.replace(/\s+/g, ' ');
    expect(out).toContain(
      'A listener tunes by L1 too: the figures are with the variometer as it stands, not turned to each station.',
    );
    expect(out).toContain('L1 is set half way');
  });

  it('has no dial whose readings are reckoned', () => {
    const { out } = runIn(folderWith({ 'set.receiver': text }), ['dials', 'set.receiver']);
    expect(out.replace(/\s+/g, ' ')).toContain(
      'No tuned circuit here has a variable condenser, and of L1 no readings are reckoned.',
    );
  });

  it('has no second figure that is the same', () => {
    const { out } = responseFor(text, ...stations);
    expect(out).not.toMatch(/it is ([\d.]+) and not \1 at/);
  });
});

describe('a crystal set', () => {
  it('has no tube that could squeal', () => {
    expect(responseFor(example('crystal'), ...stations).out).toContain(
      'It has no tube that could squeal.',
    );
  });
});

describe('a set of which too little is told', () => {
  it('has no figures, and no verdict', () => {
    const { out } = responseFor(example('bare-wiring'));
    expect(out).toContain('Its gain is not known, for want of');
    expect(out).toContain('Whether it squeals cannot be told.');
  });

  it('has no charts', () => {
    const { code, err } = responseFor(example('bare-wiring'), '-o', 'curves.svg');
    expect([code, err]).toEqual([2, expect.stringContaining('no chart to be drawn')]);
  });
});

describe('the charts of a response', () => {
  it('are gain and width, selectivity, and audio', () => {
    const folder = folderWith({ 'set.receiver': example('five-tube-trf') });
    runIn(folder, ['response', 'set.receiver', '-o', 'curves.svg', ...stations]);
    const svg = readFileSync(join(folder, 'curves.svg'), 'utf8');
    for (const label of ['volts at the detector', 'width, kc', 'off the station, kc', 'cycles'])
      expect(svg).toContain(`>${label}</text>`);
    expect(new Resvg(svg).render().width).toBe(760);
  });
});

describe('the CSV of a response', () => {
  it('has one figure on a line', () => {
    const { out } = responseFor(example('five-tube-trf'), '--format', 'csv', ...stations);
    const [heading, ...lines] = out.trimEnd().split('\n');
    expect(heading).toBe('receiver,frequency,part,quantity,value,unit');
    expect(lines.filter((line) => line.includes(',V1,gain,'))).toHaveLength(3);
    for (const line of lines) expect(line.split(',')).toHaveLength(6);
  });
});
