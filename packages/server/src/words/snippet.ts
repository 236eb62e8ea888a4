/**
 * Writes a snippet for the client. What stands in `<…>` is filled in by the user, in order; the
 * same words twice are filled in once. `<a|b>` is a choice, `<>` is where the cursor ends.
 */
export function snippetOf(words: string): string {
  const numbers = new Map<string, number>();
  return words
    .split(/(<[^<>]*>)/)
    .map((piece, index) => {
      if (index % 2 === 0) return escaped(piece);
      const inside = piece.slice(1, -1);
      if (inside === '') return '$0';
      const known = numbers.get(inside);
      if (known !== undefined) return `$${known}`;
      const number = numbers.size + 1;
      numbers.set(inside, number);
      const choices = inside.split('|');
      return choices.length > 1
        ? `\${${number}|${choices.map(escaped).join(',')}|}`
        : `\${${number}:${escaped(inside)}}`;
    })
    .join('');
}

/** The same for a client that takes plain text only. */
export function plainOf(words: string): string {
  return words.replace(/<([^<>|]*)[^<>]*>/g, '$1');
}

function escaped(text: string): string {
  return text.replace(/[\\$}]/g, '\\$&');
}
