import { type PatternChoice, requests, type TextRequest } from '@setwright/webview';
import { ViewColumn, window, workspace } from 'vscode';
import { languageId, ownScheme } from '../documents.ts';
import type { Service } from '../service.ts';

/** Opens a new text, not saved yet, that begins as a sound set of a common kind. */
export async function newFromPattern(service: Service): Promise<void> {
  const items = (async () => {
    const patterns = (await service.ask(requests.patterns, {})) as readonly PatternChoice[];
    return patterns.map(({ title, words, name }) => ({ label: title, detail: words, name }));
  })();
  const chosen = await window.showQuickPick(items, {
    title: 'New set from a pattern',
    placeHolder: 'A sound set to change into yours',
    matchOnDetail: true,
  });
  if (!chosen) return;
  const request: TextRequest = { uri: `${ownScheme}:/patterns/${chosen.name}.receiver` };
  const content = String(await service.ask(requests.text, request));
  const document = await workspace.openTextDocument({ language: languageId, content });
  // Among the texts, and not on top of a preview.
  const viewColumn = window.visibleTextEditors.find((editor) => editor.viewColumn)?.viewColumn;
  await window.showTextDocument(document, { viewColumn: viewColumn ?? ViewColumn.One });
}
