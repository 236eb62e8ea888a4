import { deepEqual, equal, match, ok } from 'node:assert/strict';
import * as vscode from 'vscode';
import {
  checkOf,
  closeAll,
  eventually,
  findings,
  findingsOf,
  open,
  openText,
  placeOf,
  setUri,
} from './support.ts';

interface Manifest {
  readonly contributes: { readonly commands: readonly { readonly command: string }[] };
}

const extension = () => {
  const found = vscode.extensions.getExtension<unknown>('setwright.setwright');
  ok(found, 'the extension is there');
  return found;
};

const ask = <Answer>(command: string, ...given: unknown[]): Thenable<Answer> =>
  vscode.commands.executeCommand<Answer>(command, ...given);

const textOf = (contents: readonly (vscode.MarkdownString | vscode.MarkedString)[]): string =>
  contents.map((each) => (typeof each === 'string' ? each : each.value)).join('\n');

/** Text of the hover at some words, once there is one. */
async function hoverAt(editor: vscode.TextEditor, words: string): Promise<string> {
  const { document } = editor;
  const hovers = await eventually(
    () =>
      ask<vscode.Hover[]>('vscode.executeHoverProvider', document.uri, placeOf(document, words)),
    (all) => all.length > 0,
  );
  return hovers.map(({ contents }) => textOf(contents)).join('\n');
}

const previews = (): readonly vscode.Tab[] =>
  vscode.window.tabGroups.all
    .flatMap(({ tabs }) => tabs)
    .filter(
      ({ input }) =>
        input instanceof vscode.TabInputWebview && input.viewType.endsWith('setwright.preview'),
    );

