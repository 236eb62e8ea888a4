import { beforeAll, describe, expect, it } from 'vitest';
import { type Dressing, dress, overlayOf, type Point, sceneToSvg, viewsOf } from '../src/index.ts';
import { liesOn } from '../src/read-geometry.ts';
import { exampleTexts } from './examples.ts';
import { type Drawn, drawnExample, drawnText, meet, textOf } from './on-paper.ts';

/** The junction of the wire that a straight piece lies on. */
function netUnder({ scene }: Drawn, from: Point, to: Point): string | undefined {
  return scene.wires.find(({ points }) =>
    points.some((b, index) => {
      const a = points[index - 1];
      return a !== undefined && liesOn(from, a, b) && liesOn(to, a, b);
    }),
  )?.net;
}

/** Pieces of wire in the paths of a dressing that do not lie on one junction's wires. */
function offTheWires(drawn: Drawn, { paths }: Dressing): string[] {
  return paths.flatMap(({ heading, pieces }) =>
    pieces.flatMap(({ by, step, points }) => {
      if (by !== 'wire') return [];
      const nets = new Set(points.slice(1).map((to, index) => netUnder(drawn, points[index]!, to)));
      return nets.size === 1 && !nets.has(undefined) ? [] : [`${heading}, step ${step}`];
    }),
  );
}

const pathViews = /^(radio|audio|bias|plate|filaments)$/;

describe.each(exampleTexts.map(([name]) => name))('over the drawing of %s', (name) => {
  let drawn: Drawn;
  beforeAll(async () => {
    drawn = await drawnExample(name);
  });

  it('every path runs along the wires of one junction from part to part', () => {
    for (const { id } of viewsOf(drawn.circuit)) {
      if (!pathViews.test(id)) continue;
      const overlay = overlayOf(drawn.circuit, id)!;
      const dressing = dress(drawn.scene, { overlay });
      expect(offTheWires(drawn, dressing)).toEqual([]);
    }
  });

  it('no path misses a step that is on the drawing', () => {
    const supplies = new Set(
      drawn.circuit.parts
        .filter(({ supplyTaps }) => supplyTaps.length > 0)
        .map((part) => part.name),
    );
    for (const { id } of viewsOf(drawn.circuit)) {
      if (!pathViews.test(id)) continue;
      const overlay = overlayOf(drawn.circuit, id)!;
      const { paths } = dress(drawn.scene, { overlay });
      for (const [index, { pieces }] of paths.entries()) {
        const steps = overlay.paths[index]!.steps;
        const through = new Set(pieces.filter(({ by }) => by === 'part').map(({ step }) => step));
        const missing = steps
          .filter(({ part }, step) => !supplies.has(part) && !through.has(step + 1))
          .map(({ part }) => part);
        expect(`${id}: ${missing.join(' ')}`).toBe(`${id}: `);
      }
    }
  });

  it('no line of a field runs over words', () => {
    for (const { id } of viewsOf(drawn.circuit)) {
      const overlay = overlayOf(drawn.circuit, id)!;
      const fields = dress(drawn.scene, { overlay }).paths.flatMap(({ pieces }) =>
        pieces.flatMap(({ by, points }) => (by === 'field' ? [points] : [])),
      );
      const steps = fields.flatMap((points) =>
        points.slice(1).flatMap((to, index) =>
          Array.from({ length: 101 }, (_, share) => {
            const from = points[index]!;
            const x = from.x + ((to.x - from.x) * share) / 100;
            const y = from.y + ((to.y - from.y) * share) / 100;
            return { left: x - 1, right: x + 1, top: y - 1, bottom: y + 1 };
          }),
        ),
      );
      const over = drawn.scene.labels.filter(({ box }) => steps.some((step) => meet(step, box)));
      expect(`${id}: ${over.map(({ text }) => text)}`).toBe(`${id}: `);
    }
  });

  it('the pen is lifted only at rail symbols, at batteries and from a tube to its filament', () => {
    const { circuit, scene } = drawn;
    const isSame = (a: Point, b: Point): boolean => Math.hypot(a.x - b.x, a.y - b.y) < 0.1;
    const onMark = (at: Point): boolean => scene.marks.some((mark) => isSame(mark.at, at));
    const inTube = (at: Point): boolean =>
      scene.symbols.some(
        ({ symbol, at: middle }) =>
          symbol.startsWith('tube') && Math.hypot(at.x - middle.x, at.y - middle.y) < 20,
      );
    for (const { id } of viewsOf(circuit)) {
      if (!pathViews.test(id)) continue;
      const overlay = overlayOf(circuit, id)!;
      for (const [index, { pieces, heading }] of dress(scene, { overlay }).paths.entries()) {
        const steps = overlay.paths[index]!.steps;
        for (const [at, { points, step, by }] of pieces.entries()) {
          const before = pieces[at - 1];
          if (!before || by === 'field' || before.by === 'field') continue;
          const [left, come] = [before.points.at(-1)!, points[0]!];
          const between = steps.slice(before.step - 1, step);
          const throughCells = between.some(
            ({ part }) => (circuit.partNamed.get(part)?.supplyTaps.length ?? 0) > 0,
          );
          const isWhole =
            isSame(left, come) || throughCells || inTube(left) || (onMark(left) && onMark(come));
          expect(isWhole ? '' : `${id}, ${heading}: before step ${step}`).toBe('');
        }
      }
    }
  });
});

