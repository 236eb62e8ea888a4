import { describe, expect, it } from 'vitest';
import { readCovering, readGauge } from '../src/index.ts';

describe('the covering of a wire', () => {
  it.each([
    ['bare', 'bare'],
    ['BARE', 'bare'],
    ['enamel', 'enamel'],
    ['Enameled', 'enamel'],
    ['enamelled', 'enamel'],
    ['SSC', 'SSC'],
    ['dsc', 'DSC'],
    ['S.C.C.', 'SCC'],
    ['d.c.c.', 'DCC'],
    [' Dcc ', 'DCC'],
    ['double cotton covered', 'DCC'],
    ['single silk covered', 'SSC'],
  ])('%j is %s', (text, covering) => {
    expect(readCovering(text)).toBe(covering);
  });

  it.each(['', 'TCC', 'silk', 'constructor', 'dcc'.repeat(5000)])('%j is none', (text) => {
    expect(readCovering(text)).toBeUndefined();
  });
});

describe('the gauge of a wire', () => {
  it.each([
    ['B&S', 'B&S'],
    ['b & s', 'B&S'],
    ['B. and S.', 'B&S'],
    ['AWG', 'B&S'],
    ['awg', 'B&S'],
    ['swg', 'SWG'],
    ['S.W.G.', 'SWG'],
  ])('%j is %s', (text, gauge) => {
    expect(readGauge(text)).toBe(gauge);
  });

  it.each(['', 'gauge', 'BWG', '__proto__'])('%j is none', (text) => {
    expect(readGauge(text)).toBeUndefined();
  });
});