describe('the extension in the editor', () => {
  afterEach(closeAll);

  it('takes a .receiver file for its own, and wakes for it', async () => {
    const { document } = await open('crystal');
    equal(document.languageId, 'setwright');
    await eventually(
      () => extension().isActive,
      (active) => active,
    );
  });

  it('has every command that its manifest names', async () => {
    await open('crystal');
    await eventually(
      () => extension().isActive,
      (active) => active,
    );
    const known = new Set(await vscode.commands.getCommands(true));
    const { contributes } = extension().packageJSON as Manifest;
    const missing = contributes.commands.filter(({ command }) => !known.has(command));
    deepEqual(missing, []);
  });

  it('tells a finding with its check, a link to its page, and nothing of a sound set', async () => {
    const { document } = await open('grid-return-side');
    const all = await findings(document.uri, 'grid-return-side');
    const [finding] = all.filter((each) => checkOf(each) === 'grid-return-side');
    equal(finding?.source, 'setwright');
    ok(typeof finding?.code === 'object', 'the check has a link');
    match(finding.code.target.toString(true), /checks\/grid-return-side/);
    const sound = await open('five-tube-trf');
    await hoverAt(sound, 'V3 01-A');
    const grave = findingsOf(sound.document.uri).filter(
      ({ severity }) => severity <= vscode.DiagnosticSeverity.Warning,
    );
    deepEqual(
      grave.map(({ message }) => message),
      [],
    );
  });

  it('tells findings of a text that is not saved yet', async () => {
    const { document } = await openText('receiver "Dory" {\n  tube V1 01-A\n  tube V1 01-A\n}\n');
    await findings(document.uri, 'duplicate-name');
  });

  it('keeps the findings of a text while one of its lines is half written', async () => {
    const { document } = await open('grid-return-side');
    await findings(document.uri, 'grid-return-side');
    const edit = new vscode.WorkspaceEdit();
    edit.insert(document.uri, new vscode.Position(2, 0), 'resis\n');
    await vscode.workspace.applyEdit(edit);
    const all = await findings(document.uri, 'unreadable-line').catch(() =>
      findings(document.uri, 'unknown-word'),
    );
    ok(
      all.some((each) => checkOf(each) === 'grid-return-side'),
      'the other finding is still told',
    );
    await ask('workbench.action.files.revert');
  });

  it('explains a part with its computed values', async () => {
    const editor = await open('five-tube-trf');
    match(await hoverAt(editor, 'winding grid 56'.slice(8)), /µH|uH/);
    match(await hoverAt(editor, 'V3 01-A'), /V3/);
  });

  it('completes the terminals of a part', async () => {
    const { document } = await open('five-tube-trf');
    const at = placeOf(document, 'V1.grid', 'V1.'.length);
    const { items } = await eventually(
      () =>
        ask<vscode.CompletionList>('vscode.executeCompletionItemProvider', document.uri, at, '.'),
      (list) => list.items.length > 0,
    );
    const labels = items.map(({ label }) => (typeof label === 'string' ? label : label.label));
    for (const wanted of ['grid', 'plate'])
      ok(
        labels.some((label) => label.endsWith(wanted)),
        `${wanted} among ${labels}`,
      );
  });

  it('puts a finding right by a quick fix', async () => {
    const { document } = await open('grid-return-side');
    const all = await findings(document.uri, 'grid-return-side');
    const range = all.find((each) => checkOf(each) === 'grid-return-side')?.range;
    const actions = await ask<vscode.CodeAction[]>(
      'vscode.executeCodeActionProvider',
      document.uri,
      range,
      vscode.CodeActionKind.QuickFix.value,
      // So many have their edits worked out.
      10,
    );
    const fix = actions.find(({ edit, title }) => edit && title.includes('A+'));
    ok(fix?.edit, `a fix among ${actions.map(({ title }) => title)}`);
    await vscode.workspace.applyEdit(fix.edit);
    await eventually(
      () => findingsOf(document.uri).map(checkOf),
      (checks) => !checks.includes('grid-return-side'),
    );
    await ask('workbench.action.files.revert');
  });

  it('goes to a part, and to the data of a tube type, which is read only', async () => {
    const { document } = await open('five-tube-trf');
    const links = await eventually(
      () =>
        ask<(vscode.Location | vscode.LocationLink)[]>(
          'vscode.executeDefinitionProvider',
          document.uri,
          placeOf(document, 'tube V1 01-A', 'tube V1 0'.length),
        ),
      (all) => all.length > 0,
    );
    const [link] = links;
    ok(link);
    const uri = 'uri' in link ? link.uri : link.targetUri;
    equal(uri.scheme, 'setwright');
    const data = await vscode.workspace.openTextDocument(uri);
    match(data.getText(), /tube type 01-A/);
    await vscode.window.showTextDocument(data);
    equal(data.languageId, 'setwright');
    deepEqual(findingsOf(uri), []);
    equal(vscode.workspace.fs.isWritableFileSystem('setwright'), undefined);
  });

  it('renames a part wherever it is spoken of', async () => {
    const { document } = await open('five-tube-trf');
    const edit = await eventually(
      () =>
        ask<vscode.WorkspaceEdit>(
          'vscode.executeDocumentRenameProvider',
          document.uri,
          placeOf(document, 'tube V3', 'tube V'.length),
          'DETECTOR',
        ),
      (each) => each.size > 0,
    );
    const places = edit.get(document.uri);
    const spoken = document.getText().match(/\bV3\b/g)?.length;
    equal(places.length, spoken);
  });

  it('lists the parts of a set, and where a name is spoken of', async () => {
    const { document } = await open('five-tube-trf');
    const symbols = await eventually(
      () => ask<vscode.DocumentSymbol[]>('vscode.executeDocumentSymbolProvider', document.uri),
      (all) => all.length > 0,
    );
    equal(symbols[0]?.name, 'Lantern Cove Five');
    const references = await ask<vscode.Location[]>(
      'vscode.executeReferenceProvider',
      document.uri,
      placeOf(document, 'bus NEG', 'bus N'.length),
    );
    ok(references.length > 5, `${references.length} places`);
  });

  it('puts a text in order and keeps its comments', async () => {
    const { document } = await openText(
      'receiver "Dory" {\n      // the only part\n post   ANT    aerial\n}\n',
    );
    const edits = await eventually(
      () =>
        ask<vscode.TextEdit[] | undefined>('vscode.executeFormatDocumentProvider', document.uri, {
          tabSize: 2,
          insertSpaces: true,
        }),
      (each) => (each?.length ?? 0) > 0,
    );
    const edit = new vscode.WorkspaceEdit();
    edit.set(document.uri, edits ?? []);
    await vscode.workspace.applyEdit(edit);
    equal(document.getText(), 'receiver "Dory" {\n  // the only part\n  post ANT aerial\n}\n');
  });

  it('hints at numbers in the text, as far as they are wanted', async () => {
    const { document } = await open('five-tube-trf');
    const whole = new vscode.Range(0, 0, document.lineCount, 0);
    const labels = async (): Promise<string> => {
      const hints = await ask<vscode.InlayHint[]>(
        'vscode.executeInlayHintProvider',
        document.uri,
        whole,
      );
      return hints
        .map(({ label }) =>
          typeof label === 'string' ? label : label.map(({ value }) => value).join(''),
        )
        .join('\n');
    };
    await eventually(labels, (all) => /H/.test(all));
    const settings = vscode.workspace.getConfiguration('setwright', document.uri);
    await settings.update('hints.inductance', false, vscode.ConfigurationTarget.Workspace);
    try {
      await eventually(labels, (all) => !/[µu]H/.test(all));
    } finally {
      await settings.update('hints.inductance', undefined, vscode.ConfigurationTarget.Workspace);
    }
  });

  it('tells a check as grave as the settings say', async () => {
    const { document } = await open('grid-return-side');
    await findings(document.uri, 'grid-return-side');
    const settings = vscode.workspace.getConfiguration('setwright', document.uri);
    const set = (severity: string | undefined) =>
      settings.update(
        'checks',
        severity && { 'grid-return-side': severity },
        vscode.ConfigurationTarget.Workspace,
      );
    try {
      await set('hint');
      await eventually(
        () => findingsOf(document.uri).find((each) => checkOf(each) === 'grid-return-side'),
        (each) => each?.severity === vscode.DiagnosticSeverity.Hint,
      );
      await set('off');
      await eventually(
        () => findingsOf(document.uri).map(checkOf),
        (checks) => !checks.includes('grid-return-side'),
      );
    } finally {
      await set(undefined);
    }
    await findings(document.uri, 'grid-return-side');
  });

  it('opens the page of a check', async () => {
    await open('crystal');
    const uri = vscode.Uri.parse('setwright:/checks/grid-return-side.md');
    const page = await eventually(
      () =>
        vscode.workspace.openTextDocument(uri).then(
          (each) => each.getText(),
          () => '',
        ),
      (text) => text !== '',
    );
    match(page, /^# grid-return-side/);
  });

  it('opens a preview beside the text, and only one', async () => {
    const editor = await open('five-tube-trf');
    await ask('setwright.openDiagramToSide');
    await eventually(previews, (all) => all.length === 1);
    await vscode.window.showTextDocument(editor.document, vscode.ViewColumn.One);
    await ask('setwright.showDials');
    await eventually(
      () => previews().map(({ label }) => label),
      ([label]) => label?.includes('dial chart') === true,
    );
    equal(previews().length, 1);
    equal(vscode.window.activeTextEditor?.document.uri.toString(), editor.document.uri.toString());
  });

  it('offers its checks as tasks', async () => {
    await open('crystal');
    const tasks = await vscode.tasks.fetchTasks({ type: 'setwright' });
    deepEqual(tasks.map(({ name }) => name).sort(), [
      'check all sets',
      'check all sets, thoroughly',
    ]);
  });

  it('comes back after its server was started anew', async () => {
    const { document } = await open('grid-return-side');
    await findings(document.uri, 'grid-return-side');
    await ask('setwright.restartServer');
    await findings(document.uri, 'grid-return-side');
    match(await hoverAt(await open('grid-return-side'), 'R1 2 meg'), /R1/);
  });

  it('is at home where the workspace is not trusted, and where it is on no disk', () => {
    const { capabilities } = extension().packageJSON as {
      capabilities: { untrustedWorkspaces: { supported: boolean }; virtualWorkspaces: boolean };
    };
    deepEqual(capabilities, { untrustedWorkspaces: { supported: true }, virtualWorkspaces: true });
    equal(setUri('crystal').scheme, 'file');
  });
});
