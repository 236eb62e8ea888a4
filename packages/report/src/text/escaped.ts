import { visible } from './visible.ts';

/**
 * Text as it stands in HTML or SVG and in their attributes; what no page may hold, or would act on,
 * stands by its code.
 */
export function escaped(text: string): string {
  return visible(text)
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;');
}
