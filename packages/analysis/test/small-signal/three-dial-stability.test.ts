import type { Circuit } from '@setwright/circuit';
import { describe, expect, it } from 'vitest';
import { operatingPoint } from '../../src/operating-point.ts';
import { margin } from '../../src/small-signal/margin.ts';
import { type Stability, stability } from '../../src/small-signal/stability.ts';
import { windingValues } from '../../src/winding-values.ts';
import { threeDialSet } from './three-dial-set.ts';

// The figures of this file are common practice for sets of this kind: lossers of 800 ohms and
// more were sold for them, and without any the dials whistle over the whole band.

/** Q of coils in a set: form, covering and cabinet counted. Common practice. */
const QUALITY = 150;

const STATIONS = [560e3, 600e3, 800e3, 1000e3, 1200e3, 1400e3, 1490e3];

function judged(losser: number | undefined): Stability {
  const circuit = threeDialSet({ losser });
  return stability(circuit, operatingPoint(circuit), { quality: QUALITY, stations: STATIONS });
}

function neededWith(losser: number | undefined): number {
  const circuit = threeDialSet({ losser });
  const options = { quality: QUALITY, stations: STATIONS };
  return margin(circuit, operatingPoint(circuit), options).seriesResistance!;
}

function growths({ stations }: Stability): readonly number[] {
  return stations.map(({ worst }) => worst.modes.modes[0]?.growth ?? 0);
}

/** The set without lossers, its radio tubes with so many farads from grid to plate. */
function withFeedback(farads: number): Circuit {
  const circuit = threeDialSet({});
  const parts = circuit.parts.map((part) => {
    const { name, tubeType } = part;
    if (!tubeType || (name !== 'V1' && name !== 'V2')) return part;
    const capacitances = { ...tubeType.capacitances, 'grid plate': farads };
    return { ...part, tubeType: { ...tubeType, capacitances } };
  });
  const partNamed = new Map(parts.map((part) => [part.name, part] as const));
  const partOfEnd = new Map(
    [...circuit.partOfEnd].map(([end, { name }]) => [end, partNamed.get(name)!] as const),
  );
  return { ...circuit, parts, partNamed, partOfEnd };
}

describe('a three-dial set with 01-A tubes', () => {
  it('has grid coils of 240 microhenries and primaries of 12 turns', () => {
    const circuit = threeDialSet({});
    for (const coil of ['L1', 'L2', 'L3']) {
      const { inductance } = windingValues(circuit, circuit.partNamed.get(`${coil}.grid`)!);
      expect(Math.abs(inductance.value! / 240e-6 - 1)).toBeLessThan(0.02);
    }
    for (const coil of ['L2', 'L3'])
      expect(circuit.partNamed.get(`${coil}.first`)?.winding?.turns?.value).toBe(12);
  });

  it('is quiet over the whole band with 3000 ohms in each grid, however the dials stand', () => {
    const found = judged(3000);
    expect(found.verdict).toBe('steady');
    expect(growths(found).every((growth) => growth === 0)).toBe(true);
  });

  it('oscillates from 600 to 1400 kc with 800 ohms and the dials apart', () => {
    const { stations } = judged(800);
    const inside = stations.filter(({ frequency }) => frequency >= 600e3 && frequency <= 1400e3);
    for (const { worst } of inside) expect(worst.modes.count).toBeGreaterThan(0);
  });

  it('grows about five times faster without any', () => {
    const withLosser = judged(800);
    const without = judged(undefined);
    const at = STATIONS.indexOf(1200e3);
    const times = growths(without)[at]! / growths(withLosser)[at]!;
    expect(times).toBeGreaterThan(3);
    expect(times).toBeLessThan(8);
  });

  it('is kept going by its radio tubes', () => {
    const { stations } = judged(undefined);
    expect(stations[3]!.aligned.modes[0]!.tubes).toEqual(expect.arrayContaining(['V1']));
    for (const tube of stations[3]!.aligned.modes[0]!.tubes!) expect(['V1', 'V2']).toContain(tube);
  });

  it('is just cured by the resistance that its margin names, between 800 and 3000 ohms', () => {
    const needed = neededWith(undefined);
    expect(needed).toBeGreaterThan(800);
    expect(needed).toBeLessThan(3000);
    expect(judged(Math.ceil(needed)).verdict).toBe('steady');
    // Three percent less would not do: the figure is that of a losser written down in the set.
    expect(judged(Math.floor(0.97 * needed)).verdict).not.toBe('steady');
  });

  it('needs as much less as it has already', () => {
    expect(neededWith(800) / (neededWith(undefined) - 800)).toBeCloseTo(1, 1);
  });

  it('could be cured by balancing most of the 8 mmfd from grid to plate', () => {
    // 8.1 mmfd from grid to plate of an 01-A: tube manuals, from memory.
    const circuit = threeDialSet({});
    const options = { quality: QUALITY, stations: STATIONS };
    const { gridPlate } = margin(circuit, operatingPoint(circuit), options);
    expect(gridPlate!).toBeLessThan(-4e-12);
    expect(gridPlate!).toBeGreaterThan(-8.1e-12);
  });

  it('is just quiet with so much balanced, and not with a twentieth less', () => {
    const circuit = threeDialSet({});
    const options = { quality: QUALITY, stations: STATIONS };
    const balanced = -margin(circuit, operatingPoint(circuit), options).gridPlate!;
    const left = (share: number) => {
      const balancedSet = withFeedback(8.1e-12 - share * balanced);
      return stability(balancedSet, operatingPoint(balancedSet), options).verdict;
    };
    expect(left(1.005)).toBe('steady');
    expect(left(0.95)).not.toBe('steady');
  });

  it('needs nothing more with 3000 ohms', () => {
    const circuit = threeDialSet({ losser: 3000 });
    const { seriesResistance } = margin(circuit, operatingPoint(circuit), {
      quality: QUALITY,
      stations: STATIONS,
    });
    expect(seriesResistance).toBe(0);
  });
});
