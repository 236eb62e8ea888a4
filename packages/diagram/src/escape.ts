/**
 * What may not stand in XML, or would change how the rest reads: control letters, half of a
 * surrogate pair, letters that turn the direction of reading.
 */
const unfit =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\ud800-\udfff\ufffe\uffff]/gu;

/** Text as it may stand in XML, in content and in quoted attributes; what is unfit is dropped. */
export function escapeXml(text: string): string {
  return text
    .replace(unfit, '')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;');
}
