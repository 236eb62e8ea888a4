import type { LayoutEngine, LayoutMemory } from '@setwright/diagram';
import { setPatterns } from '@setwright/language';
import {
  commands,
  type ExplainRequest,
  type Exported,
  type ExportRequest,
  type Page,
  type PageRequest,
  type PatternChoice,
  requests,
  type Sheet,
  type SheetRequest,
  type TextRequest,
} from '@setwright/webview';
import type { Connection } from 'vscode-languageserver';
import {
  type CallHierarchyItem,
  type CancellationToken,
  CodeLensRequest,
  ErrorCodes,
  InlayHintRequest,
  LinkedEditingRangeRequest,
  LSPErrorCodes,
  SemanticTokensRangeRequest,
  SemanticTokensRequest,
} from 'vscode-languageserver-protocol';
import { signalItemsAt, signalsInto, signalsOutOf } from '../features/call-hierarchy.ts';
import { codeActionsAt, fixAllAction } from '../features/code-actions.ts';
import { codeLenses } from '../features/code-lenses.ts';
import { completionAt, isInPath } from '../features/completion/completion.ts';
import { definitionAt, definitionLocations, referencesAt } from '../features/definition.ts';
import { wantedFindings } from '../features/diagnostics.ts';
import { documentLinks } from '../features/document-links.ts';
import { foldingRanges } from '../features/folding.ts';
import { formattingEdits, rangeFormattingEdits, typingEdits } from '../features/formatting.ts';
import { highlightsAt, linkedRangesAt } from '../features/highlights.ts';
import { hoverAt } from '../features/hover/hover.ts';
import { inlayHints } from '../features/inlay-hints.ts';
import { exportedPage, pageOf } from '../features/pages/page.ts';
import type { Draughtsman, PageSource } from '../features/pages/page-source.ts';
import { renamableAt, renameAt, renameRange } from '../features/rename.ts';
import { selectionRanges } from '../features/selection-ranges.ts';
import { semanticTokens } from '../features/semantic-tokens.ts';
import { serviceSheet } from '../features/sheet.ts';
import { documentSymbols, workspaceSymbols } from '../features/symbols.ts';
import type { Settings } from '../settings.ts';
import { librarySnapshot } from '../text/library.ts';
import { type Snapshot, snapshotOf } from '../text/snapshot.ts';
import { builtInText, checkPage, libraryUri } from '../texts.ts';
import type { Documents, OpenDocument } from '../work/documents.ts';
import { answering, type Conversation, notOpen, refusal } from './answering.ts';
import type { Client } from './client.ts';
import type { LensFigures } from './lens-figures.ts';
import { patienceWith } from './patience.ts';
import type { Platform } from './platform.ts';
import { workspaceFinder } from './workspace-files.ts';

/** What the answers are made from. */
export interface Serving {
  readonly conversation: Conversation;
  readonly documents: Documents;
  readonly lensFigures: LensFigures;
  readonly platform: Platform;
  readonly settings: () => Settings;
  readonly client: () => Client | undefined;
  /** Folders of the workspace as they are now. */
  readonly folders: ReadonlySet<string>;
}

interface OfDocument {
  readonly textDocument: { readonly uri: string };
}

