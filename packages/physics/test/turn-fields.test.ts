import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  coaxialCircles,
  fieldProximityRatio,
  proximityRatio,
  type Turn,
  turnField,
  turnsOf,
} from '../src/index.ts';
import { INCH, known, relativeError } from './support.ts';

const MU_0 = 4e-7 * Math.PI;

describe('the field of a turn', () => {
  it('in its middle is half an ampere to the metre for each metre of radius', () => {
    // I/2a: the field in the middle of a circle, Biot and Savart.
    const field = known(turnField({ radius: 0.05, position: 0 }, 1e-9, 0));
    expect(relativeError(field.along, 10)).toBeLessThan(1e-9);
    expect(Math.abs(field.outward)).toBeLessThan(1e-6);
  });

  it('on its axis is a²/2(a² + z²)^1.5', () => {
    // Biot and Savart, as in every text.
    const field = known(turnField({ radius: 0.05, position: 0 }, 1e-9, 0.08));
    expect(
      relativeError(field.along, 0.05 ** 2 / (2 * (0.05 ** 2 + 0.08 ** 2) ** 1.5)),
    ).toBeLessThan(1e-9);
  });

  it('is the slope of the mutual inductance of two circles', () => {
    // The flux through a circle grows with its radius by the field along the axis, and falls with
    // the distance by the field outward: definition of flux, with Maxwell's formula for the circles.
    const place = fc.record({
      radius: fc.double({ min: 0.01, max: 0.09, noNaN: true }),
      position: fc.double({ min: -0.1, max: 0.1, noNaN: true }),
    });
    fc.assert(
      fc.property(place, ({ radius, position }) => {
        const turn = { radius: 0.05, position: 0.01 };
        fc.pre(Math.hypot(radius - turn.radius, position - turn.position) > 2e-3);
        const flux = (r: number, z: number) =>
          known(coaxialCircles(turn.radius, r, z - turn.position)) / (2 * Math.PI * MU_0);
        const step = 1e-6;
        const { along, outward } = known(turnField(turn, radius, position));
        const grows = (flux(radius + step, position) - flux(radius - step, position)) / (2 * step);
        const falls = (flux(radius, position - step) - flux(radius, position + step)) / (2 * step);
        expect(Math.abs(grows / radius - along)).toBeLessThan(1e-5 * (1 + Math.abs(along)));
        expect(Math.abs(falls / radius - outward)).toBeLessThan(1e-5 * (1 + Math.abs(outward)));
      }),
      { seed: 31, numRuns: 200 },
    );
  });

  it('does not exist on its own wire', () => {
    expect(turnField({ radius: 0.05, position: 0 }, 0.05, 0)).toBeUndefined();
  });
});

/** Turns of one layer, so many, on a form so many times wider than long. */
function layer(
  turns: number,
  lengthOverDiameter: number,
): { turns: readonly Turn[]; pitch: number } {
  const radius = 0.04;
  const length = lengthOverDiameter * 2 * radius;
  const all = known(turnsOf({ turns, radius, length, position: 0 }));
  return { turns: all, pitch: length / turns };
}

describe('the resistance of turns in the field of all others', () => {
  // First-order theory, computed independently: 1 + c (d/s)², c by length over diameter.
  it.each([
    [0.2, 1.808],
    [0.4, 2.034],
    [0.6, 2.256],
    [0.8, 2.461],
    [1, 2.648],
    [2, 3.327],
    [4, 3.969],
  ])('at length %f diameters is 1 + %f (d/s)²', (length, c) => {
    const { turns, pitch } = layer(160, length);
    const ratio = known(fieldProximityRatio(turns, 0.2 * pitch));
    expect((ratio - 1) / 0.04 / c).toBeGreaterThan(0.975);
    expect((ratio - 1) / 0.04 / c).toBeLessThan(1.025);
  });

  it('agrees within 4 % with the table for coils of up to half the pitch of wire', () => {
    // R. G. Medhurst, Wireless Engineer 24 (1947) 35 (from memory), whose columns these are.
    for (const length of [0.4, 1, 4])
      for (const spacing of [0.1, 0.3, 0.5]) {
        const { turns, pitch } = layer(200, length);
        const ratio = fieldProximityRatio(turns, spacing * pitch);
        expect(relativeError(ratio, known(proximityRatio(length, spacing)))).toBeLessThan(
          spacing < 0.5 || length < 2 ? 0.045 : 0.12,
        );
      }
  });

  it.each([
    [200, 1],
    [400, 8],
    [1200, 24],
    [1000, 10],
  ])('of %i turns in %i layers is summed at some for all', (count, layers) => {
    const shape = { radius: 0.03, position: 0 };
    const wound = (turns: number) =>
      known(
        turnsOf(
          {
            ...shape,
            turns,
            length: (turns / layers) * 4e-4,
            depth: layers > 1 ? layers * 4e-4 : 0,
          },
          layers,
        ),
      );
    const turns = wound(count);
    // The whole sum, turn by turn: every one in the field of all.
    let excess = 0;
    let wire = 0;
    for (const here of turns) {
      let along = (Math.log((8 * here.radius) / 1e-4) - 1) / (4 * Math.PI * here.radius);
      let outward = 0;
      for (const other of turns) {
        if (other === here) continue;
        const field = known(turnField(other, here.radius, here.position));
        along += field.along;
        outward += field.outward;
      }
      excess += here.radius * (along ** 2 + outward ** 2);
      wire += here.radius;
    }
    const whole = (2 * (Math.PI * 2e-4) ** 2 * excess) / wire;
    expect(relativeError(known(fieldProximityRatio(turns, 2e-4)) - 1, whole)).toBeLessThan(0.06);
  });

  it('is more in several layers than in one', () => {
    const wire = 0.02 * INCH;
    const shape = { turns: 60, radius: INCH, position: 0 };
    const one = known(turnsOf({ ...shape, length: 60 * 0.028 * INCH }));
    const four = known(
      turnsOf({ ...shape, length: 15 * 0.028 * INCH, depth: 4 * 0.028 * INCH }, 4),
    );
    expect(known(fieldProximityRatio(four, wire))).toBeGreaterThan(
      2 * known(fieldProximityRatio(one, wire)),
    );
  });

  it('of a single turn is hardly more than that of the straight wire', () => {
    const ratio = known(fieldProximityRatio([{ radius: 0.05, position: 0 }], 1e-3));
    expect(ratio).toBeGreaterThan(1);
    expect(ratio).toBeLessThan(1.005);
  });

  it('is not known of two turns in one place', () => {
    const turn = { radius: 0.05, position: 0 };
    expect(fieldProximityRatio([turn, { ...turn }], 1e-3)).toBeUndefined();
  });
});
