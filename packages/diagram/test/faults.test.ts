import { beforeAll, describe, expect, it } from 'vitest';
import {
  type Box,
  drawCircuit,
  type Label,
  layoutEngine,
  type PlacedSymbol,
  type Point,
  type Scene,
  type Wire,
} from '../src/index.ts';
import { circuitOf } from './examples.ts';
import { faultsOf, turnedFaults } from './faults.ts';
import { textOf } from './on-paper.ts';

/*
 * What looks for faults in drawings is tried on drawings that are spoilt in one place: each time it
 * must tell of that very fault.
 */
const circuit = circuitOf(textOf('five-tube-trf'));
let scene: Scene;
beforeAll(async () => {
  scene = await drawCircuit(circuit, layoutEngine());
});

const moved = (box: Box, x: number, y: number): Box => ({
  left: box.left + x,
  right: box.right + x,
  top: box.top + y,
  bottom: box.bottom + y,
});
const symbolOf = (part: string): PlacedSymbol =>
  scene.symbols.find(
    (each) => each.part === part && !/^(filament|terminal|name)/.test(each.symbol),
  )!;
const labelOf = (text: string): Label => scene.labels.find((label) => label.text === text)!;
const onto = (label: Label, box: Box): Label => ({
  ...label,
  box: moved(label.box, box.left - label.box.left, box.top - label.box.top),
});
const withLabel = (label: Label): Partial<Scene> => ({
  labels: scene.labels.map((other) => (other.text === label.text ? label : other)),
});
const withSymbol = (symbol: PlacedSymbol): Partial<Scene> => ({
  symbols: scene.symbols.map((other) =>
    other.part === symbol.part && other.symbol === symbol.symbol ? symbol : other,
  ),
});
const withWire = (net: string, ...points: readonly Point[]): Partial<Scene> => ({
  wires: [...scene.wires, { net, points }],
});
const at = (x: number, y: number): Point => ({ x, y });
const middle = ({ left, right, top, bottom }: Box): Point =>
  at((left + right) / 2, (top + bottom) / 2);
/** The longest level wire of a junction. */
const levelOf = (net: string): Wire =>
  scene.wires
    .filter(({ net: its, points: [a, b] }) => its === net && a!.y === b!.y)
    .sort(
      (a, b) =>
        Math.abs(b.points[0]!.x - b.points[1]!.x) - Math.abs(a.points[0]!.x - a.points[1]!.x),
    )[0]!;
/** A place at a wire where nothing else of its junction ends. */
const clearOn = ({ points: [a, b] }: Wire): Point => at(Math.round((a!.x + b!.x) / 2) + 3, a!.y);

