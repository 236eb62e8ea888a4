import { describe, expect, it } from 'vitest';
import {
  fitPolynomials,
  places,
  polynomialsAt,
  polynomialValuesAt,
  SAMPLES,
} from '../../src/small-signal/polynomial-fit.ts';

const samplesOf = (...functions: ((x: number) => number)[]): Float64Array =>
  Float64Array.from([...places].flatMap((place) => functions.map((each) => each(place))));

describe('polynomials through samples', () => {
  it('give back a polynomial and its slope', () => {
    const samples = samplesOf(
      (x) => 2 - x + 3 * x ** 4,
      (x) => x * x,
    );
    const fitted = fitPolynomials(samples, 2, Float64Array.of(1e-12, 1e-12))!;
    expect(fitted.degree).toBe(4);
    const values = new Float64Array(2);
    const slopes = new Float64Array(2);
    polynomialsAt(fitted, 0.3, 2, values, slopes);
    expect(values[0]).toBeCloseTo(2 - 0.3 + 3 * 0.3 ** 4, 12);
    expect(slopes[0]).toBeCloseTo(-1 + 12 * 0.3 ** 3, 12);
    expect(values[1]).toBeCloseTo(0.09, 12);
    expect(slopes[1]).toBeCloseTo(0.6, 12);
  });

  it('follow a smooth function to within the tolerance', () => {
    const fitted = fitPolynomials(samplesOf(Math.exp), 1, Float64Array.of(1e-11))!;
    const values = new Float64Array(1);
    for (let x = -1; x <= 1; x += 0.125) {
      polynomialValuesAt(fitted, x, values);
      expect(Math.abs(values[0]! - Math.exp(x))).toBeLessThan(1e-10);
    }
  });

  it('refuse a function with a corner', () => {
    expect(fitPolynomials(samplesOf(Math.abs), 1, Float64Array.of(1e-9))).toBeUndefined();
  });

  it('refuse what is not a number', () => {
    const samples = samplesOf((x) => (x > 0 ? Number.NaN : x));
    expect(fitPolynomials(samples, 1, Float64Array.of(1e-9))).toBeUndefined();
  });

  it('bear noise where that is allowed', () => {
    const samples = samplesOf((x) => x);
    for (let at = 0; at < SAMPLES; at++) samples[at] = samples[at]! + 1e-7 * Math.sin(1000 * at);
    const fine = Float64Array.of(1e-10);
    expect(fitPolynomials(samples, 1, fine)).toBeUndefined();
    expect(fitPolynomials(samples, 1, fine, Float64Array.of(1e-5))).toBeDefined();
  });
});
