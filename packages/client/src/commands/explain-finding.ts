import { commands, languages, Uri, window, workspace } from 'vscode';
import { ownScheme } from '../documents.ts';

/** The checks that speak at the cursor, or on its line. */
function checksHere(): readonly { readonly id: string; readonly message: string }[] {
  const editor = window.activeTextEditor;
  if (!editor) return [];
  const { active } = editor.selection;
  const all = languages
    .getDiagnostics(editor.document.uri)
    .filter(({ source }) => source === 'setwright');
  const here = all.filter(({ range }) => range.contains(active));
  const onLine = all.filter(
    ({ range }) => range.start.line <= active.line && active.line <= range.end.line,
  );
  const found = here.length > 0 ? here : onLine;
  const named = found.flatMap(({ code, message }) => {
    const id = typeof code === 'object' ? code.value : code;
    return id === undefined ? [] : [{ id: `${id}`, message }];
  });
  return named.filter(({ id }, index) => named.findIndex((other) => other.id === id) === index);
}

async function chosenCheck(): Promise<string | undefined> {
  const checks = checksHere();
  if (checks.length === 0) {
    void window.showInformationMessage('Setwright: there is no finding at the cursor.');
  }
  if (checks.length <= 1) return checks[0]?.id;
  const items = checks.map(({ id, message }) => ({ label: id, detail: message }));
  return (await window.showQuickPick(items, { title: 'Which finding?' }))?.label;
}

/** Opens the page of a check: what it finds, why it matters, when it keeps silent. */
export async function explainFinding(given: unknown): Promise<void> {
  const id = typeof given === 'string' ? given : await chosenCheck();
  if (id === undefined || !/^[a-z0-9-]+$/.test(id)) return;
  const uri = Uri.from({ scheme: ownScheme, path: `/checks/${id}.md` });
  try {
    await workspace.openTextDocument(uri);
    await commands.executeCommand('markdown.showPreview', uri);
  } catch {
    // Without the editor's own Markdown the text does as well.
    await window.showTextDocument(uri, { preview: true });
  }
}
