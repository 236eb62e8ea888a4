import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Resvg } from '@resvg/resvg-js';
import { describe, expect, it } from 'vitest';
import { folderWith, runIn } from './support.ts';

const examples = new URL('../../../examples/', import.meta.url);
const example = (name: string) => readFileSync(new URL(`${name}.receiver`, examples), 'utf8');

const dialsFor = (text: string, ...more: string[]) =>
  runIn(folderWith({ 'set.receiver': text }), ['dials', 'set.receiver', ...more]);
const report = (text: string, ...more: string[]) =>
  JSON.parse(dialsFor(text, '--format', 'json', ...more).out).receivers[0];

/** One dial from 0 to 100 on a coil whose henries are stated. */
const oneDial = `receiver "Bench" {
  year 1923
  tunes 600 kc to 1200 kc
  coil L1 {
    winding grid 200 uH
  }
  condenser C1 variable 20 to 400 mmfd from L1.grid.start to L1.grid.finish
  dial D1 0 to 100 drives C1
}
`;

/** The lowest frequency that the values of a set give for a circuit, in hertz. */
function lowestOf(text: string): number {
  const folder = folderWith({ 'set.receiver': text });
  const { out } = runIn(folder, ['values', 'set.receiver', '--format', 'json']);
  const rows: { quantity: string; value: number }[] = JSON.parse(out).values;
  return rows.find(({ quantity }) => quantity === 'lowest-frequency')?.value ?? 0;
}

describe('the stations', () => {
  it('are round frequencies over the band', () => {
    const { stations } = report(oneDial);
    expect(stations.map(({ frequency }: { frequency: number }) => frequency / 1000)).toEqual([
      600, 650, 700, 750, 800, 850, 900, 950, 1000, 1050, 1100, 1150, 1200,
    ]);
  });

  it('may be told, in kilocycles where no unit is said', () => {
    const { stations } = report(oneDial, '--stations', '1.1 Mc, 610,500 meters');
    expect(stations.map(({ frequency }: { frequency: number }) => Math.round(frequency))).toEqual([
      599_585, 610_000, 1_100_000,
    ]);
  });

  it('may be so far from one another', () => {
    const { stations } = report(oneDial, '--every', '200');
    expect(stations.map(({ frequency }: { frequency: number }) => frequency / 1000)).toEqual([
      600, 800, 1000, 1200,
    ]);
  });

  it.each(['nonsense', '', '610,,x', '-5'])('cannot be %j', (list) => {
    const { code, out } = dialsFor(oneDial, '--stations', list);
    expect([code, out]).toEqual([2, '']);
  });
});

describe('a dial', () => {
  it('stands at its upper end for the lowest frequency of its circuit', () => {
    const lowest = lowestOf(oneDial) / 1000;
    const { stations } = report(oneDial, '--stations', String(lowest + 1e-6));
    expect(stations[0].readings[0]).toBeCloseTo(100, 2);
  });

  it('stands at its lower end for it where it is numbered the other way round', () => {
    const reversed = oneDial.replace('0 to 100 drives', '0 to 100 reversed drives');
    const lowest = lowestOf(oneDial) / 1000;
    const { stations } = report(reversed, '--stations', String(lowest + 1e-6));
    expect(stations[0].readings[0]).toBeCloseTo(0, 2);
  });

  it('with half-round plates turns in even steps of capacity', () => {
    // Capacity goes with the square of the wave: from 600 to 300 kc it grows fourfold.
    const wide = oneDial.replace('20 to 400', '10 to 1000').replace('200 uH', '400 uH');
    const { stations } = report(wide, '--stations', '300, 400, 600');
    const [low, middle, high] = stations.map(({ readings }: { readings: number[] }) => readings[0]);
    expect((low - high) / (middle - high)).toBeCloseTo((4 - 1) / (2.25 - 1), 3);
  });

  it('that does not reach a station has a dash there', () => {
    const { out } = dialsFor(oneDial, '--stations', '300,1000');
    expect(out).toMatch(/^ {2}300 kc +999 meters +–$/m);
    expect(out).toContain('A dash stands where a dial does not reach the station.');
  });

  it('of which too little is told says what is missing', () => {
    const { out, code } = dialsFor(oneDial.replace(' 20 to 400 mmfd', ''));
    expect(code).toBe(0);
    expect(out).toContain('The reading of C1 (L1.grid) is not known, for want of');
    expect(out).toContain('the capacity of C1');
  });
});

