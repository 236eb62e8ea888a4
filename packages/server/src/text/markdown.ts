import { visible } from '@setwright/report';

/** A text as Markdown that shows as it is written; what would turn its letters stands by its code. */
export function plainWords(text: string): string {
  return visible(text.replace(/[\r\n]+/g, ' ')).replace(/[\\`*_[\]<>#|~]/g, '\\$&');
}

/** A piece of a receiver's text, coloured where the client can. */
export function receiverCode(text: string): string {
  return ['```setwright', text, '```'].join('\n');
}
