import { describe, expect, it } from 'vitest';
import { drawCircuit, layoutEngine, sceneToSvg } from '../src/index.ts';
import { circuitOf, exampleTexts } from './examples.ts';

const engine = layoutEngine();
const [, crystal] = exampleTexts.find(([name]) => name === 'crystal')!;

describe('the SVG of a drawing', () => {
  it('names the part of every symbol and the junction of every wire', async () => {
    const svg = sceneToSvg(await drawCircuit(circuitOf(crystal), engine));
    expect(svg).toContain('data-part="CR1"');
    expect(svg).toContain('data-net="ANT"');
  });

  it('tells in words what it shows', async () => {
    const svg = sceneToSvg(await drawCircuit(circuitOf(crystal), engine));
    expect(svg).toMatch(/role="img".*aria-labelledby/);
    expect(svg).toContain('<title id="setwright-title">Lantern Cove Beacon</title>');
  });

  it('escapes whatever a title says', async () => {
    const rude = crystal.replace('Lantern Cove Beacon', "</title><script>alert('x') & more");
    const svg = sceneToSvg(await drawCircuit(circuitOf(rude), engine));
    expect(svg).not.toContain('<script>');
    expect(svg).toContain('&lt;/title&gt;&lt;script&gt;alert(&#39;x&#39;) &amp; more');
  });

  it('has other strokes in the period style, in the same places', async () => {
    const scene = await drawCircuit(circuitOf(crystal), engine);
    const places = (svg: string) => svg.match(/transform="[^"]*"/g);
    const [modern, period] = [sceneToSvg(scene), sceneToSvg(scene, { symbols: 'period' })];
    expect(places(period)).toEqual(places(modern));
    expect(period).not.toBe(modern);
  });

  it('dims what a view does not show and moves nothing', async () => {
    const scene = await drawCircuit(circuitOf(crystal), engine);
    const lit = { parts: new Set(['CR1']), nets: new Set(['TEL1']) };
    const svg = sceneToSvg(scene, { lit });
    expect(svg).toMatch(/<g class="part crystal" data-part="CR1"/);
    expect(svg).toMatch(/<g class="part condenser dimmed" data-part="C2"/);
    expect(svg.replaceAll(' dimmed', '')).toBe(sceneToSvg(scene));
  });

  it('has a paper of its own in the light and the dark, and none when transparent', async () => {
    const scene = await drawCircuit(circuitOf(crystal), engine);
    const papers = (['light', 'dark', 'transparent'] as const).map(
      (theme) => /--setwright-paper,([^)]*)\)/.exec(sceneToSvg(scene, { theme }))?.[1],
    );
    expect(papers).toEqual(['#fff', '#1e1e1e', 'none']);
  });
});