describe('the readings of a log', () => {
  it('lead back to the stations whose readings they are', () => {
    const text = example('five-tube-trf');
    const { stations } = report(text, '--stations', '610,1170');
    const ofFirst = stations.map(({ readings }: { readings: number[] }) => readings[0]?.toFixed(6));
    const back = report(text, '--readings', ofFirst.join());
    const found = back.readings.map((line: { stations: number[] }) => line.stations[0]);
    expect(found[0] / 610e3).toBeCloseTo(1, 6);
    expect(found[1] / 1170e3).toBeCloseTo(1, 6);
  });

  it('are told dial by dial, in the order of the log', () => {
    const { out } = dialsFor(example('five-tube-trf'), '--readings', '61, 27.5');
    expect(out).toMatch(/^ {2}reading +D1 \(C1\) +D2 \(C2\) +D3 \(C3\)$/m);
    expect(out).toMatch(/^ {2}61 +7\d\d kc +7\d\d kc +7\d\d kc\n {2}27\.5 +10\d\d kc/m);
  });

  it('of an oscillator are told by the station, above it and below', () => {
    const { dials, readings } = report(example('superheterodyne'), '--readings', '50');
    const oscillators = dials.flatMap(({ above }: { above: number }, index: number) =>
      above === 0 ? [] : readings[0].stations[index],
    );
    expect(oscillators[1] - oscillators[0]).toBeCloseTo(2 * Math.abs(dials.at(-1).above), 0);
  });

  it('off the scale have a dash', () => {
    const { out } = dialsFor(oneDial, '--readings', '50,120');
    expect(out).toMatch(/^ {2}120 +–$/m);
    expect(out).toContain('A dash stands where a reading is off the scale of a dial.');
  });

  it('come as CSV too', () => {
    const { out } = dialsFor(oneDial, '--readings', '50', '--format', 'csv');
    expect(out).toMatch(
      /^receiver,dial,circuit,reading,frequency,wavelength\nBench,D1,L1\.grid,50,/,
    );
  });

  it.each(['', 'x', '5,,6', '-3', '1e9'])('cannot be %j', (list) => {
    expect(dialsFor(oneDial, '--readings', list).code).toBe(2);
  });
});

describe('several dials', () => {
  it('are told side by side with how far they are apart', () => {
    const { out } = dialsFor(example('five-tube-trf'));
    expect(out).toMatch(/station +wave +D1 \(C1\) +D2 \(C2\) +D3 \(C3\) +apart/);
  });

  it('that are alike are not apart', () => {
    const second = oneDial
      .replace(/^.*\{\n.*\n.*\n/, '')
      .replace(/\}\n$/, '')
      .replaceAll('L1', 'L2')
      .replaceAll('C1', 'C2')
      .replaceAll('D1', 'D2');
    const two = oneDial.replace(/\}\n$/, `${second}}\n`);
    const { dials, stations } = report(two, '--stations', '1000');
    expect([dials.length, stations[0].spread]).toEqual([2, 0]);
  });
});

describe('the circuits of a gang', () => {
  it('are told by how far each is too high or too low at the first one\u2019s reading', () => {
    const { dials, stations } = report(example('potentiometer-stabilized-trf'));
    const gang = dials.find(({ followers }: { followers: string[] }) => followers.length > 0);
    expect(gang).toMatchObject({ dial: 'D2', followers: ['L3.grid'] });
    expect(stations[0].following[0]).toMatchObject({ circuit: 'L3.grid' });
  });
});

describe('the dial of an oscillator', () => {
  it('is told with the note above the station and below it', () => {
    const { dials, stations } = report(example('superheterodyne'), '--stations', '955,1045');
    expect(dials.map(({ above }: { above: number }) => above)).toEqual([0, 45_000, -45_000]);
    // Both times the oscillator makes 1000 kc.
    expect(stations[0].readings[1]).toBeCloseTo(stations[1].readings[2], 6);
  });
});

