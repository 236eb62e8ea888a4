import { previewSteps, tourOf } from '@setwright/report';
import type { PageRequest } from '@setwright/webview';
import { diagramPage } from './diagram-page.ts';
import { type PageBody, type PageSource, wordsOnly } from './page-source.ts';

/** The guided tour: the schematic of the whole set, and the steps that are read beside it. */
export async function tourPage(source: PageSource, request: PageRequest): Promise<PageBody> {
  const { snapshot, drawings, units } = source;
  const circuit = snapshot.file.circuits[request.receiver];
  if (!circuit) return wordsOnly();
  const page = await diagramPage(source, { ...request, view: 'whole', values: false });
  const tour = tourOf(circuit, await drawings.draughtsman(), { units });
  return { ...page, views: [], notes: [], steps: previewSteps(tour) };
}
