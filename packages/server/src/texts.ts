import { allChecks, pageOf } from '@setwright/checks';
import { setPatterns, tubeLibraryText } from '@setwright/language';

/** Where the tube library is shown, read-only. */
export const libraryUri = 'setwright:/tubes.receiver';

/** Where the page of a check is shown. */
export function checkPageUri(check: string): string {
  return `setwright:/checks/${check}.md`;
}

/** The page of a check as Markdown; undefined for a name that no check has. */
export function checkPage(check: string): string | undefined {
  const found = allChecks.find(({ id }) => id === check);
  return found && pageOf(found);
}

/** A text that comes with the tool, by its URI; undefined for any other. */
export function builtInText(uri: string): string | undefined {
  // Some clients write two or three slashes behind a scheme without an authority.
  const path = /^setwright:\/{0,3}([^/].*)$/.exec(uri)?.[1];
  if (path === 'tubes.receiver') return tubeLibraryText;
  const pattern = /^patterns\/([a-z-]+)\.receiver$/.exec(path ?? '')?.[1];
  if (pattern !== undefined) return setPatterns.find(({ name }) => name === pattern)?.text;
  const check = /^checks\/([a-z0-9-]+)\.md$/.exec(path ?? '')?.[1];
  return check === undefined ? undefined : checkPage(check);
}