describe('the chart', () => {
  const drawn = (text: string, ...more: string[]) => {
    const folder = folderWith({ 'set.receiver': text });
    const run = runIn(folder, ['dials', 'set.receiver', '-o', 'chart.svg', ...more]);
    return { ...run, svg: readFileSync(join(folder, 'chart.svg'), 'utf8') };
  };

  it('has a title, a description and both axes with their units', () => {
    const { svg, code } = drawn(example('five-tube-trf'));
    expect(code).toBe(0);
    expect(svg).toMatch(/<title id="title">Lantern Cove Five: dial chart<\/title>/);
    expect(svg).toMatch(/<desc id="desc">Dial readings of D1 .*stands at 94\.0 at 550 /);
    for (const label of ['kilocycles', 'meters', 'dial reading, divisions'])
      expect(svg).toContain(`>${label}</text>`);
  });

  it.each(['light', 'dark'])('is a picture on %s ground', (theme) => {
    const { svg } = drawn(example('five-tube-trf'), '--theme', theme);
    const { pixels, width } = new Resvg(svg).render();
    expect(width).toBe(760);
    const corner = [...pixels.subarray(0, 3)];
    expect(Math.max(...corner) < 64).toBe(theme === 'dark');
    // It is not the bare ground.
    const others = new Set<number>();
    for (let at = 0; at < pixels.length; at += 4) others.add(pixels.readUInt32BE(at));
    expect(others.size).toBeGreaterThan(10);
  });

  it('follows whoever looks at it', () => {
    expect(drawn(oneDial).svg).toContain('@media (prefers-color-scheme:dark)');
    expect(drawn(oneDial, '--theme', 'light').svg).not.toContain('@media');
  });

  it('of a set with any name is sound', () => {
    const { svg } = drawn(oneDial.replace('"Bench"', '"<b> & \u0007 ]]>"'));
    expect(() => new Resvg(svg)).not.toThrow();
    expect(svg).not.toContain('<b>');
  });

  it('is not written under another kind of name, nor over the set', () => {
    const folder = folderWith({ 'set.svg': oneDial });
    for (const name of ['chart.txt', 'set.svg']) {
      const { code, err } = runIn(folder, ['dials', 'set.svg', '-o', name]);
      expect([code, err]).toEqual([2, expect.stringContaining(name)]);
    }
    expect(readFileSync(join(folder, 'set.svg'), 'utf8')).toBe(oneDial);
    expect(existsSync(join(folder, 'chart.txt'))).toBe(false);
  });

  it('that cannot be written is told of', () => {
    const folder = folderWith({ 'set.receiver': oneDial });
    writeFileSync(join(folder, 'file'), '');
    const { code, err } = runIn(folder, ['dials', 'set.receiver', '-o', 'file/chart.svg']);
    expect([code, err]).toEqual([2, expect.stringContaining('cannot be written')]);
  });

  it('of a set that tunes nothing is refused', () => {
    const { code, err } = dialsFor('receiver "Bare" {\n  post X\n}\n', '-o', 'chart.svg');
    expect([code, err]).toEqual([2, expect.stringContaining('no chart to be drawn')]);
  });

  it('is drawn in the terminal too, every curve with its number', () => {
    const { out } = dialsFor(example('five-tube-trf'), '--plot');
    expect(out).toMatch(/100 ┤[\u2800-\u28ff]/);
    expect(out).toMatch(/3 D3 \(C3\), L3\.grid$/m);
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
  });
});

describe('the CSV of the dials', () => {
  it('has a line for every dial at every station', () => {
    const { out } = dialsFor(example('five-tube-trf'), '--format', 'csv', '--stations', '600,1000');
    const [heading, ...lines] = out.trimEnd().split('\n');
    expect(heading).toBe('receiver,frequency,wavelength,dial,circuit,reading,off,spread');
    expect(lines).toHaveLength(6);
  });
});
