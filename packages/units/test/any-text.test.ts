import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Dimension,
  nearest,
  parseNumber,
  readCovering,
  readGauge,
  readQuantity,
  readUnit,
} from '../src/index.ts';

const DIMENSIONS: readonly Dimension[] = [
  'voltage',
  'current',
  'resistance',
  'capacitance',
  'inductance',
  'frequency',
  'wavelength',
  'length',
  'turns',
  'plates',
  'charge',
  'power',
  'percent',
  'ratio',
  'number',
];

/** Any text at all, lone surrogates among it, and texts made of the trade's own letters. */
const anyText = fc.oneof(
  fc.string({ unit: 'binary' }),
  fc.string({ unit: fc.integer({ min: 0, max: 0xffff }).map((code) => String.fromCharCode(code)) }),
  fc.string({ unit: fc.constantFrom(...'mMkKuUµΩfFdhHcCsaAvV.,-−/ 0123456789%½\n') }),
);
const expectations = fc.oneof(
  fc.constantFrom(...DIMENSIONS),
  fc.uniqueArray(fc.constantFrom(...DIMENSIONS)),
);

describe('any text', () => {
  it('never makes a reader throw', () => {
    fc.assert(
      fc.property(anyText, anyText, expectations, (first, second, expected) => {
        parseNumber(first);
        readUnit(first);
        readUnit(first, 'capacitance');
        readCovering(first);
        readGauge(first);
        nearest(first, [second, first]);
        readQuantity(first, second, expected);
        readQuantity(first, undefined, expected);
      }),
      { numRuns: 2000 },
    );
  });

  it('is read as a finite number of an expected dimension, or refused in one short line', () => {
    fc.assert(
      fc.property(anyText, anyText, expectations, (number, unit, expected) => {
        const reading = readQuantity(number, unit, expected);
        if (reading.ok) {
          expect(Number.isFinite(reading.value)).toBe(true);
          expect([expected].flat()).toContain(reading.dimension);
        } else {
          expect(reading.message).toMatch(/^[^\n]+\.$/);
          expect(reading.fixes.length).toBeLessThanOrEqual(4);
        }
      }),
      { numRuns: 2000 },
    );
  });

  it('once mended by any of its fixes, reads', () => {
    const number = fc.constantFrom('.00025', '.25', '2', '2 3/4', '45', '350', '1500', '10,000');
    fc.assert(
      fc.property(number, fc.option(anyText), expectations, (text, unit, expected) => {
        const reading = readQuantity(text, unit ?? undefined, expected);
        if (reading.ok) return;
        for (const fix of reading.fixes) {
          const mended = readQuantity(fix.number ?? text, fix.unit, expected);
          expect(mended.ok, `${text} ${unit}: ${fix.title}`).toBe(true);
        }
      }),
      { numRuns: 2000 },
    );
  });
});
