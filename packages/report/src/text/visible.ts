/**
 * Characters that a terminal acts on instead of showing: controls, escapes, marks that turn the
 * direction of writing, and marks of no width.
 */
const acting =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the ones to be found
  /[\u0000-\u001f\u007f-\u009f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/** Text from a file as it may be printed: what a terminal would act on is shown as an escape. */
export function visible(text: string): string {
  return text.replace(acting, (character) => {
    const code = character.charCodeAt(0);
    if (character === '\n') return '\\n';
    if (character === '\r') return '\\r';
    if (character === '\t') return '\\t';
    return code < 0x100 ? `\\x${code.toString(16).padStart(2, '0')}` : `\\u{${code.toString(16)}}`;
  });
}

/** JSON as it may be printed: what a terminal would act on stands there by its code. */
export function printableJson(value: unknown): string {
  return JSON.stringify(value, undefined, 2).replace(acting, (character) =>
    character === '\n' ? character : `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}
