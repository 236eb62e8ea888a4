import type { Circuit } from '@setwright/circuit';
import { describe, expect, it } from 'vitest';
import { drawCircuit, layoutEngine, type PlacedSymbol, type Scene } from '../src/index.ts';
import { circuitOf, exampleTexts } from './examples.ts';

const engine = layoutEngine();
const textOf = (name: string): string => exampleTexts.find(([each]) => each === name)![1];
const drawn = (text: string): Promise<Scene> => drawCircuit(circuitOf(text), engine);
const symbolOf = ({ symbols }: Scene, part: string): PlacedSymbol =>
  symbols.find((each) => each.part === part && !/^(filament|terminal|name)/.test(each.symbol))!;
const pinOf = ({ symbols }: Scene, end: string) =>
  symbols.flatMap(({ pins }) => pins).find((pin) => pin.end === end)!.at;
const tapsOf = (circuit: Circuit): string[] =>
  circuit.parts
    .filter(({ kind }) => kind === 'battery' || kind === 'eliminator')
    .flatMap(({ ends }) => ends.map(({ id }) => id));

it.each(exampleTexts.filter(([name]) => name !== 'crystal'))(
  'the batteries of %s have all their taps one below the other',
  async (_name, text) => {
    const scene = await drawn(text);
    const places = tapsOf(circuitOf(text)).map((end) => pinOf(scene, end).x);
    expect(places.length).toBeGreaterThan(3);
    expect(new Set(places).size).toBe(1);
  },
);

it('every filament is drawn once', async () => {
  const scene = await drawn(textOf('five-tube-trf'));
  const ends = scene.symbols.flatMap(({ pins }) => pins.map(({ end }) => end));
  const filaments = ends.filter((end) => end.includes('.filament')).sort();
  expect(filaments).toHaveLength(10);
  expect(new Set(filaments).size).toBe(10);
});

it('a plate wire enters the next primary at its foot, without a hook below it', async () => {
  const scene = await drawn(textOf('five-tube-trf'));
  const foot = pinOf(scene, 'L2.plate.start');
  const wires = scene.wires.filter(({ net }) => net === 'L2.plate.start');
  const lowest = Math.max(...wires.flatMap(({ points }) => points.map(({ y }) => y)));
  expect(lowest).toBe(foot.y);
});

it('two tubes in push-pull stand one above the other, their transformers even between them', async () => {
  const scene = await drawn(textOf('push-pull'));
  const [upper, lower] = [symbolOf(scene, 'V4'), symbolOf(scene, 'V5')];
  expect(upper.at.x).toBe(lower.at.x);
  expect(pinOf(scene, 'T2.secondary.centre').y).toBe((upper.at.y + lower.at.y) / 2);
  const plates = [pinOf(scene, 'V4.plate').y, pinOf(scene, 'V5.plate').y];
  expect(pinOf(scene, 'T3.primary.centre').y).toBe((plates[0]! + plates[1]!) / 2 - 10);
});

it('a resistance-coupled set goes on in a new row at a coupling condenser', async () => {
  const scene = await drawn(textOf('resistance-coupled'));
  const [before, after] = [symbolOf(scene, 'V2').at.y, symbolOf(scene, 'V3').at.y];
  expect(after).toBeGreaterThan(before + 100);
  expect(symbolOf(scene, 'C6').at.x).toBeLessThan(symbolOf(scene, 'V3').at.x);
  expect(symbolOf(scene, 'C6').at.y).toBeGreaterThan(before + 100);
});

it('the springs of a jack are wired to the winding that it leads through', async () => {
  const scene = await drawn(textOf('neutralized-five'));
  const jack = symbolOf(scene, 'J1').box;
  for (const end of ['T2.primary.start', 'T2.primary.finish']) {
    const points = scene.wires.filter(({ net }) => net === end).flatMap((wire) => wire.points);
    expect(points).toContainEqual(pinOf(scene, end));
    const atJack = points.filter(({ x, y }) => x === jack.right && y > jack.top && y < jack.bottom);
    expect(atJack).toHaveLength(1);
  }
});

it('what is plugged into a jack stands beside it', async () => {
  const scene = await drawn(textOf('two-tube'));
  const [jack, phones] = [symbolOf(scene, 'J2').box, symbolOf(scene, 'PH1').box];
  expect(phones.left - jack.right).toBeLessThan(40);
  expect(Math.abs(phones.top - jack.top)).toBeLessThan(10);
});

