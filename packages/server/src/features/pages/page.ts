import type { ExportRequest, Page, PageRequest } from '@setwright/webview';
import { benchPage } from './bench-page.ts';
import { comparePage, exportedComparison } from './compare-page.ts';
import { diagramPage, exportedDiagram } from './diagram-page.ts';
import { dialsPage, exportedDials } from './dials-page.ts';
import { type PageBody, type PageSource, wordsOnly } from './page-source.ts';
import { exportedResponse, responsePage } from './response-page.ts';
import { tourPage } from './tour-page.ts';

/** A page of the preview, made from the text as it is now. */
export async function pageOf(source: PageSource, request: PageRequest): Promise<Page> {
  const { snapshot } = source;
  const { circuits } = snapshot.file;
  const receiver = receiverOf(source, request);
  const body = circuits.length === 0 ? noReceiver : await bodyOf(source, { ...request, receiver });
  return {
    uri: snapshot.uri,
    version: snapshot.version,
    page: request.page,
    receiver,
    receivers: circuits.map(({ title }) => title || 'receiver without a title'),
    broken: snapshot.isBroken,
    ...body,
  };
}

/** The picture of a page by itself, for a file; undefined where the page has none. */
export async function exportedPage(
  source: PageSource,
  request: ExportRequest,
): Promise<string | undefined> {
  const wanted = { ...request, receiver: receiverOf(source, request) };
  switch (request.page) {
    case 'diagram':
      return exportedDiagram(source, wanted);
    // What a step draws is for the eye that reads it; the set is kept as it is.
    case 'tour':
      return exportedDiagram(source, { ...wanted, view: 'whole', values: false });
    case 'dials':
      return exportedDials(source, wanted);
    case 'response':
      return exportedResponse(source, wanted);
    case 'compare':
      return exportedComparison(source, wanted);
    default:
      return undefined;
  }
}

/** The receiver asked for, or the last one where there are no longer so many. */
function receiverOf({ snapshot }: PageSource, { receiver }: PageRequest): number {
  const last = snapshot.file.circuits.length - 1;
  return Math.max(0, Math.min(Math.trunc(receiver) || 0, last));
}

const noReceiver = wordsOnly(
  'There is no receiver in this text: begin with receiver "title" { … }.',
);

async function bodyOf(source: PageSource, request: PageRequest): Promise<PageBody> {
  switch (request.page) {
    case 'diagram':
      return diagramPage(source, request);
    case 'dials':
      return dialsPage(source, request);
    case 'response':
      return responsePage(source, request);
    case 'bench':
      return benchPage(source, request);
    case 'tour':
      return tourPage(source, request);
    case 'compare':
      return comparePage(source, request);
  }
}
