import {
  CodeActionKind,
  PositionEncodingKind,
  type ServerCapabilities,
  TextDocumentSyncKind,
} from 'vscode-languageserver-protocol';
import { tokenLegend } from '../features/semantic-tokens.ts';

/** What the server can do. */
export const capabilities: ServerCapabilities = {
  positionEncoding: PositionEncodingKind.UTF16,
  textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
  hoverProvider: true,
  completionProvider: { triggerCharacters: ['.', ' ', '"'] },
  definitionProvider: true,
  referencesProvider: true,
  documentHighlightProvider: true,
  documentSymbolProvider: true,
  workspaceSymbolProvider: true,
  renameProvider: { prepareProvider: true },
  linkedEditingRangeProvider: true,
  foldingRangeProvider: true,
  selectionRangeProvider: true,
  callHierarchyProvider: true,
  documentFormattingProvider: true,
  documentRangeFormattingProvider: true,
  documentOnTypeFormattingProvider: {
    firstTriggerCharacter: '}',
    moreTriggerCharacter: ['\n'],
  },
  codeActionProvider: {
    codeActionKinds: [CodeActionKind.QuickFix, `${CodeActionKind.SourceFixAll}.setwright`],
    resolveProvider: true,
  },
  codeLensProvider: {},
  inlayHintProvider: true,
  documentLinkProvider: {},
  semanticTokensProvider: { legend: tokenLegend, full: true, range: true },
  workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
};
