import { Uri, ViewColumn, window, workspace } from 'vscode';
import { languageId } from '../documents.ts';
import { patterns } from '../patterns.ts';

/** Opens a new text, not saved yet, that begins as a sound set of a common kind. */
export async function newFromPattern(extension: Uri): Promise<void> {
  const items = patterns.map(({ title, words, file }) => ({ label: title, detail: words, file }));
  const chosen = await window.showQuickPick(items, {
    title: 'New set from a pattern',
    placeHolder: 'A sound set to change into yours',
    matchOnDetail: true,
  });
  if (!chosen) return;
  const bytes = await workspace.fs.readFile(Uri.joinPath(extension, 'examples', chosen.file));
  const content = new TextDecoder().decode(bytes);
  const document = await workspace.openTextDocument({ language: languageId, content });
  // Among the texts, and not on top of a preview.
  const viewColumn = window.visibleTextEditors.find((editor) => editor.viewColumn)?.viewColumn;
  await window.showTextDocument(document, { viewColumn: viewColumn ?? ViewColumn.One });
}
