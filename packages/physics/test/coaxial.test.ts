import { describe, expect, it } from 'vitest';
import { coaxialCircles, singleTurnInductance } from '../src/index.ts';
import { known, relativeError } from './support.ts';

describe('mutual inductance of coaxial circles', () => {
  it('of radii 25 and 20 cm, 10 cm apart, is 248.7875 cm', () => {
    // E. B. Rosa and F. W. Grover, Bureau of Standards Scientific Paper 169 (1912), example 1
    // (from memory); a centimetre of inductance is a nanohenry. Printed to 6e-7.
    expect(relativeError(coaxialCircles(0.25, 0.2, 0.1), 248.7875e-9)).toBeLessThan(1e-6);
  });

  // Computed independently to twenty digits from NIST DLMF 19.34.1, which cites F. W. Grover,
  // Inductance Calculations (1946). Radii and distance in centimetres, result in nanohenries.
  it.each([
    [25, 20, 10, 248.787359],
    [25, 25, 1, 1036.66485],
    [25, 25, 4, 606.067628],
    [25, 25, 16, 216.965412],
    [10, 10, 5, 111.261089],
    [10, 10, 10, 49.4078463],
    [10, 5, 0, 54.8617947],
    [10, 5, 5, 34.9366232],
    [4, 3, 2, 29.7844191],
    [3.81, 3.81, 1.27, 59.2218988],
  ])('of %f and %f cm, %f cm apart, is %f nH', (radius, other, distance, nanohenries) => {
    const mutual = coaxialCircles(radius / 100, other / 100, distance / 100);
    expect(relativeError(mutual, nanohenries * 1e-9)).toBeLessThan(1e-8);
  });

  // Table of F in M = F√(Aa), by r₂/r₁, the form of NBS Circular 74; values computed
  // independently (the printed one at 0.01 from memory), microhenries for centimetres.
  it.each([
    [0.01, 0.0501629],
    [0.02, 0.0414641],
    [0.03, 0.0363857],
    [0.05, 0.0300132],
    [0.1, 0.0214781],
    [0.2, 0.013284],
    [0.3, 0.00884336],
    [0.4, 0.00597026],
    [0.5, 0.00396906],
    [0.6, 0.0025276],
    [0.7, 0.00148075],
    [0.8, 0.000734493],
    [0.9, 0.000238589],
    [0.95, 8.10662e-5],
  ])('with nearest over farthest distance %f is %f √(Aa)', (ratio, factor) => {
    // Equal circles of 1 cm: farthest² = 4 + d², nearest = d.
    const distance = (2 * ratio) / Math.sqrt(1 - ratio * ratio);
    const mutual = coaxialCircles(0.01, 0.01, distance / 100);
    expect(relativeError(mutual, factor * 1e-6)).toBeLessThan(5e-6);
  });

  it('of nearly touching circles nears μ₀ a (ln(8a/d) − 2)', () => {
    // Maxwell, Treatise, article 704: limit for small distance.
    const limit = 4e-7 * Math.PI * (Math.log(8 / 1e-5) - 2);
    expect(relativeError(coaxialCircles(1, 1, 1e-5), limit)).toBeLessThan(1e-9);
  });

  it('far apart nears that of two small magnets, μ₀ π A² a² / 2d³', () => {
    // Ampère's equivalence of a small loop and a magnet.
    const dipoles = (4e-7 * Math.PI * Math.PI * 0.02 ** 2 * 0.01 ** 2) / (2 * 100 ** 3);
    expect(relativeError(coaxialCircles(0.02, 0.01, 100), dipoles)).toBeLessThan(1e-6);
  });

  it('does not exist where the circles coincide', () => {
    expect(coaxialCircles(1, 1, 0)).toBeUndefined();
  });
});

describe('inductance of one turn', () => {
  it('is the circle seen from its own wire: the mean distance of round wire is r e^(−1/4)', () => {
    // Geometric mean distance, Maxwell, Treatise, article 692.
    const fromItself = coaxialCircles(1, 1, 1e-4 * Math.exp(-0.25));
    expect(relativeError(singleTurnInductance(1, 1e-4), known(fromItself))).toBeLessThan(1e-6);
  });

  it('is less with the current at the surface, by a quarter of μ₀ a', () => {
    const even = known(singleTurnInductance(0.05, 0.0005));
    const skin = known(singleTurnInductance(0.05, 0.0005, true));
    expect(even - skin).toBeCloseTo(4e-7 * Math.PI * 0.05 * 0.25, 15);
  });
});
