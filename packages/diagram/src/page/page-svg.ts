import type { Circuit } from '@setwright/circuit';
import { escapeXml } from '../escape.ts';
import type { Scene } from '../scene.ts';
import { drawingShapes, type SvgOptions } from '../svg.ts';
import { scopeOf, styleSheet } from '../svg-look.ts';
import { decimal } from '../svg-numbers.ts';
import { letterSize } from '../text-width.ts';
import { dress, legendOf } from '../views/dressing.ts';
import { factsOf } from './facts.ts';
import { MARGIN, type PaperName, POINT, papers } from './papers.ts';
import { titleBlock } from './title-block.ts';

/** A drawing on a sheet of paper. */
export interface Page {
  readonly svg: string;
  /** Size of the smallest letters of the drawing as printed, in points. */
  readonly smallestLetters: number;
  readonly notes: readonly string[];
}

/** Millimetres of a drawing unit that a small set is not drawn larger than: names of 11 points. */
const LARGEST = (11 * POINT) / letterSize.name;

/** A layout further down the list must print this many times larger for each place. */
const WORTH_A_ROW = 1.03;

/** Height of the band at the top of a scene where its title stands; a page has a title block. */
const TITLE_BAND = 44;

/** The share of a sheet that the lists of a title block may take, the caution aside. */
const MOST_FOR_BLOCK = 0.4;

/** Millimetres between drawing and title block. */
const BETWEEN = 4;

/**
 * A set's drawing on a sheet, as large as it goes, over a title block with the set's facts and the
 * usual caution. Of several layouts of one set the one that prints largest is taken, unless it is
 * hardly larger than one before it.
 *
 * @param scenes the set laid out in one or more ways, at least one, fewest rows first
 */
export function pageToSvg(
  circuit: Circuit,
  scenes: readonly Scene[],
  paper: PaperName,
  options: SvgOptions = {},
): Page {
  const { theme = 'light', id = 'setwright', overlay } = options;
  const { width, height } = papers[paper];
  const room = width - 2 * MARGIN;
  const legend = overlay ? legendOf(overlay) : '';
  const most = (height - 2 * MARGIN) * MOST_FOR_BLOCK;
  const block = titleBlock(factsOf(circuit), overlay, legend, { width: room, height: most });
  const tall = height - 2 * MARGIN - block.height - BETWEEN;
  const scaleOf = (scene: Scene): number =>
    Math.min(LARGEST, room / scene.width, tall / (scene.height - TITLE_BAND));
  let chosen = 0;
  for (const [index, each] of scenes.entries()) {
    const least = scaleOf(scenes[chosen] ?? each) * WORTH_A_ROW ** (index - chosen);
    if (scaleOf(each) > least) chosen = index;
  }
  const scene = scenes[chosen];
  if (!scene) return { svg: '', smallestLetters: 0, notes: [] };
  const scale = scaleOf(scene);
  // The block tells the title and the view.
  const untitled: Scene = {
    ...scene,
    labels: scene.labels.filter(({ style }) => style !== 'title'),
  };
  const dressing = dress(untitled, {
    ...options,
    ...(overlay ? { overlay: { ...overlay, title: '' } } : {}),
  });
  const [w, h] = [scene.width * scale, (scene.height - TITLE_BAND) * scale];
  const left = (width - w) / 2;
  const top = MARGIN + Math.max(0, (tall - h) / 2);
  const smallest = Math.min(
    ...[...untitled.labels, ...dressing.labels].map(({ style }) => letterSize[style]),
  );
  const drawing = drawingShapes(untitled, dressing, { ...options, use: 'file' });
  const view = overlay && overlay.id !== 'whole' ? ` ${overlay.title}.` : '';
  const svg = `${[
    `<svg xmlns="http://www.w3.org/2000/svg" class="setwright ${scopeOf(theme, true)}" role="graphics-document document" aria-roledescription="schematic" aria-labelledby="${escapeXml(id)}-title ${escapeXml(id)}-desc" viewBox="0 0 ${width} ${height}" width="${width}mm" height="${height}mm">`,
    `<title id="${escapeXml(id)}-title">${escapeXml(scene.title)}</title>`,
    `<desc id="${escapeXml(id)}-desc">${escapeXml(`${scene.description}${view}`)}</desc>`,
    `<style>\n${styleSheet(theme, true)}\n</style>`,
    '<rect class="paper" width="100%" height="100%"/>',
    `<svg x="${decimal(left)}" y="${decimal(top)}" width="${decimal(w)}" height="${decimal(h)}" viewBox="0 ${TITLE_BAND} ${scene.width} ${scene.height - TITLE_BAND}">`,
    ...drawing,
    '</svg>',
    '<g>',
    ...block.shapes(MARGIN, height - MARGIN - block.height),
    '</g>',
    '</svg>',
  ].join('\n')}\n`;
  const smallestLetters = Number.isFinite(smallest) ? (smallest * scale) / POINT : 0;
  return { svg, smallestLetters, notes: dressing.notes };
}
