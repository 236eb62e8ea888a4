import { type Choice, keptFrom } from '@setwright/webview';
import { type Disposable, type TextEditor, ViewColumn, window, workspace } from 'vscode';
import { isReceiver } from '../documents.ts';
import type { Against } from './older-text.ts';
import { type PanelNeeds, type PreviewPanel, previewPanel } from './panel.ts';

const viewType = 'setwright.preview';

/** All previews. */
export interface Panels extends Disposable {
  /** Shows a page of a file, in the preview that is there or in a new one. */
  open(wish: {
    readonly uri: string;
    readonly choice?: Partial<Choice>;
    readonly beside: boolean;
    readonly against?: Against;
  }): PreviewPanel;
  /** The preview that a person would mean: the one before them, else any of this file. */
  meant(uri: string | undefined): PreviewPanel | undefined;
}

/** What a new preview shows, as the user has set it. */
function usualChoice(): Choice {
  const settings = workspace.getConfiguration('setwright');
  return {
    page: 'diagram',
    receiver: 0,
    view: 'whole',
    symbols: settings.get('diagram.symbols') === 'period' ? 'period' : 'modern',
    values: settings.get('diagram.values') === true,
  };
}

/** Keeps the previews in step with the editors and the server. */
export function makePanels(needs: PanelNeeds): Panels {
  const { service, log } = needs;
  const panels = new Set<PreviewPanel>();

  function adopt(panel: PreviewPanel): PreviewPanel {
    panels.add(panel);
    panel.onClosed(() => panels.delete(panel));
    follow(window.activeTextEditor);
    return panel;
  }

  const about = (uri: string): readonly PreviewPanel[] =>
    [...panels].filter((panel) => panel.uri() === uri);

  /** Previews that are not pinned go where the writer goes. */
  function follow(editor: TextEditor | undefined): void {
    if (!editor || !isReceiver(editor.document)) return;
    const uri = editor.document.uri.toString();
    for (const panel of panels) {
      if (!panel.isPinned() && panel.uri() !== uri) panel.show({ uri });
    }
    for (const panel of about(uri)) panel.follow(editor.selection.active);
  }

  const subscriptions: Disposable[] = [
    window.onDidChangeActiveTextEditor(follow),
    window.onDidChangeTextEditorSelection(({ textEditor, selections: [first] }) => {
      if (!first) return;
      for (const panel of about(textEditor.document.uri.toString())) panel.follow(first.active);
    }),
    service.onChanged(({ uri }) => {
      for (const panel of about(uri)) panel.refresh();
    }),
    service.onReady(() => {
      for (const panel of panels) panel.refresh();
    }),
    // What it is compared with has changed.
    workspace.onDidSaveTextDocument(({ uri }) => {
      for (const panel of about(uri.toString())) {
        if (panel.choice().page === 'compare') panel.refresh();
      }
    }),
    window.registerWebviewPanelSerializer(viewType, {
      deserializeWebviewPanel: async (panel, state: unknown) => {
        const kept = keptFrom(state);
        if (!kept || kept.uri === '') {
          log.warn('A preview could not be opened again: nothing is known of it.');
          panel.dispose();
          return;
        }
        adopt(previewPanel(needs, panel, kept));
      },
    }),
  ];

  const meant = (uri: string | undefined): PreviewPanel | undefined => {
    const all = [...panels];
    return (
      all.find((panel) => panel.isActive()) ??
      all.find((panel) => panel.uri() === uri) ??
      (uri === undefined ? all[0] : undefined)
    );
  };

  return {
    meant,
    open: ({ uri, choice, beside, against }) => {
      const there =
        [...panels].find((panel) => panel.uri() === uri) ??
        [...panels].find((panel) => !panel.isPinned());
      if (there) {
        there.show({ uri, ...(choice ? { choice } : {}), ...(against ? { against } : {}) });
        there.bringForward();
        return there;
      }
      const panel = window.createWebviewPanel(
        viewType,
        'Setwright',
        { viewColumn: beside ? ViewColumn.Beside : ViewColumn.Active, preserveFocus: beside },
        { enableScripts: true },
      );
      const made = adopt(
        previewPanel(needs, panel, {
          uri,
          choice: { ...usualChoice(), ...choice },
          pinned: false,
        }),
      );
      if (against) made.show({ against });
      return made;
    },
    dispose: () => {
      for (const each of [...subscriptions, ...panels]) each.dispose();
    },
  };
}
