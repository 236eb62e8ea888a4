import type { Severity } from '@setwright/circuit';

/** How words are set off on a terminal; every function gives its text unchanged where none is. */
export interface Styles {
  readonly strong: (text: string) => string;
  readonly faint: (text: string) => string;
  readonly of: (severity: Severity, text: string) => string;
}

/** For a file or a pipe. */
export const plainStyles: Styles = {
  strong: (text) => text,
  faint: (text) => text,
  of: (_, text) => text,
};
