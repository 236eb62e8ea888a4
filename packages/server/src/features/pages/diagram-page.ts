import type { Circuit } from '@setwright/circuit';
import type { Scene, SvgOptions } from '@setwright/diagram';
import { supposeChanges } from '@setwright/report';
import type { ExportRequest, PagePart, PageRequest } from '@setwright/webview';
import { partHover, spokenPart } from '../hover/part-hover.ts';
import {
  type Draughtsman,
  type Drawings,
  findingsByPart,
  type PageBody,
  type PageSource,
  wordsOnly,
} from './page-source.ts';

/** The schematic, with what its symbols are and what is found at them. */
export async function diagramPage(source: PageSource, request: PageRequest): Promise<PageBody> {
  const { snapshot, drawings, units } = source;
  const circuit = snapshot.file.circuits[request.receiver];
  if (!circuit) return wordsOnly();
  const draughtsman = await drawings.draughtsman();
  const scene = await sceneOf(circuit, drawings, draughtsman);
  const views = draughtsman.viewsOf(circuit);
  const view = views.find(({ id }) => id === request.view)?.id ?? 'whole';
  const supposed = supposedBy(circuit, view, units);
  const options = dressing(draughtsman, circuit, request, view, units, supposed);
  return {
    svg: draughtsman.sceneToSvg(scene, options),
    tables: [],
    notes: [...(supposed ? [supposed.words] : []), ...draughtsman.dress(scene, options).notes],
    parts: diagramParts(source, request.receiver, circuit, scene),
    views,
    view,
  };
}

/** Ways to lay a set out for a sheet, fewest rows first; the one that prints largest is taken. */
const ways = [1, 2, 3] as const;

/** The schematic for a file: on a sheet with its title block, or by itself. */
export async function exportedDiagram(
  { snapshot, drawings, units }: PageSource,
  request: ExportRequest,
): Promise<string | undefined> {
  const circuit = snapshot.file.circuits[request.receiver];
  if (!circuit) return undefined;
  const draughtsman = await drawings.draughtsman();
  const supposed = supposedBy(circuit, request.view, units);
  const dressed = dressing(draughtsman, circuit, request, request.view, units, supposed);
  const options: SvgOptions = { ...dressed, theme: request.theme, use: 'file' };
  if (!request.sheet)
    return draughtsman.sceneToSvg(await sceneOf(circuit, drawings, draughtsman), options);
  const { engine, memory } = drawings;
  const scenes: Scene[] = [];
  for (const rows of ways)
    scenes.push(await draughtsman.drawCircuit(circuit, engine(draughtsman), { rows, memory }));
  return draughtsman.pageToSvg(circuit, scenes, 'a4-landscape', options).svg;
}

/** The set laid out, without anything drawn over it. */
export function sceneOf(
  circuit: Circuit,
  { engine, memory }: Drawings,
  draughtsman: Draughtsman,
): Promise<Scene> {
  return draughtsman.drawCircuit(circuit, engine(draughtsman), { memory });
}

function dressing(
  draughtsman: Draughtsman,
  circuit: Circuit,
  { symbols, values }: PageRequest,
  view: string,
  units: PageSource['units'],
  supposed: ReturnType<typeof supposedBy>,
): SvgOptions {
  const overlay = draughtsman.overlayOf(circuit, view, supposed ?? {});
  return {
    symbols,
    use: 'screen',
    ...(overlay ? { overlay } : {}),
    ...(values ? { figures: draughtsman.figuresOf(circuit, { units }) } : {}),
  };
}

/** What the suppose of a view changes; undefined for every other view. */
function supposedBy(circuit: Circuit, view: string, units: PageSource['units']) {
  const [, number] = /^suppose (\d+)$/.exec(view) ?? [];
  return number === undefined ? undefined : supposeChanges(circuit, Number(number) - 1, units);
}

/** What each symbol stands for, in the order in which the drawing is read. */
export function diagramParts(
  source: PageSource,
  receiver: number,
  circuit: Circuit,
  scene: Scene,
): Readonly<Record<string, PagePart>> {
  const found = findingsByPart(source, receiver);
  const parts: Record<string, PagePart> = {};
  for (const { part: name } of scene.symbols) {
    const part = circuit.partNamed.get(name);
    if (!part || parts[name]) continue;
    parts[name] = {
      range: source.snapshot.range(part.place),
      hover: partHover(source, receiver, name) ?? '',
      spoken: spokenPart(part),
      findings: found.get(name) ?? [],
    };
  }
  return parts;
}
