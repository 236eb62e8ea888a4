import { describe, expect, it } from 'vitest';
import { isInside } from '../src/box.ts';
import { dress, type MarkedPart, type Overlay, sceneToSvg } from '../src/index.ts';
import { exampleTexts } from './examples.ts';
import { drawnExample, meet } from './on-paper.ts';

const overlayWith = (marked: readonly MarkedPart[]): Overlay => ({
  id: 'compare',
  title: 'What has changed',
  parts: undefined,
  paths: [],
  failed: [],
  changed: [],
  marked,
  notes: [],
});
const drawn = async (marked: readonly MarkedPart[]) => {
  const { scene } = await drawnExample('five-tube-trf');
  const overlay = overlayWith(marked);
  return { scene, overlay, dressing: dress(scene, { overlay }) };
};
const three: readonly MarkedPart[] = [
  { at: 'C5', kind: 'removed', words: '' },
  { at: 'R3', kind: 'changed', words: 'was 1 meg' },
  { at: 'H1', kind: 'added', words: '' },
];

describe('marks of what two states of a set do not share', () => {
  it('frame the symbol, with air around it', async () => {
    const { scene, dressing } = await drawn(three);
    for (const { part, frames } of dressing.marks.marks) {
      const box = scene.symbols.find((symbol) => symbol.part === part)!.box;
      expect(frames[0]!.left).toBeLessThanOrEqual(box.left);
      expect(frames[0]!.bottom).toBeGreaterThanOrEqual(box.bottom);
    }
  });

  it('cut through no words, whatever part bears one, in any example', async () => {
    const cut: string[] = [];
    for (const [name] of exampleTexts) {
      const { scene } = await drawnExample(name);
      for (const at of new Set(scene.symbols.map(({ part }) => part))) {
        const overlay = overlayWith([{ at, kind: 'changed', words: '' }]);
        const frames = dress(scene, { overlay }).marks.marks.flatMap((mark) => mark.frames);
        for (const { text, box } of scene.labels)
          if (frames.some((frame) => meet(frame, box) && !isInside(box, frame)))
            cut.push(`${name}: the frame of ${at} cuts ${text}`);
      }
    }
    expect(cut).toEqual([]);
  });

  it('keep air on every side of a selector, whose name and aerial stand off its corners', async () => {
    const { scene, dressing } = await drawn([{ at: 'S2', kind: 'changed', words: '' }]);
    const studs = scene.symbols.filter(({ part }) => part === 'S2').map(({ box }) => box);
    const [frame] = dressing.marks.marks.flatMap((mark) => mark.frames);
    const inner = {
      left: frame!.left + 1,
      top: frame!.top + 1,
      right: frame!.right - 1,
      bottom: frame!.bottom - 1,
    };
    for (const stud of studs) expect(isInside(stud, inner)).toBe(true);
  });

  it('stand on no letter of the drawing, where every part bears one', async () => {
    const { scene } = await drawnExample('five-tube-trf');
    const names = [...new Set(scene.symbols.map(({ part }) => part))];
    const { dressing } = await drawn(names.map((at) => ({ at, kind: 'changed', words: '' })));
    const rings = dressing.marks.marks.flatMap(({ at }) =>
      at ? [{ left: at.x - 8, top: at.y - 8, right: at.x + 8, bottom: at.y + 8 }] : [],
    );
    expect(rings.length).toBeGreaterThan(20);
    expect(rings.filter((ring) => scene.labels.some(({ box }) => meet(ring, box)))).toEqual([]);
  });

  it('are told apart without colour: by sign, frame and dashes', async () => {
    const { scene, overlay } = await drawn(three);
    const svg = sceneToSvg(scene, { overlay });
    const dashesOf = (kind: string) =>
      new RegExp(`mark-frame\\.${kind}\\{([^}]*)`).exec(svg)?.[1]?.replace(/stroke:[^;]*;/, '');
    expect(new Set(['added', 'removed', 'changed'].map(dashesOf)).size).toBe(3);
    for (const sign of ['+', '−', '±'])
      expect(svg).toMatch(new RegExp(`mark-sign [a-z]+"[^>]*>\\${sign}<`));
    expect(svg).toMatch(/class="part condenser[^"]* gone" data-part="C5"/);
  });

  it('are explained under the title, those that there are', async () => {
    const { dressing } = await drawn(three.slice(0, 2));
    const [legend] = dressing.labels.filter(({ text }) => text.startsWith('What has changed'));
    expect(legend?.text).toBe(
      'What has changed  ·  ± changed or joined otherwise  ·  − gone, dashed',
    );
  });

  it('say in words what was, beside the part or in the notes', async () => {
    const { dressing } = await drawn(three);
    const said = [...dressing.labels.map(({ text }) => text), ...dressing.notes].join('\n');
    expect(said).toContain('was 1 meg');
  });

  it('of what is not on the drawing are told of', async () => {
    const { dressing } = await drawn([{ at: 'X9', kind: 'added', words: '' }]);
    expect(dressing.notes).toEqual(['+ X9 is not on the drawing.']);
  });

  it('move nothing', async () => {
    const { scene, overlay } = await drawn(three);
    const wires = (svg: string) => svg.match(/class="wire" data-net="[^"]*" d="[^"]*"/g);
    expect(wires(sceneToSvg(scene, { overlay }))).toEqual(wires(sceneToSvg(scene)));
  });
});