describe('what is drawn over a set', () => {
  it('lights what a path passes, rail symbols among it, and dims the rest', async () => {
    const { circuit, scene } = await drawnExample('five-tube-trf');
    const overlay = overlayOf(circuit, 'bias V3')!;
    const { dims, isLit } = dress(scene, { overlay });
    const lit = (part: string, symbol: string): boolean =>
      isLit.symbol(scene.symbols.find((each) => each.part === part && each.symbol === symbol)!);
    expect(dims).toBe(true);
    expect(lit('R3', 'resistor')).toBe(true);
    expect(lit('V3', 'tube')).toBe(true);
    expect(lit('C4', 'condenser')).toBe(false);
    expect(lit('V4', 'tube')).toBe(false);
    const leak = scene.symbols.find(({ part }) => part === 'R3')!;
    const nearest = scene.marks
      .filter(({ net }) => net === 'A+')
      .find(({ at }) => Math.hypot(at.x - leak.at.x, at.y - leak.at.y) < 50);
    expect(nearest && isLit.mark(nearest)).toBe(true);
  });

  it('lights of a battery those terminals alone that a path comes to', async () => {
    const { circuit, scene } = await drawnExample('five-tube-trf');
    const { isLit } = dress(scene, { overlay: overlayOf(circuit, 'plate V3')! });
    const lit = scene.symbols
      .filter((each) => each.part === 'B' && isLit.symbol(each))
      .flatMap(({ pins }) => pins.map(({ end }) => end));
    expect(lit.sort()).toEqual(['B.B+45', 'B.B-']);
  });

  it('tells the direction by heads and the step by its number', async () => {
    const { circuit, scene } = await drawnExample('five-tube-trf');
    const svg = sceneToSvg(scene, { overlay: overlayOf(circuit, 'radio')! });
    expect(svg).toMatch(/<path class="path radio" data-step="1"/);
    expect(svg).toMatch(/<path class="path radio field" data-step="3"/);
    expect(svg.match(/<path class="head radio"/g)?.length).toBeGreaterThan(10);
  });

  it('points every head along its path', async () => {
    const { circuit, scene } = await drawnExample('crystal');
    const overlay = overlayOf(circuit, 'audio')!;
    const [from, to] = ['CR1', 'PH1'].map(
      (part) => scene.symbols.find((each) => each.part === part)!.at.x,
    );
    const svg = sceneToSvg(scene, { overlay });
    const heads = [
      ...svg.matchAll(/class="head audio" data-step="2" d="M([\d.]+) ([\d.]+)L([\d.]+)/g),
    ];
    expect(heads.length).toBeGreaterThan(0);
    // From the crystal to the phones: the tip leads in that direction.
    for (const [, tip, , barb] of heads) {
      if (Math.abs(Number(tip) - Number(barb)) < 6) continue;
      expect(Math.sign(Number(tip) - Number(barb))).toBe(Math.sign(to! - from!));
    }
  });

  it('draws an overlay that a caller has made up, and passes over what is not there', async () => {
    const { scene } = await drawnExample('five-tube-trf');
    const svg = sceneToSvg(scene, {
      overlay: {
        id: 'mine',
        title: 'Mine',
        parts: ['C5'],
        paths: [
          {
            kind: 'audio',
            heading: 'from here to there',
            from: 'V4.plate',
            steps: [
              { part: 'T2.primary', in: 'T2.primary.start', out: 'T2.primary.finish' },
              { part: 'NOWHERE', in: 'NOWHERE.start', out: 'NOWHERE.finish' },
            ],
          },
        ],
        failed: [
          { at: 'C5', words: 'open' },
          { at: 'GONE', words: 'open' },
        ],
        changed: [{ at: 'V1.plate', letter: 'a', words: '88 V, was 66 V' }],
        notes: [],
      },
    });
    expect(svg).toContain('<title>open</title><path class="failed"');
    expect(svg).toContain('a: 88 V, was 66 V');
    expect(svg).toMatch(/class="path audio" data-step="1"/);
    expect(svg).not.toContain('NOWHERE');
  });

  it('says of a failed part that is not drawn that it is not', async () => {
    const { scene } = await drawnExample('crystal');
    const overlay = {
      ...{ id: 'x', title: 'X', parts: undefined, paths: [], changed: [], notes: [] },
      failed: [{ at: 'GONE', words: 'open' }],
    };
    expect(dress(scene, { overlay }).notes).toEqual(['GONE, open, is not on the drawing.']);
  });

  it('leads the field past the name of a rail at a tap by a straight line', async () => {
    const { circuit, scene } = await drawnExample('push-pull');
    const { paths } = dress(scene, { overlay: overlayOf(circuit, 'audio')! });
    const fields = paths.flatMap(({ pieces }) => pieces.filter(({ by }) => by === 'field'));
    expect(fields.length).toBeGreaterThan(2);
    for (const { points } of fields) expect(new Set(points.map(({ y }) => y)).size).toBe(1);
  });

  it('crosses a path where it is stopped', async () => {
    const drawn = await drawnText(textOf('five-tube-trf').replace(/^.*leak R3.*$/m, ''));
    const overlay = overlayOf(drawn.circuit, 'bias V3')!;
    expect(dress(drawn.scene, { overlay }).paths[0]?.stoppedAt).toBeDefined();
    expect(sceneToSvg(drawn.scene, { overlay })).toContain('class="failed"');
  });
});
