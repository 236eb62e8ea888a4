import type { PartFinding } from '../protocol.ts';
import { draw } from './dom.ts';

type Severity = PartFinding['severity'];

/** Worst first. */
export const severities: readonly Severity[] = ['error', 'warning', 'information', 'hint'];

/** Each severity has a shape of its own, so that no one needs the colour: octagon, triangle … */
const shapes: Readonly<Record<Severity, { readonly outline: string; readonly sign: string }>> = {
  error: {
    outline: 'M-3.7-9H3.7L9-3.7V3.7L3.7 9H-3.7L-9 3.7V-3.7Z',
    sign: 'M-3.5-3.5L3.5 3.5M3.5-3.5L-3.5 3.5',
  },
  warning: { outline: 'M0-9.5L10 8H-10Z', sign: 'M0-3.5V2.2M0 4.8V5.3' },
  information: { outline: 'M-9 0A9 9 0 1 1 9 0A9 9 0 1 1-9 0Z', sign: 'M0-1V4.5M0-4.5V-4' },
  hint: { outline: 'M0-9L9 0L0 9L-9 0Z', sign: 'M-2.5 0H2.5' },
};

/** Severity as a person says it, with the number: "2 errors". */
export function countedFindings(severity: Severity, count: number): string {
  const [one, many] = {
    error: ['error', 'errors'],
    warning: ['warning', 'warnings'],
    information: ['piece of information', 'pieces of information'],
    hint: ['hint', 'hints'],
  }[severity] as [string, string];
  return `${count} ${count === 1 ? one : many}`;
}

export function worstOf(findings: readonly PartFinding[]): Severity | undefined {
  return severities.find((severity) => findings.some((each) => each.severity === severity));
}

/** The mark of a severity around the point 0, 0; some 20 units across. */
export function markOf(severity: Severity): SVGGElement {
  const { outline, sign } = shapes[severity];
  return draw(
    'g',
    { class: `finding ${severity}`, 'aria-hidden': 'true' },
    draw('path', { class: 'shape', d: outline }),
    draw('path', { class: 'sign', d: sign }),
  );
}

/** The same mark as a small picture for a line of text. */
export const smallMark = (severity: Severity): SVGSVGElement =>
  draw(
    'svg',
    { class: 'small-mark', viewBox: '-11 -11 22 22', width: 14, height: 14, 'aria-hidden': 'true' },
    markOf(severity),
  );
