import type { Dimension } from './dimension.ts';

/**
 * The units a bare number most likely wants, likeliest first, by the sizes parts of a battery
 * receiver come in (common practice): condensers are marked .00025 mfd or 250 mmfd, leaks 2 meg,
 * rheostats 20 ohms, filaments .25 A, plates 2.5 mA.
 *
 * @param dimension what is expected.
 * @param value the bare number; its sign does not matter.
 * @returns unit texts that `readUnit` reads; [''] for what takes no unit.
 */
export function likelyUnits(dimension: Dimension, value: number): readonly string[] {
  const size = Math.abs(value);
  switch (dimension) {
    case 'voltage':
      return ['V'];
    case 'current':
      return size < 1 ? ['A', 'mA'] : size < 10 ? ['mA', 'A'] : ['mA'];
    case 'resistance':
      return size < 10 ? ['megohms', 'ohms'] : ['ohms'];
    case 'capacitance':
      return size < 0.1 ? ['mfd'] : size < 5 ? ['mfd', 'mmfd'] : ['mmfd'];
    case 'inductance':
      return size < 1 ? ['mH', 'H'] : size < 100 ? ['H', 'mH', 'uH'] : ['uH', 'mH'];
    case 'frequency':
      return likelyTuning(value, 'kc');
    case 'wavelength':
      return likelyTuning(value, 'meters');
    case 'length':
      return size <= 12 ? ['in'] : ['in', 'mm', 'ft'];
    case 'turns':
      return ['turns'];
    case 'plates':
      return ['plates'];
    case 'charge':
      return ['Ah'];
    case 'power':
      return ['W'];
    case 'percent':
      return ['%'];
    case 'ratio':
    case 'number':
      return [''];
  }
}

/** The broadcast band is 200 to 550 meters or 550 to 1500 kc: the number tells which is meant. */
function likelyTuning(size: number, usual: 'kc' | 'meters'): readonly string[] {
  // Nothing and less than nothing have no wave to convert to.
  if (!(size > 0)) return [usual];
  if (size < 20) return ['Mc', usual];
  if (size < 200) return [usual, usual === 'kc' ? 'meters' : 'kc'];
  return size <= 600 ? ['meters', 'kc'] : ['kc'];
}
