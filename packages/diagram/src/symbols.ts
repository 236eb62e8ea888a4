import { openAbove, openBelow } from './envelope.ts';
import type { Box, Point } from './scene.ts';
import type { Stroke, SymbolShape } from './symbol-shape.ts';
import { openLoops, periodStrokes } from './symbols-period.ts';

const circle = (x: number, y: number, r: number): string =>
  `M${x - r} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0`;

const box = (left: number, top: number, right: number, bottom: number): Box => ({
  left,
  top,
  right,
  bottom,
});

/** Ends of an upright two-ended part, 20 above and below its middle. */
const upright = { a: { x: 0, y: -20 }, b: { x: 0, y: 20 } };
const zigzag = 'M0 -20L6 -16.7L-6 -10L6 -3.3L-6 3.3L6 10L-6 16.7L0 20';
const arrow = 'M-13 13L12 -12M13.5 -13.5L5.5 -10.5L10.5 -5.5Z';
const bars = 'M0 -20V-4M-12 -4H12M-12 4H12M0 4V20';
const boxed = 'M-9 -11H9V11H-9ZM0 -20V-11M0 11V20';

const plain = (d: string, half = 10): SymbolShape => ({
  strokes: [{ d }],
  ports: upright,
  box: box(-half, -20, half, 20),
});

const withArrow = (d: string): SymbolShape => ({
  strokes: [{ d }, { d: arrow, solid: true }],
  ports: upright,
  box: box(-14, -20, 14, 20),
});

const grid = 'M-30 0H-18M-18 0l3 -4l6 8l6 -8l6 8l6 -8l6 8l3 -4';
const heaterCathode = 'M-10 21Q0 9 10 21M-10 21V26';

const tubeShape = (more: readonly Stroke[], cathode: boolean): SymbolShape => ({
  strokes: [
    { d: cathode ? circle(0, 0, 30) : openBelow },
    { d: 'M0 -30V-16M-14 -16H14' },
    { d: grid },
    ...(cathode ? [{ d: `${heaterCathode}V30` }] : []),
    ...more,
  ],
  ports: {
    grid: { x: -30, y: 0 },
    plate: { x: 0, y: -30 },
    screen: { x: 30, y: -8 },
    cathode: { x: -10, y: 30 },
  },
  box: box(-30, -30, 30, 30),
});
const screen = { d: 'M-16 -8H16M16 -8H29', dashed: true };

