import { visible } from './visible.ts';

/** Text that Markdown takes as it is, on one line. */
export function plain(text: string): string {
  return visible(text.replace(/\s+/g, ' '))
    .replace(/[\\`*_[\]<>|#~&]/g, (letter) => `\\${letter}`)
    .replace(/^([-+]|\d+[.)])(?= )/, '\\$1');
}
