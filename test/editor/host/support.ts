import { ok } from 'node:assert/strict';
import * as vscode from 'vscode';

/** A file of the folder that is open. */
export function setUri(name: string): vscode.Uri {
  const [folder] = vscode.workspace.workspaceFolders ?? [];
  ok(folder, 'a folder is open');
  return vscode.Uri.joinPath(folder.uri, `${name}.receiver`);
}

export const open = async (name: string): Promise<vscode.TextEditor> =>
  vscode.window.showTextDocument(await vscode.workspace.openTextDocument(setUri(name)));

/** Opens a text that is on no disk. */
export const openText = async (content: string): Promise<vscode.TextEditor> =>
  vscode.window.showTextDocument(
    await vscode.workspace.openTextDocument({ language: 'setwright', content }),
  );

/** Asks again until the answer will do; what it last was is in the error. */
export async function eventually<Value>(
  ask: () => Value | PromiseLike<Value>,
  willDo: (value: Value) => boolean,
  patience = 25_000,
): Promise<Value> {
  const until = Date.now() + patience;
  for (;;) {
    const value = await ask();
    if (willDo(value)) return value;
    if (Date.now() > until) throw new Error(`waited in vain; last: ${JSON.stringify(value)}`);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

export const checkOf = ({ code }: vscode.Diagnostic): string =>
  `${typeof code === 'object' ? code.value : code}`;

export const findingsOf = (uri: vscode.Uri): readonly vscode.Diagnostic[] =>
  vscode.languages.getDiagnostics(uri);

export const findings = (uri: vscode.Uri, check: string): Promise<readonly vscode.Diagnostic[]> =>
  eventually(
    () => findingsOf(uri),
    (all) => all.some((each) => checkOf(each) === check),
  );

/** Where a word stands in a text, and its middle. */
export function placeOf(document: vscode.TextDocument, words: string, within = 1): vscode.Position {
  const at = document.getText().indexOf(words);
  ok(at >= 0, `the text has ${words}`);
  return document.positionAt(at + within);
}

export const closeAll = (): Thenable<unknown> =>
  vscode.commands.executeCommand('workbench.action.closeAllEditors');
