import type { ClientCapabilities, InitializeParams } from 'vscode-languageserver-protocol';

/** What the client can do, as far as the answers go by it. */
export interface Client {
  readonly takesSnippets: boolean;
  readonly takesLinks: boolean;
  readonly resolvesActions: boolean;
  readonly tellsSettings: boolean;
  readonly registersSettings: boolean;
  readonly registersWatching: boolean;
  /** Whether it may be asked for files that documents use. */
  readonly givesUsedTexts: boolean;
  readonly refreshesHints: boolean;
  readonly refreshesLenses: boolean;
  /** Folders of the workspace as it was opened. */
  readonly folders: readonly string[];
}

/** Reads what a client says of itself. */
export function clientFrom(params: InitializeParams): Client {
  const { workspace, textDocument }: ClientCapabilities = params.capabilities;
  const sent: unknown = params.initializationOptions;
  const folders = params.workspaceFolders?.map(({ uri }) => uri);
  return {
    takesSnippets: textDocument?.completion?.completionItem?.snippetSupport === true,
    takesLinks: textDocument?.definition?.linkSupport === true,
    resolvesActions: textDocument?.codeAction?.resolveSupport?.properties.includes('edit') === true,
    tellsSettings: workspace?.configuration === true,
    registersSettings: workspace?.didChangeConfiguration?.dynamicRegistration === true,
    registersWatching: workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    givesUsedTexts: typeof sent === 'object' && sent !== null && 'usedTexts' in sent,
    refreshesHints: workspace?.inlayHint?.refreshSupport === true,
    refreshesLenses: workspace?.codeLens?.refreshSupport === true,
    folders: folders ?? (params.rootUri ? [params.rootUri] : []),
  };
}
