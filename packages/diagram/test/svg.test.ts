import { SaxesParser } from 'saxes';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  figuresOf,
  overlayOf,
  pageToSvg,
  type Scene,
  sceneToSvg,
  stagesOf,
  viewsOf,
} from '../src/index.ts';
import { exampleTexts } from './examples.ts';
import { type Drawn, drawnExample, drawnText, textOf } from './on-paper.ts';

/** What an XML parser has against a text; and the names of its elements. */
function parsed(svg: string): { readonly faults: string[]; readonly names: ReadonlySet<string> } {
  const faults: string[] = [];
  const names = new Set<string>();
  const parser = new SaxesParser({ xmlns: true });
  parser.on('error', (error) => faults.push(error.message));
  parser.on('opentag', ({ name, attributes }) => {
    names.add(name);
    for (const key of Object.keys(attributes))
      if (/^on/i.test(key)) faults.push(`script in ${key}`);
  });
  parser.write(svg).close();
  return { faults, names };
}

const looks = (['modern', 'period'] as const).flatMap((symbols) =>
  (['light', 'dark', 'transparent'] as const).map((theme) => ({ symbols, theme })),
);

describe.each(exampleTexts.map(([name]) => name))('the SVG of %s', (name) => {
  let drawn: Drawn;
  beforeAll(async () => {
    drawn = await drawnExample(name);
  });

  it.each(looks)('is sound XML without script: $symbols, $theme', ({ symbols, theme }) => {
    const { circuit, scene } = drawn;
    const options = { figures: figuresOf(circuit), stages: stagesOf(circuit), symbols, theme };
    for (const use of ['screen', 'file'] as const) {
      const { faults, names } = parsed(sceneToSvg(scene, { ...options, use }));
      expect(faults).toEqual([]);
      expect(names.has('script') || names.has('foreignObject') || names.has('image')).toBe(false);
    }
  });

  it('is sound XML in every view, on screen, in a file and on a page', () => {
    const { circuit, scene } = drawn;
    for (const [index, { id }] of viewsOf(circuit).entries()) {
      const overlay = overlayOf(circuit, id)!;
      const look = looks[index % looks.length]!;
      const use = index % 2 === 0 ? 'screen' : 'file';
      expect(parsed(sceneToSvg(scene, { ...look, overlay, use })).faults).toEqual([]);
      if (index % 4 === 0)
        expect(parsed(pageToSvg(circuit, [scene], 'a4', { ...look, overlay }).svg).faults).toEqual(
          [],
        );
    }
  });

  it('says every part that is drawn in plain words, in the order of the signal', () => {
    const { circuit, scene } = drawn;
    const svg = sceneToSvg(scene);
    const said = [...svg.matchAll(/role="graphics-symbol"[^>]*><title>([^<]*)</g)].map(
      ([, s]) => s!,
    );
    for (const part of circuit.parts) {
      if (!scene.symbols.some(({ part: own, symbol }) => own === part.name && symbol !== 'name'))
        continue;
      expect(said.some((words) => words.includes(`${part.name}, `))).toBe(true);
    }
  });

  it('is read in the order in which the signal passes', () => {
    const { circuit, scene } = drawn;
    const read = [
      ...sceneToSvg(scene).matchAll(/role="graphics-symbol"[^>]*><title>([^<, ]*)[^<]*</g),
    ].map(([, part]) => part!);
    const tubes = new Set(
      circuit.parts.filter(({ kind }) => kind === 'tube').map((part) => part.name),
    );
    const paths = ['radio', 'audio']
      .flatMap((id) => overlayOf(circuit, id)?.paths ?? [])
      .filter(({ kind }) => kind === 'radio' || kind === 'audio');
    expect(paths.length).toBeGreaterThan(0);
    // In a reflex set the signal comes back to tubes that it has passed.
    const passed = new Set<string>();
    for (const { steps } of paths) {
      const fresh = steps.map(({ part }) => part).filter((part) => !passed.has(part));
      for (const part of fresh) passed.add(part);
      const places = fresh
        .filter((part) => tubes.has(part) || part.startsWith('CR'))
        .map((part) => read.indexOf(part));
      expect(places).not.toContain(-1);
      expect(places).toEqual([...places].sort((a, b) => a - b));
    }
  });
});