/** The symbols in the modern style, after the public standards, drawn afresh. */
const modernSymbols: Readonly<Record<string, SymbolShape>> = {
  condenser: plain(bars, 12),
  'condenser-variable': { ...withArrow(bars), box: box(-14, -20, 14, 20) },
  'condenser-trimmer': {
    strokes: [{ d: bars }, { d: 'M-11 11L11 -11M7 -15L15 -7' }],
    ports: upright,
    box: box(-15, -20, 15, 20),
  },
  resistor: plain(zigzag),
  'resistor-variable': withArrow(zigzag),
  potentiometer: {
    strokes: [{ d: zigzag }, { d: 'M20 0H8M7 0L13 -3.5V3.5Z', solid: true }],
    ports: { ...upright, arm: { x: 20, y: 0 } },
    box: box(-8, -20, 20, 20),
  },
  ballast: {
    strokes: [
      { d: 'M0 -20V-11L5 -8.2L-5 -2.7L5 2.7L-5 8.2L0 11V20' },
      { d: 'M-10 -15H10V15H-10Z' },
    ],
    ports: upright,
    box: box(-10, -20, 10, 20),
  },
  choke: plain('M0 -20a5 5 0 0 1 0 10a5 5 0 0 1 0 10a5 5 0 0 1 0 10a5 5 0 0 1 0 10'),
  'choke-iron': plain(
    'M0 -20a5 5 0 0 1 0 10a5 5 0 0 1 0 10a5 5 0 0 1 0 10a5 5 0 0 1 0 10M9 -19V19M12 -19V19',
    12,
  ),
  variometer: withArrow('M0 -20a5 5 0 0 1 0 10a5 5 0 0 1 0 10a5 5 0 0 1 0 10a5 5 0 0 1 0 10'),
  loop: {
    strokes: [
      { d: 'M0 -30V-24L-24 0L0 24V30M0 -24L19 -5M0 24L19 5' },
      { d: 'M0 -15L-15 0L0 15L10 5M0 -15L10 -5' },
    ],
    ports: { a: { x: 0, y: -30 }, b: { x: 0, y: 30 } },
    box: box(-24, -30, 20, 30),
  },
  phones: {
    strokes: [
      { d: `${circle(5, -10, 7)}${circle(5, 10, 7)}M0 -20V-15M0 15V20M5 -3V3` },
      { d: 'M12 -12Q19 0 12 12' },
    ],
    ports: upright,
    box: box(-3, -20, 17, 20),
  },
  horn: {
    strokes: [{ d: 'M-5 -8H5V8H-5ZM0 -20V-8M0 8V20M5 -4H10L24 -16V16L10 4H5' }],
    ports: upright,
    box: box(-6, -20, 24, 20),
  },
  speaker: {
    strokes: [{ d: 'M-5 -8H5V8H-5ZM0 -20V-8M0 8V20M5 -8L18 -17V17L5 8' }],
    ports: upright,
    box: box(-6, -20, 18, 20),
  },
  crystal: {
    strokes: [{ d: 'M0 -20V-7M-9 7H9M0 7V20' }, { d: 'M-9 -7H9L0 7Z', solid: true }],
    ports: upright,
    box: box(-10, -20, 10, 20),
  },
  'switch-open': {
    strokes: [{ d: `M0 -20V-12M0 12V20M2 9L13 -9${circle(0, -10, 2)}${circle(0, 10, 2)}` }],
    ports: upright,
    box: box(-4, -20, 14, 20),
  },
  'switch-closed': {
    strokes: [{ d: `M0 -20V-12M0 12V20M1.5 8L3 -10${circle(0, -10, 2)}${circle(0, 10, 2)}` }],
    ports: upright,
    box: box(-4, -20, 6, 20),
  },
  lamp: {
    strokes: [{ d: `M0 -20V-10M0 10V20M-7 -7L7 7M-7 7L7 -7${circle(0, 0, 10)}` }],
    ports: upright,
    box: box(-10, -20, 10, 20),
  },
  fuse: {
    strokes: [
      { d: `M0 -20V-14M0 14V20M0 -10Q12 -5 0 0Q-12 5 0 10${circle(0, -12, 2)}${circle(0, 12, 2)}` },
    ],
    ports: upright,
    box: box(-8, -20, 8, 20),
  },
  lead: plain('M0 -20V-8M0 8V20M0 -8Q7 -4 0 0Q-7 4 0 8', 5),
  /** Two springs at the right of a frame; the upper one has the notch that holds a plug's tip. */
  jack: {
    strokes: [{ d: 'M0 -20V-12H12L16 -7L20 -12H24M0 20V12H24M-6 -16V16' }],
    ports: upright,
    box: box(-7, -20, 24, 20),
  },
  /** The same with a contact at each spring, which a plug lifts off. */
  'jack-through': {
    strokes: [
      { d: 'M0 -30V-20H8L12 -15L16 -20H30M0 30V20H30M-6 -24V24M26 -13V-10H36M26 13V10H36' },
      { d: 'M26 -19L29.5 -13H22.5ZM26 19L29.5 13H22.5Z', solid: true },
    ],
    ports: { a: { x: 0, y: -30 }, b: { x: 0, y: 30 } },
    box: box(-7, -30, 36, 30),
  },
  boxed: plain(boxed),
  shield: {
    strokes: [{ d: 'M-16 -14H16V10H-16Z', dashed: true }, { d: 'M0 10V20' }],
    ports: { shield: { x: 0, y: 20 } },
    box: box(-16, -14, 16, 20),
  },
  tube: tubeShape([], false),
  'tube-screen': tubeShape([screen], false),
  'tube-heated': tubeShape([], true),
  'tube-screen-heated': tubeShape([screen], true),
  filament: {
    strokes: [{ d: `M0 -20V-10L-7 0L0 10V20${openAbove}` }],
    ports: { plus: { x: 0, y: -20 }, minus: { x: 0, y: 20 } },
    box: box(-15, -20, 15, 20),
  },
  aerial: {
    strokes: [{ d: 'M0 0V-30M-14 -30L0 -14L14 -30' }],
    ports: { post: { x: 0, y: 0 } },
    box: box(-14, -30, 14, 0),
  },
  ground: {
    strokes: [{ d: 'M0 0V6M-12 6H12M-8 11H8M-4 16H4' }],
    ports: { post: { x: 0, y: 0 } },
    box: box(-12, 0, 12, 16),
  },
  /** A binding post or battery terminal; the wire meets its middle. */
  terminal: {
    strokes: [{ d: circle(0, 0, 3.5) }],
    ports: { post: { x: 0, y: 0 } },
    box: box(-4, -4, 4, 4),
  },
  /** A named junction: nothing but its name. */
  name: { strokes: [], ports: { bus: { x: 0, y: 0 } }, box: box(0, 0, 0, 0) },
};

