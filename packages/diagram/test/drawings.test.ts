import { beforeAll, describe, expect, it } from 'vitest';
import {
  drawCircuit,
  layoutEngine,
  misread,
  netlistOf,
  readGeometry,
  type Scene,
  sceneToSvg,
} from '../src/index.ts';
import { circuitOf, exampleTexts, shuffled } from './examples.ts';
import { crossings, faultsOf, turnedFaults } from './faults.ts';

const engine = layoutEngine();

/** Plain crossings of each example in rows for a page, as drawn; to be lowered, never raised. */
const mostCrossings: Readonly<Record<string, number>> = {
  'bare-wiring': 2,
  crystal: 1,
  'dry-cell-portable': 4,
  'five-tube-trf': 5,
  'heater-tubes': 5,
  'neutralized-five': 8,
  'one-tube-regenerative': 0,
  'potentiometer-stabilized-trf': 3,
  'push-pull': 7,
  reflex: 4,
  'resistance-coupled': 4,
  'screen-grid': 8,
  superheterodyne: 7,
  'two-tube': 1,
};

const drawings = exampleTexts.flatMap(([name, text]) =>
  (['one', 'page'] as const).map((rows) => [name, rows, text] as const),
);

describe.each(drawings)('the drawing of %s, rows: %s', (_name, rows, text) => {
  const circuit = circuitOf(text);
  let scene: Scene;
  beforeAll(async () => {
    scene = await drawCircuit(circuit, engine, { rows });
  });

  it('read back is the circuit, every end included', () => {
    expect(readGeometry(scene)).toEqual(netlistOf(circuit));
  });

  it('has nothing on top of anything else', () => {
    expect(faultsOf(scene)).toEqual([]);
  });

  it('has no part upside down and every tuning condenser upright', () => {
    expect(turnedFaults(circuit, scene)).toEqual([]);
  });

  it('is the same whatever the order of the text', async () => {
    const other = await drawCircuit(circuitOf(shuffled(text, 7)), engine, { rows });
    expect(sceneToSvg(other)).toBe(sceneToSvg(scene));
  });

  it('is read as another circuit without one of its wires', () => {
    // A stub that leads to a selector's stud joins nothing.
    const joining = new Set(
      circuit.junctions
        .filter(({ terminals }) => terminals.length > 1)
        .flatMap(({ terminals }) => terminals),
    );
    const stubs = new Set(
      scene.symbols
        .flatMap(({ pins }) => pins)
        .filter(({ end }) => !joining.has(end))
        .map(({ end }) => end),
    );
    const unseen = scene.wires
      .filter(({ net }) => !stubs.has(net))
      .filter((wire) => {
        const wires = scene.wires.filter((other) => other !== wire);
        return misread(circuit, { ...scene, wires }).length === 0;
      });
    expect(unseen.map(({ net, points }) => [net, ...points])).toEqual([]);
  });

  it('is read as another circuit with two ends exchanged', () => {
    const pins = scene.symbols.flatMap((symbol) => symbol.pins);
    const [first, second] = [
      pins[0]!,
      pins.find(({ end }) => end === 'V1.plate' || end === 'CR1.whisker')!,
    ];
    const symbols = scene.symbols.map((symbol) => ({
      ...symbol,
      pins: symbol.pins.map((pin) =>
        pin === first
          ? { ...pin, end: second.end }
          : pin === second
            ? { ...pin, end: first.end }
            : pin,
      ),
    }));
    expect(misread(circuit, { ...scene, symbols })).not.toEqual([]);
  });
});

it.each(exampleTexts)('%s has no more crossings than it had', async (name, text) => {
  const scene = await drawCircuit(circuitOf(text), engine);
  expect(crossings(scene)).toBeLessThanOrEqual(mostCrossings[name] ?? 0);
});
