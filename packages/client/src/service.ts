import { type Changed, notifications } from '@setwright/webview';
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
const patience = 20_000;
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

  const options: LanguageClientOptions = {
    documentSelector,
    outputChannel: log,
    traceOutputChannel: log,
    // What goes wrong is said by `complain`, once and with what to do about it.
    revealOutputChannelOn: RevealOutputChannelOn.Never,
    initializationFailedHandler: (error) => {
      log.error('The server would not begin.', error);
      return false;
    },
    errorHandler: {
      error: (error) => {
        log.error('Trouble with the connection to the server.', error);
        return { action: ErrorAction.Continue, handled: true };
      },
      closed: () => {
        const now = Date.now();
        deaths = [...deaths.filter((at) => now - at < restartsWithin), now];
        if (deaths.length <= restartsAllowed) {
          log.warn(`The server stopped and is started again (${deaths.length}).`);
          say('starting');
          return { action: CloseAction.Restart, handled: true };
        }
        void complain('The language server stopped five times in three minutes.');
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
  };

  async function start(): Promise<void> {
    say('starting');
    attempts += 1;
    const attempt = attempts;
    const isLatest = (): boolean => attempt === attempts;
    try {
      const mine = await make(context, options);
      if (!isLatest()) return;
      client = mine;
      mine.onDidChangeState(({ newState }) => {
        if (!isLatest() || newState !== State.Running) return;
        say('ready');
        ready.fire();
      });
      mine.onNotification(notifications.changed, (each: Changed) => changed.fire(each));
      await mine.start();
      if (!isLatest()) return;
      say('ready');
      log.info('The server is ready.');
    } catch (error) {
      log.error(`${error}`);
      if (isLatest()) void complain('The language server could not be started.');
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
      const asked = client;
      if (!asked) throw new Error(notRunning);
      const giveUp = new CancellationTokenSource();
      const timer = setTimeout(() => giveUp.cancel(), patience);
      try {
        return await asked.sendRequest(request, parameters, giveUp.token);
      } catch (error) {
        throw asked.isRunning() ? error : new Error(notRunning);
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
