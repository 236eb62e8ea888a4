import { checkCircuit } from '@setwright/checks';
import type { Scene } from '@setwright/diagram';
import { largestOnSheet, sheetOf, sheetPage, sheetStyles } from '@setwright/report';
import type { SheetRequest } from '@setwright/webview';
import { version } from '../version.ts';
import type { PageSource } from './pages/page-source.ts';

/** Rows that a schematic may be broken into. */
const ways = [1, 2, 3, 4, 5] as const;

/** The service sheet of a receiver as a page by itself; undefined where there is no receiver. */
export async function serviceSheet(
  { snapshot, findings, units, drawings }: PageSource,
  { receiver }: SheetRequest,
): Promise<string | undefined> {
  const { circuits } = snapshot.file;
  const number = Math.max(0, Math.min(Math.trunc(receiver) || 0, circuits.length - 1));
  const circuit = circuits[number];
  if (!circuit) return undefined;
  const draughtsman = await drawings.draughtsman();
  const engine = drawings.engine(draughtsman);
  const scenes: Scene[] = [];
  // The memory of the preview is for the preview's own layout.
  const memory = draughtsman.layoutMemory();
  for (const rows of ways)
    scenes.push(await draughtsman.drawCircuit(circuit, engine, { rows, memory }));
  const scene = largestOnSheet(scenes);
  const figures = draughtsman.figuresOf(circuit, { units });
  const drawing = scene && draughtsman.sceneToSvg(scene, { use: 'screen', figures });
  const sheet = sheetOf(circuit, draughtsman, {
    units,
    findings: findings.filter(({ place }) => snapshot.names.receiverAt(place.start) === number),
    waived: checkCircuit(circuit).waived,
    madeBy: `Made by setwright ${version}, from ${nameOf(snapshot.uri)}`,
  });
  const digests = new Map<string, string>();
  for (const text of sheetStyles(drawing)) digests.set(text, await digestOf(text));
  return sheetPage(sheet, drawing, (text) => digests.get(text) ?? '');
}

/** The last piece of an address, as a person reads it. */
function nameOf(uri: string): string {
  const last = uri.slice(uri.lastIndexOf('/') + 1);
  try {
    return decodeURIComponent(last);
  } catch {
    return last;
  }
}

/** SHA-256 in base64, as a browser's worker and Node both have it. */
async function digestOf(text: string): Promise<string> {
  const bytes = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text));
  return btoa(String.fromCharCode(...new Uint8Array(bytes)));
}
