/** The text with numbers tied to their units, so that no line ends between them. */
export function together(text: string): string {
  return text.replace(
    /(\d) (?=(?:\d\/\d|%|[kM]?V|[mµ]?[AHVWFS]|k?Hz|kc|Mc|Ah|in|m?mfd|\w*ohms?)\b|%)/g,
    '$1\u00a0',
  );
}
