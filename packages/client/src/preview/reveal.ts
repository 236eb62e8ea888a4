import type { Range as PlainRange } from '@setwright/webview';
import { Range, Selection, TextEditorRevealType, Uri, ViewColumn, window } from 'vscode';

/**
 * Shows a place of a text where the text is open, else in another column than the preview's;
 * `stay` leaves the focus where it is.
 */
export async function reveal(
  uri: string,
  { start, end }: PlainRange,
  own: ViewColumn | undefined,
  stay: boolean,
): Promise<void> {
  const at = new Range(start.line, start.character, end.line, end.character);
  const open = window.visibleTextEditors.find(
    (editor) => editor.document.uri.toString() === uri && editor.viewColumn !== undefined,
  );
  const other = window.tabGroups.all.find((group) => group.viewColumn !== own);
  const editor = await window.showTextDocument(Uri.parse(uri, true), {
    viewColumn: open?.viewColumn ?? other?.viewColumn ?? ViewColumn.One,
    preserveFocus: stay,
  });
  editor.selection = new Selection(at.start, at.start);
  editor.revealRange(at, TextEditorRevealType.InCenterIfOutsideViewport);
}
