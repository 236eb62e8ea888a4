import {
  type Choice,
  type FromPreview,
  heardByClient,
  isPage,
  type Page,
  type PageRequest,
  previewHtml,
  requests,
  type ToPreview,
} from '@setwright/webview';
import {
  type Disposable,
  type ExtensionContext,
  type LogOutputChannel,
  type Position,
  Uri,
  type WebviewPanel,
  workspace,
} from 'vscode';
import { fileName } from '../documents.ts';
import type { Service } from '../service.ts';
import { keepDrawing, type Points } from './keep-drawing.ts';
import { type Against, olderText } from './older-text.ts';
import { oneAtATime } from './one-at-a-time.ts';
import { partsAt } from './parts-at.ts';
import { reveal } from './reveal.ts';

/** One preview beside the editor. */
export interface PreviewPanel extends Disposable {
  uri(): string;
  choice(): Choice;
  isPinned(): boolean;
  isActive(): boolean;
  /** Shows another file, or another page of the same. */
  show(change: {
    readonly uri?: string;
    readonly choice?: Partial<Choice>;
    readonly against?: Against;
  }): void;
  /** The page may be out of date: asks for it anew. */
  refresh(): void;
  /** The cursor of the source went there. */
  follow(at: Position): void;
  bringForward(): void;
  onClosed(listen: () => void): void;
  /** Has a drawing turned into points by the preview's page. */
  readonly points: Points;
}

export interface PanelNeeds {
  readonly context: ExtensionContext;
  readonly service: Service;
  readonly log: LogOutputChannel;
}

/** Codes of the protocol for "ask again later": cancelled, or the text has moved on. */
const passing = new Set([-32800, -32801, -32802]);

/** What came of a drawing that was to be turned into points. */
type Answered = Pick<Extract<FromPreview, { kind: 'points' }>, 'png' | 'trouble'>;

const wentAway = 'The preview was put away in the meantime.';

/** A hidden preview is given so many milliseconds to come up. */
const patience = 15_000;

const codeOf = (error: unknown): number | undefined =>
  (error as { readonly code?: number } | undefined)?.code;

const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : `${error}`);

const pageWords: Readonly<Record<Page['page'], string>> = {
  diagram: 'diagram',
  dials: 'dial chart',
  response: 'response',
  bench: 'bench chart',
  tour: 'tour',
  compare: 'comparison',
};

function nonce(): string {
  const signs = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789';
  const bytes = crypto.getRandomValues(new Uint8Array(24));
  return Array.from(bytes, (byte) => signs[byte % signs.length]).join('');
}