describe('the SVG of a drawing', () => {
  it('names the part of every symbol and the junction of every wire', async () => {
    const { scene } = await drawnExample('crystal');
    const svg = sceneToSvg(scene);
    expect(svg).toContain('data-part="CR1"');
    expect(svg).toContain('data-net="ANT"');
  });

  it('tells in words what it shows, and in which view', async () => {
    const { circuit, scene } = await drawnExample('crystal');
    const svg = sceneToSvg(scene, { overlay: overlayOf(circuit, 'audio')! });
    expect(svg).toMatch(/role="graphics-document document".*aria-labelledby/);
    for (const other of [
      sceneToSvg(scene, { use: 'file' }),
      pageToSvg(circuit, [scene], 'a4').svg,
    ]) {
      const [, ids] =
        /^<svg [^>]*role="graphics-document document"[^>]*aria-labelledby="([^"]*)"/.exec(other)!;
      for (const id of ids!.split(' '))
        expect(other).toMatch(new RegExp(`<(title|desc) id="${id}">[^<]+<`));
    }
    expect(svg).toContain('<title id="setwright-title">Lantern Cove Beacon</title>');
    expect(svg).toMatch(/<desc id="setwright-desc">[^<]* Audio signal\.<\/desc>/);
  });

  it('keeps its letters from those who hear it: they have been told at the symbols', async () => {
    const { scene } = await drawnExample('crystal');
    const svg = sceneToSvg(scene);
    let hidden = 0;
    for (const line of svg.split('\n')) {
      if (line === '<g aria-hidden="true">') hidden++;
      if (line.startsWith('<text')) expect(hidden).toBeGreaterThan(0);
    }
  });

  const rude = [
    `</title><script>alert('x') & "more"`,
    ']]> <!-- -->',
    '\u202eback\u202c \u0001\u0007\u007f',
    'lone \ud800 surrogate',
    `" onload="alert(1)`,
    '&#0; &lt; &amp;',
  ];
  it.each(rude)('stays sound whatever a title says: %j', async (title) => {
    const { circuit, scene } = await drawnText(textOf('crystal'));
    const titled = { ...circuit, title };
    const spoken = Object.fromEntries(Object.keys(scene.spoken).map((name) => [name, title]));
    const labels = scene.labels.map((label) => ({ ...label, text: title }));
    const rudeScene = { ...scene, title, description: title, spoken, labels };
    const overlay = {
      ...{ id: title, title, parts: [title], notes: [title] },
      paths: [{ kind: 'audio' as const, heading: title, from: title, steps: [] }],
      failed: [{ at: 'C1', words: title }],
      changed: [{ at: 'C2', letter: title, words: title }],
    };
    for (const use of ['screen', 'file'] as const) {
      const { faults, names } = parsed(sceneToSvg(rudeScene, { overlay, use, id: title }));
      expect(faults).toEqual([]);
      expect(names.has('script')).toBe(false);
    }
    const page = pageToSvg(titled, [rudeScene], 'letter', { overlay }).svg;
    expect(parsed(page).faults).toEqual([]);
  });

  it.each(rude)('stays sound whatever parts, junctions and stages are called: %j', async (name) => {
    const { circuit, scene } = await drawnText(textOf('two-tube'));
    const called = (own: string): string => `${own}${name}`;
    const rudeScene: Scene = {
      ...scene,
      symbols: scene.symbols.map((symbol) => ({
        ...symbol,
        part: called(symbol.part),
        pins: symbol.pins.map((pin) => ({ ...pin, end: called(pin.end) })),
      })),
      wires: scene.wires.map((wire) => ({ ...wire, net: called(wire.net) })),
      dots: scene.dots.map((dot) => ({ ...dot, net: called(dot.net) })),
      marks: scene.marks.map((mark) => ({ ...mark, net: called(mark.net) })),
      labels: scene.labels.map((label) => ({
        ...label,
        text: called(label.text),
        part: label.part === undefined ? undefined : called(label.part),
      })),
    };
    const stages = stagesOf(circuit).map((stage) => ({
      ...stage,
      name: called(stage.name),
      title: name,
      parts: new Set([...stage.parts].map(called)),
    }));
    const figures = figuresOf(circuit).map((figure) => ({
      ...figure,
      at: called(figure.at),
      meaning: name,
      texts: [name],
    }));
    for (const use of ['screen', 'file'] as const) {
      const svg = sceneToSvg(rudeScene, { use, stages, figures });
      const { faults, names } = parsed(svg);
      expect(faults).toEqual([]);
      expect(names.has('script')).toBe(false);
      expect(svg).toContain('data-part="V1');
    }
  });

  it('drops letters that turn the direction of reading', async () => {
    const { scene } = await drawnExample('crystal');
    expect(sceneToSvg({ ...scene, title: 'a\u202eb' })).toContain('>ab</title>');
  });

  it('draws no title wider than a set of its size can bear', async () => {
    const long = textOf('crystal').replace('Lantern Cove Beacon', 'Beacon '.repeat(400));
    const { scene } = await drawnText(long);
    const { scene: plain } = await drawnExample('crystal');
    expect(scene.width).toBeLessThan(plain.width + 600);
    expect(scene.title.length).toBeGreaterThan(2000);
  });

  it('has other strokes in the period style, in the same places', async () => {
    const { scene } = await drawnExample('crystal');
    const places = (svg: string) => svg.match(/transform="[^"]*"/g);
    const [modern, period] = [sceneToSvg(scene), sceneToSvg(scene, { symbols: 'period' })];
    expect(places(period)).toEqual(places(modern));
    expect(period).not.toBe(modern);
  });

  it('leaves its colours on screen to the page, and bakes them into a file', async () => {
    const { scene } = await drawnExample('crystal');
    expect(sceneToSvg(scene)).toContain('.paper{fill:var(--setwright-paper,#ffffff)}');
    const papers = (['light', 'dark', 'transparent'] as const).map(
      (theme) => /\.paper\{fill:([^}]*)\}/.exec(sceneToSvg(scene, { theme, use: 'file' }))?.[1],
    );
    expect(papers).toEqual(['#ffffff', '#1e1e1e', 'none']);
    expect(sceneToSvg(scene, { use: 'file' })).not.toContain('var(');
  });

  it('has letters of text on screen and of outlines in a file', async () => {
    const { scene } = await drawnExample('crystal');
    expect(sceneToSvg(scene)).toContain('>CR1</text>');
    const file = sceneToSvg(scene, { use: 'file' });
    expect(file).not.toContain('<text');
    expect(file).toMatch(/<path class="letters name" data-part="CR1"/);
  });

  it('holds letters on screen to the width that was reckoned, whatever face a machine has', async () => {
    const { scene } = await drawnExample('crystal');
    const label = scene.labels.find(({ text }) => text === 'CR1')!;
    const [, width] = /textLength="([\d.]+)"[^>]*>CR1</.exec(sceneToSvg(scene))!;
    expect(Number(width)).toBeCloseTo(label.box.right - label.box.left, 1);
  });

  it('leaves letters of which there is no outline to the machine', async () => {
    const { scene } = await drawnText(textOf('crystal').replace('Beacon', 'маяк'));
    expect(sceneToSvg(scene, { use: 'file' })).toContain('>Lantern Cove маяк</text>');
  });
});
