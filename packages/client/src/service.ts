import { type Changed, notifications, requests, type UsedTextRequest } from '@setwright/webview';
import {
  CancellationTokenSource,
  type Disposable,
  EventEmitter,
  type ExtensionContext,
  LanguageStatusSeverity,
  type LogOutputChannel,
  languages,
  window,
} from 'vscode';
import {
  type BaseLanguageClient,
  CloseAction,
  ErrorAction,
  type LanguageClientOptions,
  RevealOutputChannelOn,
  State,
} from 'vscode-languageclient';
import { documentSelector, isWritten } from './documents.ts';
import { usedText } from './used-text.ts';

/** Makes a client that is joined to a server; how depends on where the editor runs. */
export type MakeClient = (
  context: ExtensionContext,
  options: LanguageClientOptions,
) => Promise<BaseLanguageClient>;

/** The server as the rest of the client sees it. */
export interface Service extends Disposable {
  start(): Promise<void>;
  restart(): Promise<void>;
  /** Asks the server; rejects when it cannot answer. */
  ask(request: string, parameters: unknown): Promise<unknown>;
  /** Pages of a document are out of date. */
  onChanged(listen: (changed: Changed) => void): Disposable;
  /** The server came up (again): what was asked before may be asked anew. */
  onReady(listen: () => void): Disposable;
}

const restartsAllowed = 4;
const restartsWithin = 3 * 60_000;
/** Milliseconds; what takes longest is the response of a large set on a busy machine. */
const patience = 60_000;
const tooSlow = `The language server has not answered for ${patience / 1000} seconds.`;
const notRunning = 'The language server is not running; its log tells why.';