/** Hands every request to the feature that answers it. */
export function answerRequests(connection: Connection, serving: Serving): void {
  const { conversation, documents, lensFigures, platform, settings, client, folders } = serving;
  const patience = patienceWith(documents);
  const findable = workspaceFinder(platform, documents);
  const documentOf = (uri: string): OpenDocument => {
    const open = documents.get(uri);
    if (open) return open;
    if (uri !== libraryUri) return notOpen(uri);
    return { uri, snapshot: librarySnapshot(), findings: [], lastWhole: undefined };
  };
  /** The documents that are open as they are now, and the others of the workspace as stored. */
  const allTexts = async (): Promise<readonly Snapshot[]> => {
    const open = documents.all().map(({ snapshot }) => snapshot);
    const isOpen = new Set(open.map(({ uri }) => uri));
    const stored = await platform.receiversIn([...folders]);
    return [
      ...open,
      ...stored.flatMap(({ uri, text }) =>
        isOpen.has(uri) ? [] : [snapshotOf(uri, 0, text, documents.reading)],
      ),
    ];
  };
  const answer = <P, R>(make: (params: P, token: CancellationToken) => R | Promise<R>) =>
    answering(conversation, make);
  /** The answer of a feature that needs no more than the text. */
  const at = <P extends OfDocument, R>(
    make: (document: OpenDocument, params: P) => R | Promise<R>,
  ) => answer((params: P) => make(documentOf(params.textDocument.uri), params));

  connection.onHover(
    at(
      ({ snapshot, lastWhole }, { position }) =>
        hoverAt({ snapshot, lastWhole, units: settings().units }, position) ?? null,
    ),
  );
  connection.onCompletion(
    at(async ({ snapshot }, { position, context }) =>
      completionAt(snapshot, position, {
        takesSnippets: client()?.takesSnippets === true,
        typed: context?.triggerCharacter,
        files: isInPath(snapshot, position) ? (await allTexts()).map(({ uri }) => uri) : [],
      }),
    ),
  );
  connection.onDefinition(
    at(({ snapshot }, { position }) =>
      client()?.takesLinks
        ? definitionAt(snapshot, position)
        : definitionLocations(snapshot, position),
    ),
  );
  connection.onReferences(
    at(({ snapshot }, { position, context }) =>
      referencesAt(snapshot, position, context.includeDeclaration),
    ),
  );
  connection.onDocumentHighlight(
    at(({ snapshot }, { position }) => highlightsAt(snapshot, position)),
  );
  connection.onRequest(
    LinkedEditingRangeRequest.type,
    at(({ snapshot }, { position }) => linkedRangesAt(snapshot, position) ?? null),
  );
  connection.onDocumentSymbol(at(({ snapshot }) => documentSymbols(snapshot)));
  connection.onWorkspaceSymbol(
    answer(async ({ query }) => workspaceSymbols(await findable([...folders]), query)),
  );
  connection.onPrepareRename(
    at(({ snapshot }, { position }) => {
      const renamable = renamableAt(snapshot, position);
      return renamable.ok ? renameRange(snapshot, renamable) : refusal(renamable.why);
    }),
  );
  connection.onRenameRequest(
    at(async ({ snapshot }, { position, newName }) => {
      const renamed = renameAt(snapshot, position, newName.trim(), await allTexts());
      return renamed.ok ? renamed.edit : refusal(renamed.why);
    }),
  );
  connection.onFoldingRanges(at(({ snapshot }) => foldingRanges(snapshot)));
  connection.onSelectionRanges(
    at(({ snapshot }, { positions }) => selectionRanges(snapshot, positions)),
  );
  connection.languages.callHierarchy.onPrepare(
    at(({ snapshot }, { position }) => {
      const items = signalItemsAt(snapshot, position);
      return items.length > 0 ? items : null;
    }),
  );
  const ofItem = <R>(make: (document: OpenDocument, item: CallHierarchyItem) => R) =>
    answer(({ item }: { item: CallHierarchyItem }) => make(documentOf(item.uri), item));
  connection.languages.callHierarchy.onIncomingCalls(
    ofItem(({ snapshot }, item) => signalsInto(snapshot, item)),
  );
  connection.languages.callHierarchy.onOutgoingCalls(
    ofItem(({ snapshot }, item) => signalsOutOf(snapshot, item)),
  );
  connection.onDocumentFormatting(at(({ snapshot }) => formattingEdits(snapshot)));
  connection.onDocumentRangeFormatting(
    at(({ snapshot }, { range }) => rangeFormattingEdits(snapshot, range)),
  );
  connection.onDocumentOnTypeFormatting(
    at(({ snapshot }, { position, ch }) => typingEdits(snapshot, position, ch)),
  );
  connection.onDocumentLinks(at(({ snapshot }) => documentLinks(snapshot)));
  connection.onRequest(
    SemanticTokensRequest.type,
    at(({ snapshot }) => semanticTokens(snapshot)),
  );
  connection.onRequest(
    SemanticTokensRangeRequest.type,
    at(({ snapshot }, { range }) => semanticTokens(snapshot, range)),
  );
  connection.onCodeAction(
    at(({ snapshot, findings }, { range, context }) =>
      codeActionsAt(snapshot, findings, settings(), {
        range,
        only: context.only,
        resolves: client()?.resolvesActions === true,
      }),
    ),
  );
  connection.onCodeActionResolve(
    answer((action) => {
      const data = action.data as { fixAll?: unknown } | undefined;
      if (typeof data?.fixAll !== 'string') return action;
      const { snapshot } = documentOf(data.fixAll);
      return fixAllAction(action, snapshot, settings())[0] ?? action;
    }),
  );
  connection.onRequest(
    InlayHintRequest.type,
    answer(async ({ textDocument: { uri }, range }, token) => {
      documentOf(uri);
      const document = documents.get(uri) ? await patience.numbers(uri, token) : documentOf(uri);
      return patience.reckon(uri, () => inlayHints(document, range, settings()));
    }),
  );
  connection.onRequest(
    CodeLensRequest.type,
    answer(async ({ textDocument: { uri } }, token) => {
      if (!documents.get(uri)) {
        documentOf(uri);
        return [];
      }
      const { snapshot, lastWhole } = await patience.numbers(uri, token);
      lensFigures.want(uri);
      const figures = lensFigures.of(snapshot);
      const { units } = settings();
      return patience.reckon(uri, () => codeLenses({ snapshot, lastWhole, figures, units }));
    }),
  );
  connection.onExecuteCommand(
    answer(({ command, arguments: args }) => {
      // For clients that have no command of this name and so hand it back.
      if (command !== commands.explain)
        return refusal(`The command ${command} is the client's.`, ErrorCodes.MethodNotFound);
      return explained(String(args?.[0]));
    }),
  );

  connection.onRequest(
    requests.text,
    answer(({ uri }: TextRequest): string => builtInText(uri) ?? refusal(`There is no ${uri}.`)),
  );
  connection.onRequest(
    requests.patterns,
    answer((): readonly PatternChoice[] =>
      setPatterns.map(({ name, title, words }) => ({ name, title, words })),
    ),
  );
  connection.onRequest(
    requests.explain,
    answer(({ check }: ExplainRequest): string => explained(check)),
  );
  const pages = pagesFrom(serving);
  connection.onRequest(
    requests.page,
    answer(
      (request: PageRequest): Promise<Page> =>
        pages(request.uri, (source) => pageOf(source, request)),
    ),
  );
  connection.onRequest(
    requests.export,
    answer(async (request: ExportRequest): Promise<Exported> => {
      const svg = await pages(request.uri, (source) => exportedPage(source, request));
      return svg === undefined ? refusal('This page has no picture.') : { svg };
    }),
  );
  connection.onRequest(
    requests.sheet,
    answer(async (request: SheetRequest): Promise<Sheet> => {
      const html = await pages(request.uri, (source) => serviceSheet(source, request));
      return html === undefined ? refusal('There is no receiver in this text.') : { html };
    }),
  );
}

