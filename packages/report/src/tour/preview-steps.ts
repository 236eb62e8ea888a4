import type { Tour } from './tour.ts';

/** A step of a tour as a preview shows it beside its picture of the whole set. */
export interface PreviewStep {
  readonly title: string;
  /** Plain paragraphs. */
  readonly words: readonly string[];
  /** Parts to be lit, by the names that their symbols have. */
  readonly parts: readonly string[];
}

/** The steps of a tour for a preview, which draws the set once and lights the parts of each. */
export function previewSteps({ steps }: Tour): readonly PreviewStep[] {
  return steps.map(({ heading, sentences, missing, parts, overlay }) => ({
    title: heading,
    words: [
      ...sentences,
      ...(missing.length > 0 ? [`Not told, for want of ${missing.join('; ')}.`] : []),
    ],
    parts: [
      ...new Set([
        ...parts,
        ...overlay.paths.flatMap((path) => path.steps.map(({ part }) => part)),
        ...overlay.failed.map(({ at }) => at),
      ]),
    ],
  }));
}