/** Starts, watches and restarts the language server, and says in the log what became of it. */
export function makeService(
  context: ExtensionContext,
  make: MakeClient,
  log: LogOutputChannel,
): Service {
  const changed = new EventEmitter<Changed>();
  const ready = new EventEmitter<void>();
  const status = languages.createLanguageStatusItem('setwright.server', documentSelector);
  status.name = 'Setwright';
  let client: BaseLanguageClient | undefined;
  let deaths: number[] = [];
  let attempts = 0;
  let wasReady = false;
  /** Resolves once the start that is under way has come to an end, good or bad. */
  let starting = Promise.resolve();

  function say(state: 'starting' | 'ready' | 'stopped', why = ''): void {
    status.busy = state === 'starting';
    status.severity =
      state === 'stopped' ? LanguageStatusSeverity.Error : LanguageStatusSeverity.Information;
    status.text = {
      starting: 'Setwright starts',
      ready: 'Setwright',
      stopped: 'Setwright stopped',
    }[state];
    status.detail = why;
    status.command =
      state === 'stopped'
        ? { title: 'Start again', command: 'setwright.restartServer' }
        : { title: 'Log', command: 'setwright.showLog' };
  }

  /** A clear word, once, with the two things that can be done about it. */
  async function complain(why: string): Promise<void> {
    log.error(why);
    say('stopped', why);
    const again = 'Start Again';
    const show = 'Show Log';
    const chosen = await window.showErrorMessage(`Setwright: ${why}`, again, show);
    if (chosen === again) await restart();
    else if (chosen === show) log.show();
  }

  const optionsWith = (closed: () => void): LanguageClientOptions => ({
    documentSelector,
    initializationOptions: { usedTexts: true },
    outputChannel: log,
    traceOutputChannel: log,
    // What goes wrong is said by `complain`, once and with what to do about it.
    revealOutputChannelOn: RevealOutputChannelOn.Never,
    // A set may come from anybody: nothing in its words is a command or markup.
    markdown: { isTrusted: false, supportHtml: false },
    initializationFailedHandler: (error) => {
      log.error('The server would not begin.', error);
      return false;
    },
    errorHandler: {
      error: (error) => {
        log.error('Trouble with the connection to the server.', error);
        return { action: ErrorAction.Continue, handled: true };
      },
      // It is started again from here, and not by the client of old: that one loses its way when
      // the server dies a second time while it is still starting.
      closed: () => {
        closed();
        return { action: CloseAction.DoNotRestart, handled: true };
      },
    },
    middleware: {
      handleDiagnostics: (uri, diagnostics, next) =>
        next(uri, isWritten(uri.scheme) ? diagnostics : []),
      provideDiagnostics: (document, previous, token, next) => {
        const uri = 'uri' in document ? document.uri : document;
        return isWritten(uri.scheme)
          ? next(document, previous, token)
          : { kind: 'full' as never, items: [] };
      },
    },
  });

  /** The server of a client is gone, however that came; told of several times it counts once. */
  function died(mine: BaseLanguageClient): void {
    if (client !== mine) return;
    client = undefined;
    const now = Date.now();
    deaths = [...deaths.filter((at) => now - at < restartsWithin), now];
    mine.dispose(1000).catch((error) => log.debug(`The old client would not go: ${error}`));
    if (deaths.length <= restartsAllowed) {
      log.warn(`The server stopped and is started again (${deaths.length}).`);
      void start();
    } else if (wasReady) void complain('The language server stopped five times in three minutes.');
    else void complain('The language server could not be started.');
  }

  function start(): Promise<void> {
    starting = startOnce();
    return starting;
  }

  async function startOnce(): Promise<void> {
    say('starting');
    attempts += 1;
    const attempt = attempts;
    const isLatest = (): boolean => attempt === attempts;
    let mine: BaseLanguageClient | undefined;
    try {
      const made = await make(
        context,
        // Only once the client has done with it.
        optionsWith(() => setTimeout(() => died(made))),
      );
      if (!isLatest()) return;
      mine = made;
      client = made;
      // The client would also tell people of every failure by itself, over what `complain` says.
      const note = made.error.bind(made);
      made.error = (message, data) => note(message, data, false);
      made.onDidChangeState(({ newState }) => {
        if (!isLatest() || newState !== State.Running) return;
        say('ready');
        ready.fire();
      });
      made.onNotification(notifications.changed, (each: Changed) => changed.fire(each));
      made.onRequest(requests.usedText, ({ uri }: UsedTextRequest) => usedText(uri));
      await made.start();
      if (!isLatest()) return;
      // A start that failed for want of a server is one that ended, too.
      if (!made.isRunning()) {
        died(made);
        return;
      }
      wasReady = true;
      say('ready');
      log.info('The server is ready.');
    } catch (error) {
      log.error(`${error}`);
      if (!isLatest()) return;
      if (mine) died(mine);
      else void complain('The language server could not be started.');
    }
  }

  async function stop(): Promise<void> {
    const old = client;
    client = undefined;
    try {
      await old?.dispose(3000);
    } catch (error) {
      // One that never came up cannot be stopped either.
      log.debug(`The old server would not stop: ${error}`);
    }
  }

  async function restart(): Promise<void> {
    log.info('The server is started anew.');
    deaths = [];
    await stop();
    await start();
  }

  return {
    start,
    restart,
    onChanged: changed.event,
    onReady: ready.event,
    ask: async (request, parameters) => {
      // A preview may ask before the server is there, as after a reload of the window.
      await starting;
      const asked = client;
      if (!asked) throw new Error(notRunning);
      const giveUp = new CancellationTokenSource();
      const timer = setTimeout(() => giveUp.cancel(), patience);
      try {
        return await asked.sendRequest(request, parameters, giveUp.token);
      } catch (error) {
        if (!asked.isRunning()) throw new Error(notRunning);
        throw giveUp.token.isCancellationRequested ? new Error(tooSlow) : error;
      } finally {
        clearTimeout(timer);
        giveUp.dispose();
      }
    },
    dispose: () => {
      status.dispose();
      changed.dispose();
      ready.dispose();
      void stop();
    },
  };
}
