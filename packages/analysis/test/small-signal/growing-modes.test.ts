import { describe, expect, it } from 'vitest';
import { growingModes } from '../../src/small-signal/growing-modes.ts';
import type { SignalNetwork } from '../../src/small-signal/signal-network.ts';
import { signalSystem } from '../../src/small-signal/signal-system.ts';
import { tunedSystem } from '../../src/small-signal/tuned-system.ts';

/** Megacycle circuits of 200 µH. */
const INDUCTANCE = 200e-6;
const FREQUENCY = 1e6;
const RADIANS = 2 * Math.PI * FREQUENCY;
const CAPACITY = 1 / (RADIANS * RADIANS * INDUCTANCE);
/** So little that the circuits are not put out of tune by it. */
const GRID_PLATE = 0.01e-12;

/** A row of like stages between circuits of so many siemens, all tuned alike. */
function stages(count: number, siemens: number, transconductance: number): SignalNetwork {
  const tanks = Array.from({ length: count + 1 }, (_, index) => index + 1);
  const tubes = tanks.slice(1).map((plate) => ({ grid: plate - 1, plate }));
  return {
    points: count + 1,
    conductances: tanks.map((from) => ({ from, to: 0, siemens })),
    capacities: [
      ...tanks.map((from) => ({ from, to: 0, farads: CAPACITY })),
      ...tubes.map(({ grid, plate }) => ({ from: grid, to: plate, farads: GRID_PLATE })),
    ],
    steerings: tubes.map(({ grid, plate }) => {
      return { from: plate, to: 0, plus: grid, minus: 0, siemens: transconductance };
    }),
    series: tanks.map((from) => ({
      pieces: [{ from, to: 0, name: `tank ${from}`, ohms: () => 0 }],
      henries: [[INDUCTANCE]],
    })),
  };
}

function isGrowing(network: SignalNetwork): boolean {
  const { count } = growingModes(tunedSystem(signalSystem(network), new Map()), 0.7e6, 1.4e6);
  return count! > 0;
}

/** The figure ω C₀ gₘ/g² at which a row of stages starts. */
function limitOf(count: number): number {
  const siemens = 1e-5;
  const unit = (siemens * siemens) / (RADIANS * GRID_PLATE);
  let [low, high] = [0.1, 4];
  for (let step = 0; step < 20; step++) {
    const middle = (low + high) / 2;
    if (isGrowing(stages(count, siemens, middle * unit))) high = middle;
    else low = middle;
  }
  return high;
}

describe('stages with tuned grid and plate circuits', () => {
  // B. J. Thompson, "Oscillation in Tuned Radio-Frequency Amplifiers", Proc. IRE 19 (1931) 421,
  // abstract: 2.0, 1.0, 0.764, 0.667 for one to four stages.
  it.each([
    [1, 2],
    [2, 1],
    [3, 0.764],
    [4, 0.667],
  ])('%i of them start to oscillate at the figure %f of Thompson', (count, limit) => {
    expect(limitOf(count) / limit).toBeGreaterThan(0.99);
    expect(limitOf(count) / limit).toBeLessThan(1.01);
  });

  it('oscillate at first 45 degrees off tune', () => {
    // Same source: the circuits stand about 45 degrees off resonance, so on the skirt 1/2Q below.
    const siemens = 1e-5;
    const unit = (siemens * siemens) / (RADIANS * GRID_PLATE);
    const system = signalSystem(stages(1, siemens, 2.02 * unit));
    const [mode] = growingModes(tunedSystem(system, new Map()), 0.7e6, 1.4e6).modes;
    const halfWidth = (FREQUENCY * siemens) / (2 * RADIANS * CAPACITY);
    const off = (mode!.frequency - FREQUENCY * (1 - GRID_PLATE / (2 * CAPACITY))) / halfWidth;
    expect(off).toBeCloseTo(-1, 1);
  });
});
