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

  it('tells of round frequencies over the band where no stations are named', () => {
    const told = report(example('five-tube-trf')).stations;
    expect(told.map(({ frequency }: { frequency: number }) => frequency / 1000)).toEqual([
      600, 700, 800, 900, 1000, 1100, 1200, 1300, 1400, 1500,
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

  it('is quiet with its lossers', () => {
    expect(report(example('five-tube-trf'), ...stations).verdict).toBe('steady');
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
