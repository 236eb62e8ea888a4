import type { Styles } from './styles.ts';

/** A page in Markdown as it reads on a terminal: headings set off, long lines wrapped. */
export function pageForTerminal(markdown: string, columns: number, styles: Styles): string {
  const width = Math.max(40, Math.min(columns, 88));
  const out: string[] = [];
  let quoting = false;
  for (const line of markdown.trimEnd().split('\n')) {
    if (line.startsWith('```')) quoting = !quoting;
    else if (quoting) out.push(line === '' ? '' : `    ${line}`);
    else if (line.startsWith('#')) out.push(styles.strong(line.replace(/^#+\s*/, '')));
    else out.push(...wrapped(line, width));
  }
  return `${out.join('\n')}\n`;
}

/** A paragraph in lines of at most so many columns; items of a list are set in below their mark. */
export function wrapped(paragraph: string, width: number, indent = ''): string[] {
  const inner = paragraph.startsWith('- ') ? `${indent}  ` : indent;
  const lines: string[] = [];
  let line = '';
  for (const word of paragraph.split(' ')) {
    if (line !== '' && line.length + 1 + word.length > width) {
      lines.push(line);
      line = `${inner}${word}`;
    } else line = line === '' ? `${indent}${word}` : `${line} ${word}`;
  }
  return [...lines, line];
}
