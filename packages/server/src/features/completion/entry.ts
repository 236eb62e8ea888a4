import type { CompletionItemKind } from 'vscode-languageserver-protocol';

/** Something that may stand at the cursor. */
export interface Entry {
  readonly label: string;
  readonly kind: CompletionItemKind;
  /** What it is, in a few words beside it. */
  readonly detail?: string;
  /** More of it, as Markdown. */
  readonly more?: string;
  /** What is put in, in the notation of snippet.ts; the label where not given. */
  readonly snippet?: string;
  /** What is put in as it stands; the label where not given. */
  readonly insert?: string;
}
