import { beforeAll, describe, expect, it } from 'vitest';
import { randomReceiver } from '../../../test/support/random-receiver.ts';
import {
  drawCircuit,
  layoutEngine,
  netlistOf,
  type PlacedSymbol,
  readGeometry,
  type Scene,
  type Wire,
} from '../src/index.ts';
import type { RailMark } from '../src/scene.ts';
import { circuitOf, exampleTexts } from './examples.ts';

/*
 * The reader of drawings is what tells whether a drawing is right, so it is tried on drawings that
 * are wrong in one place: it must see every one.
 */
const engine = layoutEngine();
const texts = [
  ...exampleTexts,
  ...Array.from({ length: 12 }, (_, at) => [`sane ${at + 1}`, randomReceiver(at + 1)] as const),
];

/** Wires that lead a single end to where nothing but a contact meets it: they join nothing. */
function isStub({ symbols, marks }: Scene, { net }: Wire, ends: ReadonlySet<string>): boolean {
  const pins = symbols.flatMap((symbol) => symbol.pins).filter(({ end }) => ends.has(end));
  return pins.length <= 1 && !marks.some((mark) => mark.net === net);
}

describe.each(texts)('of the drawing of %s the reader sees', (_name, text) => {
  const circuit = circuitOf(text);
  let scene: Scene;
  let right: string;
  const read = (drawing: Pick<Scene, 'symbols' | 'wires' | 'marks'>): string =>
    JSON.stringify(readGeometry(drawing));
  const differs = (drawing: Partial<Scene>): boolean => read({ ...scene, ...drawing }) !== right;
  beforeAll(async () => {
    scene = await drawCircuit(circuit, engine, { rows: 'page' });
    right = JSON.stringify(netlistOf(circuit));
    expect(read(scene)).toBe(right);
  });

  it('every wire that is missing, but for stubs that join nothing', () => {
    const endsOf = new Map<string, ReadonlySet<string>>();
    for (const set of readGeometry(scene)) for (const end of set) endsOf.set(end, new Set(set));
    const unseen = scene.wires.filter(
      (wire) => !differs({ wires: scene.wires.filter((other) => other !== wire) }),
    );
    const unexplained = unseen.filter((wire) => {
      const pin = scene.symbols
        .flatMap(({ pins }) => pins)
        .find(({ at }) => wire.points.some((point) => point.x === at.x && point.y === at.y));
      return !isStub(scene, wire, endsOf.get(pin?.end ?? '') ?? new Set());
    });
    expect(unexplained.map(({ net, points }) => [net, ...points])).toEqual([]);
  });

  it('every wire that is cut short by a hair', () => {
    const unseen = scene.wires.filter((wire, at) => {
      const [from, to] = [wire.points[0]!, wire.points.at(-1)!];
      const toward = (a: number, b: number): number => a + Math.sign(b - a);
      const shorter = {
        ...wire,
        points: [{ x: toward(from.x, to.x), y: toward(from.y, to.y) }, to],
      };
      const isOpen = !scene.wires.some(
        (other) => other !== wire && other.points.some(({ x, y }) => x === from.x && y === from.y),
      );
      const holdsPin = scene.symbols.some(({ pins }) =>
        pins.some(({ at: pin }) => pin.x === from.x && pin.y === from.y),
      );
      return isOpen && holdsPin && !differs({ wires: scene.wires.with(at, shorter) });
    });
    const alone = new Set(
      readGeometry(scene)
        .filter((set) => set.length === 1)
        .flat(),
    );
    expect(
      unseen.filter(
        ({ points: [from] }) =>
          !scene.symbols.some(({ pins }) =>
            pins.some(({ end, at }) => alone.has(end) && at.x === from!.x && at.y === from!.y),
          ),
      ),
    ).toEqual([]);
  });

  it('every wire too many, tried at every third end', () => {
    const joined = readGeometry(scene);
    const setOf = (end: string): number => joined.findIndex((set) => set.includes(end));
    const pins = scene.symbols.flatMap((symbol) => symbol.pins);
    const unseen = pins.flatMap((pin, at) => {
      if (at % 3 !== 0) return [];
      const other = [...pins.slice(at + 1), ...pins].find(
        ({ end }) => setOf(end) !== setOf(pin.end),
      );
      if (!other) return [];
      const more: Wire = {
        net: pin.end,
        points: [pin.at, { x: other.at.x, y: pin.at.y }, other.at],
      };
      return differs({ wires: [...scene.wires, more] }) ? [] : [`${pin.end} to ${other.end}`];
    });
    expect(unseen).toEqual([]);
  });

  it('every symbol that stands aside of its wires', () => {
    const alone = new Set(
      readGeometry(scene)
        .filter((set) => set.length === 1)
        .flat(),
    );
    const unseen = scene.symbols.filter((symbol) => {
      const pins = symbol.pins.map(({ end, at }) => ({
        end,
        at: { x: at.x + 1.5, y: at.y + 1.5 },
      }));
      const isJoined = symbol.pins.some(({ end }) => !alone.has(end));
      return (
        isJoined &&
        !differs({
          symbols: scene.symbols.with(scene.symbols.indexOf(symbol), { ...symbol, pins }),
        })
      );
    });
    expect(unseen.map(({ part, pins }) => [part, ...pins])).toEqual([]);
  });

  it('every end that stands in the place of another', () => {
    const junctionOf = (end: string): number => circuit.endNamed.get(end)?.junction ?? -1;
    const ends = scene.symbols.flatMap(({ pins }) => pins.map(({ end }) => end));
    const unseen: string[] = [];
    for (const [at, one] of ends.entries()) {
      const other = [...ends.slice(at + 1), ...ends].find(
        (end) => junctionOf(end) !== junctionOf(one),
      );
      if (other === undefined) continue;
      const alone = [one, other].every(
        (end) => circuit.junctions[junctionOf(end)]?.terminals.length === 1,
      );
      if (alone) continue;
      const swapped = (end: string): string => (end === one ? other : end === other ? one : end);
      const symbols = scene.symbols.map(
        (symbol): PlacedSymbol => ({
          ...symbol,
          pins: symbol.pins.map((pin) => ({ ...pin, end: swapped(pin.end) })),
        }),
      );
      if (!differs({ symbols })) unseen.push(`${one} for ${other}`);
    }
    expect(unseen).toEqual([]);
  });

  it('every rail symbol of another name, but for those that say it once more', () => {
    const { marks } = scene;
    // A ground symbol says that it is one and no name.
    const says = ({ shape, net }: RailMark): string => (shape === 'ground' ? 'ground' : `${net} `);
    const saying = (mark: RailMark, net: string): RailMark => ({ ...mark, net, shape: 'bar-down' });
    // What wires alone join, each rail symbol standing for itself.
    const probes = marks.map(
      ({ at }, index): PlacedSymbol => ({
        ...scene.symbols[0]!,
        pins: [{ end: ` mark ${index}`, at }],
      }),
    );
    const apart = marks.map((mark, index) => saying(mark, ` rail ${index}`));
    const pieces = readGeometry({
      wires: scene.wires,
      symbols: [...scene.symbols, ...probes],
      marks: apart,
    });
    const unseen = marks.filter((mark, index) => {
      const piece = pieces.find((each) => each.includes(` mark ${index}`)) ?? [];
      const isAgain = marks.some(
        (other, at) => at !== index && says(other) === says(mark) && piece.includes(` mark ${at}`),
      );
      const isOnly = !marks.some((other) => other !== mark && says(other) === says(mark));
      if (isAgain || isOnly) return false;
      return !differs({
        marks: marks.map((other) => (other === mark ? saying(mark, '?') : other)),
      });
    });
    expect(unseen.map(({ net, at }) => [net, at])).toEqual([]);
  });
});
