import { openAbove, openBelow } from './envelope.ts';
import type { SymbolShape } from './symbol-shape.ts';

/** Open loops as a pen draws them, upright, so many of 10 from `top` down. */
export function openLoops(top: number, loops: number, facing: 'left' | 'right'): string {
  const out = facing === 'right' ? 1 : -1;
  const loop = `c${8 * out} 0 ${8 * out} 13 ${1 * out} 13c${-6 * out} 0 ${-5 * out} -6 ${-1 * out} -3`;
  return `M0 ${top}${loop.repeat(loops)}`;
}

const circle = (x: number, y: number, r: number): string =>
  `M${x - r} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0`;

const grid = (y: number): string => `M-20 ${y}l4 -5l5 10l5 -10l5 10l5 -10l5 10l5 -10l5 10l3 -5`;

const tube = (screen: boolean, cathode: boolean): SymbolShape['strokes'] => [
  { d: cathode ? circle(0, 0, 30) : openBelow },
  { d: 'M0 -30V-21M-15 -21H15V-16H-15Z' },
  { d: `M-30 0H-20${grid(0)}` },
  ...(cathode ? [{ d: 'M-10 20Q0 8 10 20M-10 20V30' }] : []),
  ...(screen ? [{ d: `${grid(-9)}M23 -9L29 -8` }] : []),
];

const upright = (d: string): SymbolShape['strokes'] => [{ d }];
const arrow = { d: 'M-13 13L12 -12M13.5 -13.5L5.5 -10.5L10.5 -5.5Z', solid: true } as const;
const zigzag = 'M0 -20V-16L7 -14L-7 -10L7 -6L-7 -2L7 2L-7 6L7 10L-7 14L0 16V20';
const bars = 'M0 -20V-3M-12 -3H12M-12 3H12M0 3V20';
const coil = `M0 -20${openLoops(-20, 4, 'right').slice(6)}L0 20`;

/**
 * Strokes in the manner of the early twenties, from memory of its printed diagrams: open loops for
 * coils, a solid plate, an inverted V for the filament. Ports and boxes are those of the modern
 * symbols, so that the style moves nothing.
 */
export const periodStrokes: Readonly<Record<string, SymbolShape['strokes']>> = {
  tube: tube(false, false),
  'tube-screen': tube(true, false),
  'tube-heated': tube(false, true),
  'tube-screen-heated': tube(true, true),
  filament: [{ d: openAbove }, { d: 'M0 -20V-11L-8 0L0 11V20' }],
  resistor: upright(zigzag),
  'resistor-variable': [{ d: zigzag }, arrow],
  potentiometer: [{ d: zigzag }, { d: 'M20 0H8M7 0L13 -3.5V3.5Z', solid: true }],
  condenser: upright(bars),
  'condenser-variable': [{ d: bars }, arrow],
  choke: upright(coil),
  'choke-iron': [{ d: coil }, { d: 'M10 -19V19M12 -19V19' }],
  variometer: [{ d: coil }, arrow],
};
