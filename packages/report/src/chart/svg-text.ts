import { visible } from '../text/visible.ts';

/** Text within SVG; what no XML may hold, or would turn the letters round, stands by its code. */
export function escaped(text: string): string {
  return visible(text)
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}

/** A number as SVG has it, no finer than can be seen. */
export function place(value: number): string {
  return String(Math.round(value * 10) / 10);
}
