import { spawnSync } from 'node:child_process';
import { join } from 'node:path';

const root = join(import.meta.dirname, '../..');

/** A command that a page shows, with what it is said to print. */
export interface Shown {
  readonly args: readonly string[];
  readonly output: string;
}

/** The commands of the tool that a page of Markdown shows with their output. */
export function shownIn(page: string): readonly Shown[] {
  return [...page.matchAll(/```console\n\$ setwright (.*)\n([\s\S]*?)```/g)].map(
    ([, line = '', output = '']) => ({ args: argumentsIn(line), output }),
  );
}

/** Words of a command line; double quotes hold words together. */
function argumentsIn(line: string): readonly string[] {
  return (line.match(/"[^"]*"|\S+/g) ?? []).map((word) => word.replaceAll('"', ''));
}

/** What the tool prints in a folder. */
export function printed(args: readonly string[], cwd: string): string {
  const run = spawnSync(process.execPath, [join(root, 'dist/setwright.cjs'), ...args], {
    cwd,
    encoding: 'utf8',
  });
  return run.stdout;
}

/** The line of a page that stands for lines left out. */
const LEFT_OUT = '…\n';

/**
 * What is really printed, in the shape in which a page shows it: where the page leaves lines out,
 * they are left out, as far as the lines about them are still there.
 */
export function asShown(real: string, shown: string): string {
  const pieces = shown.split(new RegExp(`(?<=^|\n)${LEFT_OUT}`));
  if (pieces.every((piece) => piece === '')) return real;
  let at = 0;
  for (const [index, piece] of pieces.entries()) {
    const found = real.indexOf(piece, at);
    const isFirst = index === 0;
    if (found < 0 || (isFirst && found > 0)) return real;
    at = found + piece.length;
  }
  const isWhole = at === real.length || pieces.at(-1) === '';
  return isWhole ? shown : real;
}
