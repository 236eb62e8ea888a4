import { drawCircuit, layoutEngine, sceneToSvg, stagesOf } from '@setwright/diagram';
import { describe, expect, it } from 'vitest';
import { type LayeredDrawing, layered } from '../../src/tour/page/svg-layers.ts';
import { setOf, textOf, tourIn } from './sets.ts';

/** The drawing of a step as a page shows it: its own layer, and its own shapes dimmed. */
function shown({ svg, dimmed, descriptions }: LayeredDrawing, step: number): string {
  const dims = new Set(dimmed[step]);
  const out: string[] = [];
  let layer: number | undefined;
  let depth = 0;
  for (const line of svg.split('\n')) {
    const begun = /^<g class="layer" data-layer="(\d+)">$/.exec(line);
    if (begun && layer === undefined) {
      layer = Number(begun[1]);
      depth = 0;
      continue;
    }
    if (layer !== undefined) {
      depth += (line.match(/<g[ >]/g)?.length ?? 0) - (line.match(/<\/g>/g)?.length ?? 0);
      if (depth < 0) {
        layer = undefined;
        continue;
      }
      if (layer !== step) continue;
    }
    out.push(
      line
        .replace(/^(<desc [^>]*>)[^<]*/, (_, tag: string) => `${tag}${descriptions[step]}`)
        .replace(/class="([^"]*)" data-n="(\d+)"/g, (_, names: string, number: string) =>
          dims.has(Number(number)) ? `class="${dimmedIn(names)}"` : `class="${names}"`,
        ),
    );
  }
  return out.join('\n');
}

const dimmedIn = (names: string): string => `${names} dimmed`;
/** Where the word stands among the classes is nobody's business. */
const sorted = (svg: string): string =>
  svg.replace(
    /class="([^"]*)"/g,
    (_, names: string) => `class="${names.split(' ').sort().join(' ')}"`,
  );

describe('one drawing for all steps', () => {
  it.each(['five-tube-trf', 'crystal', 'superheterodyne', 'push-pull'])(
    'of %s shows at every step what was drawn for it, and nothing moves',
    async (example) => {
      const circuit = setOf(textOf(example));
      const scene = await drawCircuit(circuit, layoutEngine(), { rows: 'page' });
      const { steps } = tourIn(textOf(example));
      const drawn = steps.map(({ overlay, shadesStages }) =>
        sceneToSvg(scene, { overlay, ...(shadesStages ? { stages: stagesOf(circuit) } : {}) }),
      );
      const together = layered(sceneToSvg(scene), drawn);
      for (const [index, svg] of drawn.entries())
        expect(sorted(shown(together, index))).toBe(sorted(svg));
      expect(together.svg.length).toBeLessThan(drawn.join('').length / 3);
    },
  );
});
