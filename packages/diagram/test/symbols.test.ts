import { type PartKindName, partKinds } from '@setwright/circuit';
import { beforeAll, describe, expect, it } from 'vitest';
import { drawCircuit, layoutEngine, type PlacedSymbol, sceneToSvg } from '../src/index.ts';
import { symbolShape, symbolStrokes } from '../src/symbols.ts';
import { circuitOf, exampleTexts } from './examples.ts';
import { crossings } from './faults.ts';
import { oneOfEach } from './one-of-each.ts';
import { endsOfStrokes } from './stroke-ends.ts';

const styles = ['modern', 'period'] as const;
const placed = new Map<string, PlacedSymbol>();
const kindsOf = new Map<PartKindName, Set<string>>();

beforeAll(async () => {
  const engine = layoutEngine();
  for (const text of [oneOfEach, ...exampleTexts.map(([, each]) => each)]) {
    const circuit = circuitOf(text);
    const { symbols } = await drawCircuit(circuit, engine);
    for (const symbol of symbols) {
      placed.set(symbol.symbol, symbol);
      const kind = circuit.partNamed.get(symbol.part)?.kind;
      if (kind && text === oneOfEach)
        kindsOf.set(kind, (kindsOf.get(kind) ?? new Set()).add(symbol.symbol));
    }
  }
});

/** A coil and a transformer are drawn as their windings. */
const asWindings: readonly PartKindName[] = ['coil', 'transformer'];

describe('every kind of part', () => {
  it('has a symbol of its own, none a plain box', () => {
    const kinds = (Object.keys(partKinds) as PartKindName[]).filter(
      (kind) => !asWindings.includes(kind),
    );
    for (const kind of kinds) {
      const keys = [...(kindsOf.get(kind) ?? [])];
      expect(keys, kind).not.toEqual([]);
      expect(
        keys.filter((key) => /^(boxed|generic)/.test(key)),
        kind,
      ).toEqual([]);
    }
  });

  it.each(styles)('has strokes in the %s style, but for a bus, which is a name', (style) => {
    for (const [kind, keys] of kindsOf)
      for (const key of keys)
        if (key !== 'name') expect(symbolStrokes(key, style), `${kind}: ${key}`).not.toEqual([]);
    expect([...(kindsOf.get('bus') ?? [])]).toContain('name');
  });

  it('is drawn otherwise in the period style where the period drew it otherwise', () => {
    const same = (key: string) =>
      JSON.stringify(symbolStrokes(key, 'modern')) === JSON.stringify(symbolStrokes(key, 'period'));
    const other =
      'tube filament winding-6-left winding-6-right resistor condenser choke variometer';
    expect(other.split(' ').filter(same)).toEqual([]);
  });
});

describe.each(styles)('a symbol in the %s style', (style) => {
  it('has its strokes end where its wires begin', () => {
    expect(placed.size).toBeGreaterThan(25);
    for (const [key, { pins }] of placed) {
      // A terminal is a ring about its wire's end; a selector's stud likewise.
      if (key === 'name' || key === 'terminal' || pins.length === 0) continue;
      const ends = endsOfStrokes(symbolStrokes(key, style));
      const { ports } = symbolShape(key);
      for (const [port, { x, y }] of Object.entries(ports)) {
        // Ports that a symbol has for others of its family, a cathode or a screen among them.
        const isUsed = !/^(screen|cathode|t\d+)$/.test(port) || key.includes(port);
        if (!isUsed) continue;
        const near = ends.some((end) => Math.hypot(end.x - x, end.y - y) < 1.6);
        expect(near, `${key}, ${port} at ${x},${y}`).toBe(true);
      }
    }
  });

  it('keeps within its box, but for a little', () => {
    for (const key of placed.keys()) {
      const { box } = symbolShape(key);
      const out = endsOfStrokes(symbolStrokes(key, style)).filter(
        ({ x, y }) =>
          x < box.left - 3 || x > box.right + 3 || y < box.top - 3 || y > box.bottom + 3,
      );
      if (key !== 'filament' && key !== 'name') expect(out, key).toEqual([]);
    }
  });
});

describe('wires that cross', () => {
  it.each(exampleTexts)(
    'in %s are plain in the modern style, and hop in the period style',
    async (_n, text) => {
      const scene = await drawCircuit(circuitOf(text), layoutEngine());
      const hops = (symbols: (typeof styles)[number]): number =>
        [...sceneToSvg(scene, { symbols }).matchAll(/class="wire" [^>]* d="([^"]*)"/g)]
          .map(([, d]) => d!.match(/a5 5 0 0 [01] -?10 0/g)?.length ?? 0)
          .reduce((sum, count) => sum + count, 0);
      expect(hops('modern')).toBe(0);
      expect(hops('period')).toBe(crossings(scene));
    },
  );
});
