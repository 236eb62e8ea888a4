import type { Severity } from '@setwright/circuit';
import { plainStyles, type Styles } from '@setwright/report';

const ansi = (code: string) => (text: string) => `\u001b[${code}m${text}\u001b[0m`;

const colors: Readonly<Record<Severity, string>> = {
  error: '1;31',
  warning: '33',
  information: '36',
  hint: '2',
};

/** For a terminal. */
const colorStyles: Styles = {
  strong: ansi('1'),
  faint: ansi('2'),
  of: (severity, text) => ansi(colors[severity])(text),
};

/** Color only where a person looks on, and has not asked for none (NO_COLOR). */
export function stylesFor(stream: { readonly isTTY?: boolean }, env: NodeJS.ProcessEnv): Styles {
  return stream.isTTY && !env.NO_COLOR && env.TERM !== 'dumb' ? colorStyles : plainStyles;
}
