import { previewTour, tourOf } from '@setwright/report';
import type { PageRequest } from '@setwright/webview';
import { diagramPage, sceneOf } from './diagram-page.ts';
import { type PageBody, type PageSource, wordsOnly } from './page-source.ts';

/** The guided tour: the schematic with what each step draws over it, and the words beside it. */
export async function tourPage(source: PageSource, request: PageRequest): Promise<PageBody> {
  const { snapshot, drawings, units } = source;
  const circuit = snapshot.file.circuits[request.receiver];
  if (!circuit) return wordsOnly();
  const page = await diagramPage(source, { ...request, view: 'whole', values: false });
  const draughtsman = await drawings.draughtsman();
  const scene = await sceneOf(circuit, drawings, draughtsman);
  const tour = tourOf(circuit, draughtsman, { units });
  const { symbols } = request;
  const paint = ({ overlay, shadesStages }: Partial<(typeof tour.steps)[number]>): string =>
    draughtsman.sceneToSvg(scene, {
      symbols,
      use: 'screen',
      ...(overlay ? { overlay } : {}),
      ...(shadesStages ? { stages: draughtsman.stagesOf(circuit) } : {}),
    });
  const made = previewTour(tour, { bare: paint({}), steps: tour.steps.map(paint) });
  return { ...page, views: [], notes: [], ...made };
}
