import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  fitScreenGrid,
  type ScreenGridPoint,
  type ScreenGridTube,
  type ScreenGridVoltages,
  screenGridState,
} from '../src/index.ts';
import { known } from './support.ts';

/** Plate, screen and grid volts, plate and screen milliamperes, micromhos, kilohms. */
function point(...row: readonly [number, number, number, number, number, number, number]) {
  const [plate, screen, grid, milliamperes, screenMilliamperes, micromhos, kilohms] = row;
  return {
    plate,
    screen,
    grid,
    current: milliamperes / 1e3,
    screenCurrent: screenMilliamperes / 1e3,
    transconductance: micromhos / 1e6,
    plateResistance: kilohms * 1e3,
  } satisfies ScreenGridPoint;
}

/** Receiving-tube manuals of 1933 to 1940 (from memory); type, filament volts, points. */
const TYPES = [
  [
    '22',
    3.3,
    [point(135, 45, -1.5, 1.7, 0.6, 375, 725), point(135, 67.5, -1.5, 3.7, 1.3, 500, 325)],
  ],
  ['24-A', 0, [point(180, 90, -3, 4, 1.7, 1000, 400), point(250, 90, -3, 4, 1.7, 1050, 600)]],
  ['32', 2, [point(135, 67.5, -3, 1.7, 0.4, 640, 950), point(180, 67.5, -3, 1.7, 0.4, 650, 1200)]],
  ['33', 2, [point(135, 135, -13.5, 14.5, 3, 1450, 50), point(180, 180, -18, 22, 5, 1700, 55)]],
] as const;

describe.each(TYPES)('a screen-grid tube of type %s, fitted', (_, filament, points) => {
  const fit = known(fitScreenGrid(points, filament));

  it.each([0, 1])('draws the plate current of published point %i within 10 %%', (index) => {
    expect(Math.abs(fit.residuals[index]?.current ?? Number.NaN)).toBeLessThan(0.1);
  });

  it.each([0, 1])('has the transconductance of published point %i within 10 %%', (index) => {
    expect(Math.abs(fit.residuals[index]?.transconductance ?? Number.NaN)).toBeLessThan(0.1);
  });

  it.each([0, 1])('has plate resistance and screen current of point %i within 25 %%', (index) => {
    expect(Math.abs(fit.residuals[index]?.plateResistance ?? Number.NaN)).toBeLessThan(0.25);
    expect(Math.abs(fit.residuals[index]?.screenCurrent ?? Number.NaN)).toBeLessThan(0.25);
  });
});

const tube: ScreenGridTube = {
  perveance: 0.4e-3,
  screenMu: 10,
  offset: 0.8,
  kneeVoltage: 25,
  plateShare: 0.8,
};

describe('a screen-grid tube', () => {
  it('passes on to the screen what the plate does not take', () => {
    const at = { plate: 20, screen: 90, grid: -3, filament: 0 };
    const low = known(screenGridState(tube, at));
    const high = known(screenGridState(tube, { ...at, plate: 180 }));
    expect(low.plate.current).toBeLessThan(high.plate.current);
    expect(low.screen.current).toBeGreaterThan(high.screen.current);
    expect(low.plate.current + low.screen.current).toBeCloseTo(
      high.plate.current + high.screen.current,
      12,
    );
  });

  it('loses all plate current with the plate lead open, and the screen takes it', () => {
    const state = known(screenGridState(tube, { plate: 0, screen: 90, grid: -3, filament: 0 }));
    expect(state.plate.current).toBe(0);
    expect(state.screen.current).toBeGreaterThan(0.004);
  });

  it('is dead without screen voltage', () => {
    const state = known(screenGridState(tube, { plate: 180, screen: 0, grid: -3, filament: 0 }));
    expect(state.plate.current).toBe(0);
    expect(state.screen.current).toBe(0);
  });

  it('has the slopes that small steps of each voltage show', () => {
    const voltages = fc.record({
      plate: fc.double({ min: 1, max: 250, noNaN: true }),
      screen: fc.double({ min: 1, max: 120, noNaN: true }),
      grid: fc.double({ min: -6, max: 2, noNaN: true }),
      filament: fc.double({ min: 0, max: 4, noNaN: true }),
    });
    const names = { grid: 'byGrid', screen: 'byScreen', plate: 'byPlate', filament: 'byFilament' };
    fc.assert(
      fc.property(voltages, fc.double({ min: 1e-3, max: 0.1, noNaN: true }), (at, emission) => {
        const state = known(screenGridState(tube, at, emission));
        for (const [voltage, slope] of Object.entries(names)) {
          const key = voltage as keyof ScreenGridVoltages;
          const step = 1e-4;
          const high = known(screenGridState(tube, { ...at, [key]: at[key] + step }, emission));
          const low = known(screenGridState(tube, { ...at, [key]: at[key] - step }, emission));
          for (const electrode of ['plate', 'screen'] as const) {
            const rise = high[electrode].current - low[electrode].current;
            const stated = state[electrode][slope as 'byGrid'];
            expect(Math.abs(stated - rise / (2 * step))).toBeLessThan(1e-8);
          }
        }
      }),
      { seed: 17, numRuns: 200 },
    );
  });
});

it('a fit without a usable point says nothing', () => {
  expect(fitScreenGrid([], 0)).toBeUndefined();
});
