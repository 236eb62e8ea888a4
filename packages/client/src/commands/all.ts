import { exportFormats, isPageName, type PageName } from '@setwright/webview';
import { commands, type Disposable, type LogOutputChannel, Uri, window } from 'vscode';
import { isReceiver } from '../documents.ts';
import { keepDrawing } from '../preview/keep-drawing.ts';
import type { Against } from '../preview/older-text.ts';
import type { Panels } from '../preview/panels.ts';
import type { Service } from '../service.ts';
import { explainFinding } from './explain-finding.ts';
import { keepSheet } from './keep-sheet.ts';
import { newFromPattern } from './new-from-pattern.ts';
import { showReferences } from './show-references.ts';

interface Needs {
  readonly service: Service;
  readonly panels: Panels;
  readonly log: LogOutputChannel;
}

/** The receiver that a command is about: the one named, else the one being edited or previewed. */
function subjectOf(panels: Panels, given: unknown): string | undefined {
  if (given instanceof Uri) return given.toString();
  if (typeof given === 'string') return given;
  const editor = window.activeTextEditor;
  if (editor && isReceiver(editor.document)) return editor.document.uri.toString();
  const visible = window.visibleTextEditors.find(({ document }) => isReceiver(document));
  return panels.meant(undefined)?.uri() ?? visible?.document.uri.toString();
}

const formatWords = {
  'svg-light': 'SVG on white paper',
  'svg-dark': 'SVG on dark paper',
  'svg-transparent': 'SVG without paper',
  png: 'PNG picture',
  'copy-picture': 'Copy as a picture',
  'copy-svg': 'Copy as SVG text',
} as const;

/** Registers every command of the extension. */
export function commandsOf({ service, panels, log }: Needs): readonly Disposable[] {
  /** Runs with the receiver meant, or says that there is none. */
  const withSubject =
    (does: (uri: string) => unknown) =>
    (given?: unknown): unknown => {
      const uri = subjectOf(panels, given);
      return uri === undefined
        ? void window.showInformationMessage('Setwright: open a .receiver file first.')
        : does(uri);
    };
  const showing = (page: PageName, beside: boolean, against?: Against) =>
    withSubject((uri) => {
      panels.open({ uri, choice: { page }, beside, ...(against ? { against } : {}) });
    });

  const all: Readonly<Record<string, (...given: unknown[]) => unknown>> = {
    openDiagram: showing('diagram', false),
    openDiagramToSide: showing('diagram', true),
    showBench: showing('bench', true),
    showDials: showing('dials', true),
    showResponse: showing('response', true),
    startTour: showing('tour', true),
    compareSaved: showing('compare', true, 'saved'),
    compareCommitted: showing('compare', true, 'committed'),
    showPage: (uri, page, receiver, view) => {
      if (typeof uri !== 'string' || !isPageName(page)) return;
      panels.open({
        uri,
        beside: true,
        choice: {
          page,
          ...(typeof receiver === 'number' ? { receiver } : {}),
          ...(typeof view === 'string' ? { view } : {}),
        },
      });
    },
    exportDrawing: withSubject(async (uri) => {
      const items = exportFormats.map((format) => ({ label: formatWords[format], format }));
      const chosen = await window.showQuickPick(items, { title: 'Keep the drawing' });
      if (!chosen) return;
      // A picture of points is made by a preview, so one must be open.
      const panel = panels.meant(uri) ?? panels.open({ uri, beside: true });
      const page = { uri: panel.uri(), ...panel.choice() };
      await keepDrawing(service, page, chosen.format, panel.points);
    }),
    exportServiceSheet: withSubject((uri) => keepSheet(service, uri, panels.meant(uri))),
    explainFinding: (check) => explainFinding(check),
    newFromPattern: () => newFromPattern(service),
    showReferences: (uri, position, locations) => showReferences(uri, position, locations),
    restartServer: () => service.restart(),
    showLog: () => log.show(),
  };
  return Object.entries(all).map(([name, does]) =>
    commands.registerCommand(`setwright.${name}`, does),
  );
}
