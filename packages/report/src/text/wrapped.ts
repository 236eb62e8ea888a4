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
