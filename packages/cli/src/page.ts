import { type Styles, wrapped } from '@setwright/report';

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
