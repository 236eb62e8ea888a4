import type { TextDocument } from 'vscode';

export const languageId = 'setwright';

/** The scheme of texts that come with the tool: the tube library and the pages of the checks. */
export const ownScheme = 'setwright';

/** Where receivers are written: on disk, far away, in a repository, not saved yet. */
const writtenSchemes = [
  'file',
  'untitled',
  'vscode-remote',
  'vscode-vfs',
  'vscode-test-web',
  'memfs',
] as const;

/** Read, never written: the older side of a comparison, and what comes with the tool. */
const readSchemes = ['git', ownScheme] as const;

/** What the server looks at. */
export const documentSelector = [...writtenSchemes, ...readSchemes].map((scheme) => ({
  language: languageId,
  scheme,
}));

/** Whether a document is a receiver that someone works on. */
export const isReceiver = (document: TextDocument): boolean =>
  document.languageId === languageId && isWritten(document.uri.scheme);

/** Findings are told where they can be put right, and not beside an old version as well. */
export const isWritten = (scheme: string): boolean =>
  !(readSchemes as readonly string[]).includes(scheme);

/** The last part of a path, for people. */
export const fileName = ({ path }: { readonly path: string }): string =>
  path.slice(path.lastIndexOf('/') + 1) || path;
