import { requests, type SheetRequest } from '@setwright/webview';
import { env, window } from 'vscode';
import { fileName } from '../documents.ts';
import { besideIt, writeAsked } from '../preview/keep-drawing.ts';
import type { PreviewPanel } from '../preview/panel.ts';
import type { Service } from '../service.ts';

/** Keeps the service sheet of a receiver as a page for print. */
export async function keepSheet(
  service: Service,
  uri: string,
  panel: PreviewPanel | undefined,
): Promise<void> {
  const receiver = panel?.uri() === uri ? panel.choice().receiver : 0;
  const request: SheetRequest = { uri, receiver };
  try {
    const kept = await writeAsked(
      besideIt(uri, '-service-sheet.html'),
      { 'HTML page': ['html'] },
      async () => {
        const answer = (await service.ask(requests.sheet, request)) as { html?: unknown } | null;
        if (typeof answer?.html !== 'string') throw new Error('The server gave no sheet.');
        return new TextEncoder().encode(answer.html);
      },
    );
    if (!kept) return;
    const open = 'Open It';
    const chosen = await window.showInformationMessage(`Kept as ${fileName(kept)}.`, open);
    if (chosen === open) await env.openExternal(kept);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    await window.showErrorMessage(`Setwright: the service sheet could not be made. ${why}`);
  }
}
