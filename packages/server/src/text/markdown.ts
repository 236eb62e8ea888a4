/** A text as Markdown that shows as it is written. */
export function plainWords(text: string): string {
  return text.replace(/[\\`*_[\]<>#|~]/g, '\\$&').replace(/[\r\n]+/g, ' ');
}

/** A piece of a receiver's text, coloured where the client can. */
export function receiverCode(text: string): string {
  return ['```setwright', text, '```'].join('\n');
}
