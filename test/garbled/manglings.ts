/** Ways in which a line gets garbled: slips of the keyboard, half-typed words, lost signs. */
export const manglings: Readonly<Record<string, (line: string) => string>> = {
  'the first word is lost': (line) => line.replace(/^(\s*)\S+\s*/, '$1'),
  'the last word is lost': (line) => line.replace(/\s*\S+\s*$/, ''),
  'a word in the middle is lost': (line) =>
    overWords(line, (words) => words.toSpliced(middle(words), 1)),
  'the line is half typed': (line) =>
    line.slice(0, indentOf(line) + Math.ceil(line.trim().length / 2)),
  'signs without meaning stand in the middle': (line) =>
    overWords(line, (words) => words.toSpliced(middle(words), 0, '@@', '(;')),
  'the whole line is rubbish': (line) => `${' '.repeat(indentOf(line))}%% ?? !! = `,
  'a quotation mark is left open': (line) =>
    overWords(line, (words) => words.toSpliced(middle(words), 0, '"')),
  'two words change places': (line) =>
    overWords(line, (words) => {
      const at = middle(words);
      const [first, second] = [words[at], words[at + 1]];
      return first !== undefined && second !== undefined
        ? words.toSpliced(at, 2, second, first)
        : words;
    }),
  'a word is written twice': (line) =>
    overWords(line, (words) => words.toSpliced(middle(words), 0, words[middle(words)] ?? '')),
  'a letter of the first word is lost': (line) => line.replace(/^(\s*\S)\S/, '$1'),
  'a letter in the middle is lost': (line) => {
    const at = indentOf(line) + Math.floor(line.trim().length / 2);
    return line.slice(0, at) + line.slice(at + 1);
  },
  'a brace too many closes the line': (line) => `${line} }`,
  'a brace too many opens a block': (line) => `${line} {`,
  'the brace is lost': (line) => line.replace(/\s*[{}]\s*$/, ''),
};

const indentOf = (line: string) => line.length - line.trimStart().length;
const middle = (words: readonly string[]) => Math.floor(words.length / 2);

function overWords(line: string, change: (words: readonly string[]) => readonly string[]): string {
  const words = line.trim().split(/\s+/);
  return ' '.repeat(indentOf(line)) + change(words).join(' ');
}
