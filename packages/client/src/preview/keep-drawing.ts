import {
  type ExportFormat,
  type ExportRequest,
  type PageRequest,
  requests,
} from '@setwright/webview';
import { env, Uri, window, workspace } from 'vscode';
import { fileName } from '../documents.ts';
import type { Service } from '../service.ts';
import { olderText } from './older-text.ts';

/** Makes PNG of an SVG, in base 64; or puts it on the clipboard, and gives nothing. */
export type Points = (svg: string, to: 'file' | 'clipboard') => Promise<string | undefined>;

const themes: Readonly<Record<ExportFormat, ExportRequest['theme']>> = {
  'svg-light': 'light',
  'svg-dark': 'dark',
  'svg-transparent': 'transparent',
  png: 'light',
  'copy-picture': 'light',
  'copy-svg': 'light',
};

/** A file on paper is a sheet with its title block; what goes into something else is cut close. */
const onSheets: readonly ExportFormat[] = ['svg-light', 'svg-dark', 'png'];

/** Where a file made from a text is offered to be kept: beside it, by its name. */
export function besideIt(address: string, ending: string): Uri {
  const uri = Uri.parse(address, true);
  const name = fileName(uri).replace(/\.receiver$/, '');
  const folder = workspace.workspaceFolders?.[0]?.uri;
  if (uri.scheme === 'untitled') return folder ? Uri.joinPath(folder, name + ending) : uri;
  return Uri.joinPath(uri, '..', name + ending);
}

/** Asks where to, and writes; tells which file, or says why not. True when it is written. */
export async function writeAsked(
  offered: Uri,
  filters: Record<string, string[]>,
  make: () => Promise<Uint8Array>,
): Promise<Uri | undefined> {
  const goal = await window.showSaveDialog({ defaultUri: offered, filters });
  if (!goal) return undefined;
  await workspace.fs.writeFile(goal, await make());
  return goal;
}

/** Keeps a drawing as a file or on the clipboard; says what went wrong, if anything did. */
export async function keepDrawing(
  service: Service,
  page: PageRequest,
  format: ExportFormat,
  points: Points,
): Promise<void> {
  const svg = async (): Promise<string> => {
    const sheet = onSheets.includes(format);
    const needsOlder = page.page === 'compare' && page.against === undefined;
    const older = needsOlder ? await olderText(page.uri) : undefined;
    const asked = older ? { ...page, against: older } : page;
    const request: ExportRequest = { ...asked, theme: themes[format], sheet };
    const answer = (await service.ask(requests.export, request)) as { svg?: unknown } | null;
    if (typeof answer?.svg !== 'string') throw new Error('The server gave no drawing.');
    return answer.svg;
  };
  const suffix = page.page === 'diagram' ? '' : `-${page.page}`;
  try {
    if (format === 'copy-svg') {
      await env.clipboard.writeText(await svg());
      window.setStatusBarMessage('The drawing is on the clipboard as SVG.', 4000);
    } else if (format === 'copy-picture') {
      // The clipboard is given to who has the keys: they go to the preview for a moment, and back.
      const writing = window.activeTextEditor;
      await points(await svg(), 'clipboard');
      if (writing) await window.showTextDocument(writing.document, writing.viewColumn);
      window.setStatusBarMessage('The drawing is on the clipboard.', 4000);
    } else if (format === 'png') {
      const kept = await writeAsked(
        besideIt(page.uri, `${suffix}.png`),
        { 'PNG picture': ['png'] },
        async () => bytesOf((await points(await svg(), 'file')) ?? ''),
      );
      if (kept) window.setStatusBarMessage(`Kept as ${fileName(kept)}.`, 4000);
    } else {
      const kept = await writeAsked(
        besideIt(page.uri, `${suffix}.svg`),
        { 'SVG drawing': ['svg'] },
        async () => new TextEncoder().encode(await svg()),
      );
      if (kept) window.setStatusBarMessage(`Kept as ${fileName(kept)}.`, 4000);
    }
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    await window.showErrorMessage(`Setwright: the drawing could not be kept. ${why}`);
  }
}

/** Base 64 read without Node, since the editor may be a browser. */
const bytesOf = (base64: string): Uint8Array =>
  Uint8Array.from(atob(base64), (sign) => sign.charCodeAt(0));