/** A winding of so many loops of 10, upright, with a port `tN` between loops N and N + 1. */
function windingShape(loops: number, facing: 'left' | 'right'): SymbolShape {
  const half = loops * 5;
  const sweep = facing === 'right' ? 1 : 0;
  const ports: Record<string, Point> = { a: { x: 0, y: -half }, b: { x: 0, y: half } };
  for (let loop = 1; loop < loops; loop++) ports[`t${loop}`] = { x: 0, y: loop * 10 - half };
  return {
    strokes: [{ d: `M0 ${-half}${`a5 5 0 0 ${sweep} 0 10`.repeat(loops)}` }],
    ports,
    box: facing === 'right' ? box(-1, -half, 6, half) : box(-6, -half, 1, half),
  };
}

/** Shapes made so far: there are few, and every cell asks for them again. */
const made = new Map<string, SymbolShape>();

/** The shape behind a key; windings go by `winding-LOOPS-left/right`, unknown keys are a box. */
export function symbolShape(key: string): SymbolShape {
  const known = modernSymbols[key] ?? made.get(key);
  if (known) return known;
  const shape = shapeOf(key);
  made.set(key, shape);
  return shape;
}

function shapeOf(key: string): SymbolShape {
  const winding = /^winding-(\d+)-(left|right)$/.exec(key);
  if (winding) {
    return windingShape(Math.min(40, Number(winding[1])), winding[2] === 'left' ? 'left' : 'right');
  }
  const generic = /^generic-(\d+)$/.exec(key);
  if (generic) return genericShape(Math.min(40, Number(generic[1])));
  return modernSymbols.boxed as SymbolShape;
}

/** A box with so many ends, even ones at its left, odd ones at its right. */
function genericShape(ends: number): SymbolShape {
  const rows = Math.max(1, Math.ceil(ends / 2));
  const ports: Record<string, Point> = {};
  let d = `M-15 -10H15V${rows * 20 - 10}H-15Z`;
  for (let end = 0; end < ends; end++) {
    const side = end % 2 === 0 ? -1 : 1;
    const y = Math.floor(end / 2) * 20;
    ports[`e${end}`] = { x: side * 25, y };
    d += `M${side * 15} ${y}H${side * 25}`;
  }
  return { strokes: [{ d }], ports, box: box(-25, -10, 25, rows * 20 - 10) };
}

/** How symbols are drawn. */
export type SymbolStyle = 'modern' | 'period';

/** The strokes of a symbol in a style; a symbol without a period form keeps its modern one. */
export function symbolStrokes(key: string, style: SymbolStyle): readonly Stroke[] {
  const modern = symbolShape(key).strokes;
  if (style === 'modern') return modern;
  const winding = /^winding-(\d+)-(left|right)$/.exec(key);
  if (!winding) return periodStrokes[key] ?? modern;
  const loops = Math.min(40, Number(winding[1]));
  const facing = winding[2] === 'left' ? 'left' : 'right';
  return [{ d: `${openLoops(-loops * 5, loops, facing)}L0 ${loops * 5}` }];
}

/** Where a point of a symbol comes to lie. */
export function placed(point: Point, at: Point, turns: 0 | 1 | 2 | 3, flipped: boolean): Point {
  let { x, y } = point;
  if (flipped) y = -y;
  for (let turn = 0; turn < turns; turn++) [x, y] = [-y, x];
  return { x: at.x + x, y: at.y + y };
}