/** What a preview shows, and on which panel of the editor. */
export function previewPanel(
  needs: PanelNeeds,
  panel: WebviewPanel,
  first: { readonly uri: string; readonly choice: Choice; readonly pinned: boolean },
): PreviewPanel {
  const { context, service, log } = needs;
  let { uri, choice, pinned } = first;
  let against: Against | undefined;
  let page: Page | undefined;
  /** The very choice that `page` was made for. */
  let madeFor: Choice | undefined;
  let listens = false;
  let cursor: Position | undefined;
  const waiting = new Map<number, (answer: Answered) => void>();
  let lastId = 0;
  /** The number of the last choice that the preview told of. */
  let heard = 0;
  const onListening = new Set<() => void>();

  const file = (path: string): Uri => Uri.joinPath(context.extensionUri, path);
  panel.iconPath = {
    light: file('packages/client/media/preview-light.svg'),
    dark: file('packages/client/media/preview-dark.svg'),
  };
  panel.webview.options = { enableScripts: true, localResourceRoots: [file('dist')] };
  panel.webview.html = previewHtml({
    cspSource: panel.webview.cspSource,
    nonce: nonce(),
    script: panel.webview.asWebviewUri(file('dist/webview.js')).toString(),
    style: panel.webview.asWebviewUri(file('dist/webview.css')).toString(),
  });

  const post = (message: ToPreview): void => {
    if (listens) void panel.webview.postMessage(message);
  };

  function postSubject(): void {
    const title = fileName(Uri.parse(uri));
    panel.title = `${title}: ${pageWords[choice.page]}`;
    post({ kind: 'subject', uri, title, choice, pinned, heard });
  }

  function postLit(): void {
    if (page && cursor) post({ kind: 'lit', uri, parts: partsAt(page.parts, cursor) });
  }

  const wanted = async (): Promise<PageRequest> => {
    const older = choice.page === 'compare' ? await olderText(uri, against) : undefined;
    return { uri, ...choice, ...(older ? { against: older } : {}) };
  };

  async function askOnce(): Promise<void> {
    const about = uri;
    const asked = choice;
    try {
      // After a reload of the window nobody else may have opened the text.
      await workspace.openTextDocument(Uri.parse(about, true));
      const answer = await service.ask(requests.page, await wanted());
      if (!isPage(answer)) throw new Error('The server gave no page.');
      // Whoever chose something else in the meantime has also asked for it.
      if (about !== uri || asked !== choice) return;
      if (answer.receiver !== choice.receiver || answer.view !== choice.view) {
        // The server knows better which receivers and views there are.
        choice = { ...choice, receiver: answer.receiver, view: answer.view };
        postSubject();
      }
      page = answer;
      madeFor = choice;
      post({ kind: 'page', page: answer, heard });
      postLit();
    } catch (error) {
      if (about !== uri || asked !== choice) return;
      if (passing.has(codeOf(error) ?? 0)) return;
      log.error(`No page of ${about}: ${wordsOf(error)}`);
      post({ kind: 'failed', uri, message: wordsOf(error) });
    }
  }

  const refresh = oneAtATime(askOnce, () => listens);

  function revealPart(part: string, stay: boolean): void {
    const range = page?.parts[part]?.range;
    if (!range) return;
    reveal(uri, range, panel.viewColumn, stay).then(undefined, (error: unknown) =>
      log.error(`The line of ${part} cannot be shown: ${wordsOf(error)}`),
    );
  }

  /** Resolves once the preview's page is there to hear; brings it forward where it is hidden. */
  const listening = (): Promise<void> =>
    new Promise((resolve, reject) => {
      if (listens) return resolve();
      const timer = setTimeout(() => {
        onListening.delete(come);
        reject(new Error('The preview does not come forward.'));
      }, patience);
      const come = (): void => {
        clearTimeout(timer);
        resolve();
      };
      onListening.add(come);
      panel.reveal(undefined, true);
    });

  const points: Points = async (svg, to) => {
    await listening();
    // The clipboard is given to the page that has the keys.
    if (to === 'clipboard') panel.reveal(undefined, false);
    return new Promise((resolve, reject) => {
      lastId += 1;
      waiting.set(lastId, ({ png, trouble }) => {
        if (trouble === undefined) resolve(png);
        else reject(new Error(trouble));
      });
      post({ kind: 'points', id: lastId, svg, to });
    });
  };

  function hear(message: FromPreview): void {
    switch (message.kind) {
      case 'ready':
        listens = true;
        heard = 0;
        postSubject();
        if (page && madeFor === choice) post({ kind: 'page', page, heard });
        postLit();
        refresh();
        for (const each of waiting.values()) each({ png: undefined, trouble: wentAway });
        waiting.clear();
        for (const come of onListening) come();
        onListening.clear();
        return;
      case 'choose':
        ({ choice, id: heard } = message);
        against = undefined;
        postSubject();
        refresh();
        return;
      case 'pin':
        ({ pinned } = message);
        return;
      case 'reveal':
        if (message.uri === uri) revealPart(message.part, message.stay);
        return;
      case 'export':
        void wanted().then((request) => keepDrawing(service, request, message.format, points));
        return;
      case 'points':
        waiting.get(message.id)?.(message);
        waiting.delete(message.id);
        return;
      case 'trouble':
        log.error(`In the preview: ${message.message}`);
    }
  }

  const subscriptions: Disposable[] = [
    panel.webview.onDidReceiveMessage((raw: unknown) => {
      const message = heardByClient(raw);
      if (message) hear(message);
      else log.warn('The preview said something that makes no sense.');
    }),
    // Hidden, its page is gone; shown again, it says that it listens.
    panel.onDidChangeViewState(() => {
      if (!panel.visible) listens = false;
    }),
  ];

  return {
    uri: () => uri,
    choice: () => choice,
    isPinned: () => pinned,
    isActive: () => panel.active,
    points,
    show: (change) => {
      if (change.uri !== undefined && change.uri !== uri) {
        ({ uri } = change);
        page = undefined;
        cursor = undefined;
        choice = { ...choice, receiver: 0 };
      }
      choice = { ...choice, ...change.choice };
      against = change.against;
      postSubject();
      refresh();
    },
    refresh: () => void refresh(),
    follow: (at) => {
      cursor = at;
      postLit();
    },
    bringForward: () => panel.reveal(undefined, true),
    onClosed: (listen) => subscriptions.push(panel.onDidDispose(listen)),
    dispose: () => {
      for (const each of subscriptions) each.dispose();
      panel.dispose();
    },
  };
}