describe('windings', () => {
  const coil = (plate: string): string => `receiver "Coil" {
    battery A storage { tap A- 0 V
      tap A+ 6 V }
    battery B dry { tap B-
      tap B+45 45 V }
    post ANT aerial
    post GND ground
    wire B- to A- to GND
    coil L1 { winding aerial 10 turns from GND to ANT
      winding grid 50 turns ${plate} from GND to V1.grid }
    tube V1 01-A { filament from A- to A+
      plate to B+45 }
  }`;
  const dots = (scene: Scene) =>
    scene.ornaments
      .filter(({ kind }) => kind === 'sense')
      .map(({ points }) => points[0]!)
      .sort((a, b) => a.x - b.x);

  it('wound the same way have their dots at their starts', async () => {
    const scene = await drawn(coil(''));
    const [aerial, grid] = dots(scene);
    expect(Math.abs(aerial!.y - pinOf(scene, 'L1.aerial.start').y)).toBeLessThan(10);
    expect(Math.abs(grid!.y - pinOf(scene, 'L1.grid.start').y)).toBeLessThan(10);
  });

  it('wound the other way round have theirs at their finish', async () => {
    const scene = await drawn(coil('reversed'));
    const [, grid] = dots(scene);
    expect(Math.abs(grid!.y - pinOf(scene, 'L1.grid.finish').y)).toBeLessThan(10);
  });

  it('that turn within one another have an arrow across them', async () => {
    const scene = await drawn(coil('set 40 %'));
    expect(scene.ornaments.filter(({ kind }) => kind === 'arrow')).toHaveLength(1);
  });
});

describe('a gang', () => {
  it('is a dashed line from condenser to condenser of a row', async () => {
    const scene = await drawn(textOf('heater-tubes'));
    const feet = scene.ornaments
      .filter(({ kind }) => kind === 'gang')
      .flatMap(({ points }) => points);
    for (const part of ['C1', 'C2']) {
      const { at } = symbolOf(scene, part);
      const near = feet.filter(({ x, y }) => Math.abs(x - at.x) <= 14 && Math.abs(y - at.y) <= 14);
      expect(near).toHaveLength(1);
    }
  });

  it('names its shaft where it goes on in another row', async () => {
    const scene = await drawn(textOf('potentiometer-stabilized-trf'));
    expect(scene.labels.filter(({ text }) => text === 'G1')).toHaveLength(2);
  });

  it('runs along no wire', async () => {
    const scene = await drawn(textOf('heater-tubes'));
    const lines = scene.ornaments.filter(({ kind }) => kind === 'gang');
    const along = lines.flatMap(({ points: [a, b] }) =>
      scene.wires.filter(({ points: [c, d] }) => {
        if (!a || !b || !c || !d || (a.y === b.y) !== (c.y === d.y)) return false;
        const [at, on] = a.y === b.y ? (['y', 'x'] as const) : (['x', 'y'] as const);
        const low = Math.max(Math.min(a[on], b[on]), Math.min(c[on], d[on]));
        const high = Math.min(Math.max(a[on], b[on]), Math.max(c[on], d[on]));
        return Math.abs(a[at] - c[at]) < 5 && high > low;
      }),
    );
    expect(along).toEqual([]);
  });
});

describe('a half-finished set', () => {
  it('has parts in the air in a tray, marked', async () => {
    const text = textOf('crystal').replace(/^( *)condenser C2 .*$/m, '$1condenser C2 .001 mfd');
    const scene = await drawn(text);
    expect(symbolOf(scene, 'C2').inTheAir).toBe(true);
    expect(scene.labels.map((label) => label.text)).toContain('Not joined to anything:');
    expect(symbolOf(scene, 'C2').at.y).toBeGreaterThan(symbolOf(scene, 'CR1').at.y + 100);
  });

  it('has a shorted part above the wire that shorts it', async () => {
    const text = textOf('crystal').replace(
      /^( *)condenser C2 .*$/m,
      '$1condenser C2 .001 mfd from TEL1 to TEL1',
    );
    const scene = await drawn(text);
    const { box, pins } = symbolOf(scene, 'C2');
    const [one, other] = pins.map(({ at }) => at);
    const below = scene.wires.filter(
      ({ points: [from, to] }) =>
        from!.y === to!.y &&
        from!.y > box.bottom &&
        Math.min(from!.x, to!.x) < one!.x &&
        Math.max(from!.x, to!.x) > other!.x,
    );
    expect(below.length).toBeGreaterThan(0);
  });
});