const spoilt: readonly (readonly [string, () => Partial<Scene>, RegExp])[] = [
  [
    'a name on another',
    () => withLabel(onto(labelOf('R1'), labelOf('R2').box)),
    /^"R[12]" on "R[12]"/,
  ],
  ['a name on a symbol', () => withLabel(onto(labelOf('R1'), symbolOf('V2').box)), /^"R1" on V2/],
  [
    'a name on a rail symbol',
    () => withLabel(onto(labelOf('R1'), scene.marks.find(({ shape }) => shape !== 'none')!.box)),
    /^"R1" on the symbol of/,
  ],
  [
    'a wire through a name',
    () => {
      const { left, right, top, bottom } = labelOf('R1').box;
      const y = (top + bottom) / 2;
      return withWire('X', at(left - 5, y), at(right + 5, y));
    },
    /^wire X through "R1"/,
  ],
  [
    'a rail without its name',
    () => ({
      labels: scene.labels.filter(({ text }) => text !== 'B+90'),
      marks: [
        ...scene.marks,
        {
          net: 'B+90',
          shape: 'none' as const,
          at: at(300, 300),
          box: moved({ left: 0, top: 0, right: 0, bottom: 0 }, 300, 300),
        },
      ],
    }),
    /^B\+90 has no name at its line/,
  ],
  [
    'a symbol on another',
    () => {
      const [one, other] = [symbolOf('R1'), symbolOf('V2').box];
      return withSymbol({
        ...one,
        box: moved(one.box, other.left - one.box.left, other.top - one.box.top),
      });
    },
    /^(R1 on V2|V2 on R1)/,
  ],
  [
    'a wire through a symbol',
    () => {
      const { x, y } = middle(symbolOf('V2').box);
      return withWire('X', at(x - 60, y + 7), at(x + 60, y + 7));
    },
    /^wire X through V2/,
  ],
  ['a wire aslant', () => withWire('X', at(100, 100), at(150, 130)), /^X runs aslant/],
  [
    'a wire that steps aside by a hair',
    () => withWire('X', at(3, 40), at(3, 44)),
    /^X steps aside by 4/,
  ],
  [
    'a wire along that of another junction',
    () => {
      const {
        points: [a, b],
      } = levelOf('NEG');
      return withWire('X', at(a!.x, a!.y + 1), at(b!.x, b!.y + 1));
    },
    /runs along/,
  ],
  [
    'a junction that crosses itself',
    () => {
      const wire = levelOf('NEG');
      const { x, y } = clearOn(wire);
      return withWire(wire.net, at(x, y - 30), at(x, y + 30));
    },
    /crosses itself without a dot/,
  ],
  [
    'a dot at which four wires meet',
    () => {
      const wire = levelOf('NEG');
      const { x, y } = clearOn(wire);
      return {
        ...withWire(wire.net, at(x, y - 30), at(x, y)),
        wires: [
          ...scene.wires,
          { net: wire.net, points: [at(x, y - 30), at(x, y)] },
          { net: wire.net, points: [at(x, y), at(x, y + 30)] },
        ],
        dots: [...scene.dots, { net: wire.net, at: at(x, y) }],
      };
    },
    /^NEG meets four ways/,
  ],
  ['a joint without its dot', () => ({ dots: scene.dots.slice(1) }), /meets without a dot/],
  [
    'a dot where nothing joins',
    () => {
      const wire = levelOf('NEG');
      return { dots: [...scene.dots, { net: wire.net, at: clearOn(wire) }] };
    },
    /^NEG has a dot where nothing joins/,
  ],
  [
    'a wire that ends in the air',
    () => {
      const { x, y } = clearOn(levelOf('NEG'));
      return withWire('NEG', at(x, y), at(x, y + 12));
    },
    /^NEG ends in the air/,
  ],
  [
    'a symbol off the paper',
    () => withSymbol({ ...symbolOf('R1'), box: moved(symbolOf('R1').box, 5000, 0) }),
    /^R1 is off the paper/,
  ],
];

describe('of a drawing with', () => {
  it.each(spoilt)('%s that is told', (_name, spoil, told) => {
    expect(faultsOf(scene)).toEqual([]);
    expect(faultsOf({ ...scene, ...spoil() }).some((fault) => told.test(fault))).toBe(true);
  });
});

const turnedOver = (symbol: PlacedSymbol): PlacedSymbol => {
  const { y } = middle(symbol.box);
  return {
    ...symbol,
    pins: symbol.pins.map((pin) => ({ ...pin, at: at(pin.at.x, 2 * y - pin.at.y) })),
  };
};

const turned: readonly (readonly [string, () => Partial<Scene>, RegExp])[] = [
  ['a tube that lies', () => withSymbol({ ...symbolOf('V2'), turns: 1 }), /^V2 lies/],
  ['a tube on its head', () => withSymbol({ ...symbolOf('V2'), flipped: true }), /^V2 lies/],
  [
    'a supply at the lower end',
    () => withSymbol(turnedOver(symbolOf('C5'))),
    /^C5 has its supply below/,
  ],
  [
    'a tuning condenser that lies',
    () => {
      const symbol = symbolOf('C2');
      const [a, b] = symbol.pins;
      const { x, y } = middle(symbol.box);
      return withSymbol({
        ...symbol,
        pins: [
          { ...a!, at: at(x - 20, y) },
          { ...b!, at: at(x + 20, y) },
        ],
      });
    },
    /^C2 lies beside L2/,
  ],
  [
    'a tuning condenser far from its coil',
    () => {
      const symbol = symbolOf('C2');
      const pins = symbol.pins.map((pin) => ({ ...pin, at: at(pin.at.x + 900, pin.at.y) }));
      return withSymbol({ ...symbol, pins, box: moved(symbol.box, 900, 0) });
    },
    /^C2 stands away from L2/,
  ],
];

describe('of a drawing with', () => {
  it.each(turned)('%s that is told too', (_name, spoil, told) => {
    expect(turnedFaults(circuit, scene)).toEqual([]);
    expect(turnedFaults(circuit, { ...scene, ...spoil() }).some((fault) => told.test(fault))).toBe(
      true,
    );
  });
});
