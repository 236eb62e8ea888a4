import type { Connection } from 'vscode-languageserver';
import {
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  DidChangeWorkspaceFoldersNotification,
} from 'vscode-languageserver-protocol';
import { type Settings, settingsFrom, usualSettings } from '../settings.ts';
import { version } from '../version.ts';
import { documentsIn } from '../work/documents.ts';
import type { Conversation } from './answering.ts';
import { answerRequests } from './answers.ts';
import { capabilities } from './capabilities.ts';
import { type Client, clientFrom } from './client.ts';
import { lensFiguresFor } from './lens-figures.ts';
import type { Platform } from './platform.ts';
import { publishingOn } from './publishing.ts';
import { usedTextsFrom } from './used-texts.ts';

/** Serves one client over a connection until it ends. */
export function serve(connection: Connection, platform: Platform): void {
  const conversation: Conversation = { state: 'before' };
  let client: Client | undefined;
  let settings: Settings = usualSettings;
  const folders = new Set<string>();
  const publishing = publishingOn(connection, () => settings);
  const documents = documentsIn({
    pause: platform.pause,
    quiet: platform.quiet,
    told: publishing.found,
    used: (uri) => usedTexts.of(uri),
    failed: (error) => connection.console.error(`setwright: ${wordsOf(error)}`),
  });
  const usedTexts = usedTextsFrom(
    connection,
    platform,
    () => client,
    (uri) => documents.stored(uri),
  );
  const refresh = (): void => {
    if (conversation.state !== 'open') return;
    // A client that has gone in the meantime need not be told.
    if (client?.refreshesHints) void connection.languages.inlayHint.refresh().catch(() => {});
    if (client?.refreshesLenses)
      void connection.sendRequest('workspace/codeLens/refresh').catch(() => {});
  };
  const lensFigures = lensFiguresFor(documents, platform.quiet, platform.pause, refresh);
  const take = (sent: unknown): void => {
    settings = settingsFrom(sent);
    for (const document of documents.all()) publishing.again(document);
    refresh();
  };
  const fetchSettings = async (): Promise<void> => {
    if (client?.tellsSettings) take(await connection.workspace.getConfiguration('setwright'));
  };
  const fetchQuietly = (): void => {
    fetchSettings().catch((error) =>
      connection.console.warn(`setwright: no settings (${wordsOf(error)})`),
    );
  };

  connection.onInitialize((params) => {
    client = clientFrom(params);
    conversation.state = 'open';
    for (const folder of client.folders) folders.add(folder);
    const sent: unknown = params.initializationOptions;
    if (typeof sent === 'object' && sent !== null && 'setwright' in sent)
      settings = settingsFrom(sent.setwright);
    return { capabilities, serverInfo: { name: 'setwright', version } };
  });
  connection.onInitialized(() => {
    if (client?.registersSettings)
      void connection.client
        .register(DidChangeConfigurationNotification.type, { section: 'setwright' })
        .catch(() => {});
    if (client?.registersWatching)
      void connection.client
        .register(DidChangeWatchedFilesNotification.type, {
          watchers: [{ globPattern: '**/*.receiver' }],
        })
        .catch(() => {});
    fetchQuietly();
  });
  connection.onDidChangeConfiguration(({ settings: sent }) => {
    if (client?.tellsSettings) fetchQuietly();
    else if (typeof sent === 'object' && sent !== null && 'setwright' in sent)
      take((sent as { setwright: unknown }).setwright);
  });
  connection.onNotification(DidChangeWorkspaceFoldersNotification.type, ({ event }) => {
    for (const { uri } of event.removed) folders.delete(uri);
    for (const { uri } of event.added) folders.add(uri);
  });
  connection.onDidChangeWatchedFiles(({ changes }) => {
    for (const { uri } of changes) {
      usedTexts.forget(uri);
      documents.stored(uri);
    }
  });
  connection.onShutdown(() => {
    conversation.state = 'shut';
    for (const { uri } of documents.all()) documents.close(uri);
  });

  connection.onDidOpenTextDocument(({ textDocument: { uri, version: number, text } }) => {
    if (conversation.state === 'open') documents.open(uri, number, text);
  });
  connection.onDidChangeTextDocument(
    ({ textDocument: { uri, version: number }, contentChanges }) => {
      if (conversation.state !== 'open') return;
      if (!documents.change(uri, number, contentChanges))
        connection.console.warn(`setwright: a change of ${uri}, which is not open`);
    },
  );
  connection.onDidCloseTextDocument(({ textDocument: { uri } }) => {
    if (!documents.get(uri)) return;
    documents.close(uri);
    lensFigures.forget(uri);
    publishing.closed(uri);
  });

  answerRequests(connection, {
    conversation,
    documents,
    lensFigures,
    platform,
    settings: () => settings,
    client: () => client,
    folders,
  });
  connection.listen();
}

const wordsOf = (error: unknown): string =>
  error instanceof Error ? (error.stack ?? error.message) : String(error);
