import type { Circuit } from '@setwright/circuit';
import {
  drawCircuit,
  dress,
  figuresOf,
  layoutEngine,
  layoutMemory,
  lettersToFind,
  type Overlay,
  overlayOf,
  type PaperName,
  pageToSvg,
  type Scene,
  sceneToSvg,
  stagesOf,
  type Theme,
  type View,
  viewsOf,
} from '@setwright/diagram';
import { supposeChanges } from '@setwright/report';

/** How a schematic is to look, and what is drawn over it. */
export interface SchematicOptions {
  readonly theme: Theme;
  readonly symbols: 'modern' | 'period';
  /** Undefined lays it out for a page. */
  readonly rows: 'page' | 'one' | undefined;
  readonly view: string;
  readonly values: boolean;
  readonly units: 'period' | 'si';
  readonly stages: boolean;
  readonly page: PaperName | undefined;
  /** What is drawn over the set in place of a view of its own. */
  readonly overlay?: Overlay;
}

/** A schematic that stands by itself. */
export interface Schematic {
  /** Colours baked in and letters as outlines: the same on every machine. */
  readonly svg: string;
  /** What found no room, plain sentences. */
  readonly notes: readonly string[];
  /** Letters that stay text since no outline of them is at hand. */
  readonly strangeLetters: string;
  /** On a page: size of the smallest letters in points. */
  readonly smallestLetters: number | undefined;
}

/** Lays a set out and draws it; the views that it has where it has not the one asked for. */
export async function schematicOf(
  circuit: Circuit,
  options: SchematicOptions,
): Promise<Schematic | { readonly views: readonly View[] }> {
  const named = options.overlay ?? overlayOf(circuit, options.view);
  if (!named) return { views: viewsOf(circuit) };
  const [, suppose] = /^suppose (\d+)$/.exec(named.id) ?? [];
  const supposed =
    suppose === undefined ? undefined : supposeChanges(circuit, Number(suppose) - 1, options.units);
  const overlay = (supposed && overlayOf(circuit, named.id, supposed)) ?? named;
  const { theme, symbols, page } = options;
  const svgOptions = {
    theme,
    symbols,
    overlay,
    use: 'file',
    ...(options.values ? { figures: figuresOf(circuit, { units: options.units }) } : {}),
    ...(options.stages ? { stages: stagesOf(circuit) } : {}),
  } as const;
  const scenes = await layouts(circuit, options);
  const strangeLetters = [...new Set(scenes.flatMap((scene) => lettersToFind(scene)))].join('');
  if (page !== undefined) {
    const { svg, notes, smallestLetters } = pageToSvg(circuit, scenes, page, svgOptions);
    return { svg, notes, strangeLetters, smallestLetters };
  }
  const [scene] = scenes as [Scene, ...Scene[]];
  const { notes } = dress(scene, svgOptions);
  return {
    svg: sceneToSvg(scene, svgOptions),
    notes,
    strangeLetters,
    smallestLetters: undefined,
  };
}

/** The set as it may be laid out; for a sheet in several ways, of which the largest is taken. */
async function layouts(circuit: Circuit, { rows, page }: SchematicOptions): Promise<Scene[]> {
  const engine = layoutEngine();
  const memory = layoutMemory();
  const ways =
    rows !== undefined || page === undefined ? [rows ?? 'page'] : ([1, 2, 3, 4, 5] as const);
  const scenes: Scene[] = [];
  for (const way of ways) scenes.push(await drawCircuit(circuit, engine, { rows: way, memory }));
  return scenes;
}

export { setMade } from './collection-making.ts';
export { pngOf } from './png.ts';
export { sheetMade } from './sheet-making.ts';
export { tourMade } from './tour-making.ts';
