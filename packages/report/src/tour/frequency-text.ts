import { formatQuantity } from '@setwright/units';

/** Hertz below which a person counts cycles and not kilocycles. */
export const AUDIO_END = 20_000;

/** A frequency as a sentence has it. */
export function frequencyText(hertz: number, style: 'period' | 'si'): string {
  if (style === 'period' && hertz < AUDIO_END) return `${Number(hertz.toPrecision(3))} cycles`;
  return formatQuantity(hertz, 'frequency', style);
}