function explained(check: string): string {
  return (
    checkPage(check) ?? refusal(`There is no check called ${check}.`, ErrorCodes.InvalidParams)
  );
}

type PageMaker = <T>(uri: string, make: (source: PageSource) => Promise<T>) => Promise<T>;

/** Makes pages of the latest text; one that is overtaken by an edit is refused. */
function pagesFrom({ documents, settings }: Serving): PageMaker {
  const memories = new Map<string, LayoutMemory>();
  let engine: LayoutEngine | undefined;
  const draughtsman = (): Promise<Draughtsman> => import('@setwright/diagram');
  return async (uri, make) => {
    if (!documents.get(uri)) notOpen(uri);
    await documents.settled(uri);
    const document = documents.get(uri) ?? notOpen(uri);
    const drawing = await draughtsman();
    const memory = memories.get(uri) ?? drawing.layoutMemory();
    memories.set(uri, memory);
    for (const kept of memories.keys()) if (!documents.get(kept)) memories.delete(kept);
    const { snapshot, lastWhole, findings } = document;
    const made = await make({
      snapshot,
      lastWhole,
      findings: wantedFindings(findings, settings()),
      units: settings().units,
      drawings: {
        draughtsman,
        memory,
        engine: ({ layoutEngine }) => {
          engine ??= layoutEngine();
          return engine;
        },
      },
    });
    if (documents.get(uri)?.snapshot !== snapshot)
      refusal('The text has changed in the meantime.', LSPErrorCodes.ContentModified);
    return made;
  };
}
