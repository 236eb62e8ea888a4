import { operatingPoint, tunedCircuits } from '@setwright/analysis';
import { asOn } from '@setwright/circuit';
import { describe, expect, it } from 'vitest';
import {
  type Box,
  dress,
  figuresOf,
  overlayOf,
  type Scene,
  sceneToSvg,
  stagesOf,
  viewsOf,
} from '../src/index.ts';
import { circuitOf, exampleTexts } from './examples.ts';
import { drawnExample, meet, obstaclesOf, textOf } from './on-paper.ts';

const names = exampleTexts.map(([name]) => name);

/** Boxes that meet what is on the drawing or one another. */
function collisions(scene: Scene, boxes: readonly { text: string; box: Box }[]): string[] {
  const there = obstaclesOf(scene);
  return boxes.flatMap(({ text, box }, index) => [
    ...there.filter((each) => meet(each.box, box)).map(({ what }) => `${text} on ${what}`),
    ...boxes
      .slice(index + 1)
      .filter((other) => meet(other.box, box))
      .map((other) => `${text} on ${other.text}`),
    ...(box.left < 0 || box.top < 0 || box.right > scene.width || box.bottom > scene.height
      ? [`${text} off the paper`]
      : []),
  ]);
}

describe('numbers on the drawing', () => {
  it.each(names)(
    'of %s stand clear of everything, with stages and a view besides',
    async (name) => {
      const { circuit, scene } = await drawnExample(name);
      const options = { figures: figuresOf(circuit), stages: stagesOf(circuit) };
      expect(collisions(scene, dress(scene, options).labels)).toEqual([]);
      const last = viewsOf(circuit).findLast(({ id }) => id.startsWith('suppose'));
      if (!last) return;
      const changes = circuit.parts
        .filter(({ kind }) => kind === 'tube')
        .map((tube) => ({ at: `${tube.name}.plate`, words: '88 V, was 66 V' }));
      const overlay = overlayOf(circuit, last.id, { changes })!;
      expect(collisions(scene, dress(scene, { ...options, overlay }).labels)).toEqual([]);
    },
  );

  it.each(names)('of %s are all there, or it is said that there is no room', async (name) => {
    const { circuit, scene } = await drawnExample(name);
    const figures = figuresOf(circuit);
    const { labels, notes } = dress(scene, { figures });
    for (const { at, texts, meaning } of figures) {
      const isThere = labels.some(({ text, part }) => part === at && texts.includes(text));
      expect(isThere || notes.some((note) => note.includes(meaning))).toBe(true);
    }
  });

  it.each(names)('of %s all find room, with the stages shaded or not', async (name) => {
    const { circuit, scene } = await drawnExample(name);
    const figures = figuresOf(circuit);
    expect(dress(scene, { figures }).notes).toEqual([]);
    expect(dress(scene, { figures, stages: stagesOf(circuit) }).notes).toEqual([]);
  });

  it('lead by a thin line to what they belong to, where there is no room beside it', async () => {
    const { circuit, scene } = await drawnExample('heater-tubes');
    const { labels, leaders } = dress(scene, { figures: figuresOf(circuit) });
    expect(leaders.map(({ at }) => at)).toEqual(['V4.grid']);
    const [{ from, to }] = leaders as [(typeof leaders)[0]];
    const pin = scene.symbols.flatMap(({ pins }) => pins).find(({ end }) => end === 'V4.grid')!;
    expect(to).toEqual(pin.at);
    const words = labels.find(({ part }) => part === 'V4.grid')!;
    expect(
      meet({ left: from.x - 3, top: from.y - 3, right: from.x + 3, bottom: from.y + 3 }, words.box),
    ).toBe(true);
    // On the way to the strokes of the tube nothing is crossed.
    const way = Array.from({ length: 80 }, (_, step) => ({
      x: from.x + ((to.x - from.x) * step) / 100,
      y: from.y + ((to.y - from.y) * step) / 100,
    }));
    const crossed = way.flatMap(({ x, y }) =>
      obstaclesOf(scene).filter(({ box }) =>
        meet(box, { left: x, top: y, right: x + 0.1, bottom: y + 0.1 }),
      ),
    );
    expect(crossed).toEqual([]);
    expect(sceneToSvg(scene, { figures: figuresOf(circuit) })).toMatch(/<path class="leader" d="M/);
  });

  it.each(names)('of %s keep off the open loops of the period style', async (name) => {
    const { circuit, scene } = await drawnExample(name);
    const { labels } = dress(scene, { figures: figuresOf(circuit), stages: stagesOf(circuit) });
    // As the loops of `symbols-period.ts` run, 7 to the side that they face, 4 to the other, and air.
    const loops = scene.symbols
      .filter(({ symbol }) => symbol.startsWith('winding'))
      .map(({ part, symbol, at, box }) => {
        const [left, right] = symbol.endsWith('left') ? [9, 6] : [6, 9];
        return { part, box: { ...box, left: at.x - left, right: at.x + right } };
      });
    const onLoops = labels.flatMap(({ text, box }) =>
      loops.filter((loop) => meet(loop.box, box)).map(({ part }) => `${text} on ${part}`),
    );
    expect(onLoops).toEqual([]);
  });

  it('of a winding stand on its side of the line of a rail below it', async () => {
    const { circuit, scene } = await drawnExample('screen-grid');
    const { labels } = dress(scene, { figures: figuresOf(circuit), stages: stagesOf(circuit) });
    // The ground's line of the upper row, which hangs its symbol at the left.
    const line = scene.marks
      .filter(({ shape }) => shape === 'ground')
      .reduce((left, mark) => (mark.at.x < left.at.x ? mark : left)).at.y;
    for (const part of ['L1.grid', 'L2.grid'])
      expect(labels.find((label) => label.part === part)!.box.bottom).toBeLessThan(line);
  });

  it('of a supply stand level with a terminal that no wire comes to', async () => {
    const { circuit, scene } = await drawnExample('push-pull');
    const { labels } = dress(scene, { figures: figuresOf(circuit) });
    const volts = labels.find(({ part }) => part === 'B.B+180')!.box;
    const pin = scene.symbols.flatMap(({ pins }) => pins).find(({ end }) => end === 'B.B+180')!;
    expect((volts.top + volts.bottom) / 2).toBeCloseTo(pin.at.y);
  });

  it('are those of the operating point and the tuned circuits', () => {
    const circuit = circuitOf(textOf('five-tube-trf'));
    const at = new Map(figuresOf(circuit).map((figure) => [figure.at, figure.texts[0]!]));
    const { settings } = asOn(circuit);
    const v1 = operatingPoint(circuit, settings).tubes.find(({ tube }) => tube === 'V1')!;
    const volts = (words: string): number => Number.parseFloat(words.replace('−', '-'));
    expect(volts(at.get('V1.plate')!)).toBeCloseTo(v1.plateVolts!.value, 0);
    expect(volts(at.get('V1.grid')!)).toBeCloseTo(v1.bias!.value, 1);
    const [first] = tunedCircuits(circuit, settings);
    const [low, high] = at.get(first!.tuner!)!.split(' to ');
    expect(volts(low!) * 1000).toBeCloseTo(first!.lowest.value!, -4);
    expect(volts(high!) * 1000).toBeCloseTo(first!.highest.value!, -4);
  });

  it('never stand at a C battery: its volts are what they are called', () => {
    const circuit = circuitOf(textOf('push-pull'));
    expect(figuresOf(circuit).filter(({ at }) => at.startsWith('C.'))).toEqual([]);
  });

  it('are left out where they cannot be had', () => {
    const figures = figuresOf(circuitOf(textOf('bare-wiring')));
    for (const { texts } of figures) expect(texts.join()).not.toMatch(/NaN|unknown|undefined/);
  });
});

describe('stages on the drawing', () => {
  it.each(names)('of %s are shaded about their own parts and no others', async (name) => {
    const { circuit, scene } = await drawnExample(name);
    const stages = stagesOf(circuit);
    const { areas } = dress(scene, { stages });
    const upright = scene.symbols.filter(
      ({ symbol }) => !/^(filament|terminal|name)$/.test(symbol),
    );
    for (const { part, box } of upright) {
      const middle = { x: (box.left + box.right) / 2, y: (box.top + box.bottom) / 2 };
      const within = areas
        // What lies within two outlines of an area stands in a window of it.
        .filter(
          ({ outlines }) => outlines.filter((outline) => holds(outline, middle)).length % 2 === 1,
        )
        .map(({ stage }) => stage);
      const own = stages.filter(({ parts }) => parts.has(part)).map((each) => each.name);
      expect(`${part}: ${[...new Set(within)]}`).toBe(`${part}: ${own}`);
    }
  });

  it('bear their titles', async () => {
    const { circuit, scene } = await drawnExample('five-tube-trf');
    const { labels, notes } = dress(scene, { stages: stagesOf(circuit) });
    const titles = labels.filter(({ style }) => style === 'caption').map(({ text }) => text);
    expect(titles).toContain('first radio-frequency amplifier');
    expect(titles).toContain('detector');
    expect(notes).toEqual([]);
  });

  it.each(names)('of %s are named a little off every other word', async (name) => {
    const { circuit, scene } = await drawnExample(name);
    const { labels } = dress(scene, { figures: figuresOf(circuit), stages: stagesOf(circuit) });
    const captions = labels.filter(({ style }) => style === 'caption');
    const near = captions.flatMap(({ text, box }) =>
      [...scene.labels, ...labels.filter(({ style }) => style === 'figure')]
        .filter((other) =>
          meet({ ...box, top: box.top - 1.5, bottom: box.bottom + 1.5 }, other.box),
        )
        .map((other) => `${text} by ${other.text}`),
    );
    expect(near).toEqual([]);
  });

  it('have numbers wholly within or without, but for a few that find no such place', async () => {
    const across: string[] = [];
    for (const name of names) {
      const { circuit, scene } = await drawnExample(name);
      const { areas, labels } = dress(scene, {
        figures: figuresOf(circuit),
        stages: stagesOf(circuit),
      });
      const edges = areas.flatMap(({ outlines }) =>
        outlines.flatMap((outline) =>
          outline.map((b, index) => {
            const a = outline.at(index - 1)!;
            return {
              left: Math.min(a.x, b.x) - 0.1,
              top: Math.min(a.y, b.y) - 0.1,
              right: Math.max(a.x, b.x) + 0.1,
              bottom: Math.max(a.y, b.y) + 0.1,
            };
          }),
        ),
      );
      for (const { style, part, box } of labels)
        if (style === 'figure' && edges.some((edge) => meet(edge, box)))
          across.push(`${name}: ${part}`);
    }
    expect(across).toEqual([
      'heater-tubes: L1.aerial',
      'one-tube-regenerative: B.B+22',
      'push-pull: L2.plate',
      'resistance-coupled: B.B+67',
      'resistance-coupled: L2.plate',
      'screen-grid: V1.screen',
      'screen-grid: V2.screen',
    ]);
  });

  it('leave their titles whole beside the numbers', async () => {
    const { circuit, scene } = await drawnExample('potentiometer-stabilized-trf');
    const stages = stagesOf(circuit);
    const { labels } = dress(scene, { stages, figures: figuresOf(circuit) });
    const titles = labels.filter(({ style }) => style === 'caption').map(({ text }) => text);
    expect(titles).toEqual(expect.arrayContaining(stages.map(({ title }) => title)));
  });

  it('move nothing, and neither do numbers', async () => {
    const { circuit, scene } = await drawnExample('two-tube');
    const symbols = (svg: string) => svg.match(/<g class="part [^>]*>/g);
    const dressed = { figures: figuresOf(circuit), stages: stagesOf(circuit) };
    expect(symbols(sceneToSvg(scene, dressed))).toEqual(symbols(sceneToSvg(scene)));
  });
});

/** Whether a closed line runs round a point: counts the sides to its right. */
function holds(
  outline: readonly { x: number; y: number }[],
  at: { readonly x: number; readonly y: number },
): boolean {
  let inside = false;
  for (const [index, b] of outline.entries()) {
    const a = outline.at(index - 1)!;
    if (a.y > at.y !== b.y > at.y && at.x < ((b.x - a.x) * (at.y - a.y)) / (b.y - a.y) + a.x)
      inside = !inside;
  }
  return inside;
}
