import { unescaped } from './page/html.ts';
import { layered } from './page/svg-layers.ts';
import type { TourDrawings } from './page/tour-page.ts';
import type { Tour } from './tour.ts';

/** A tour as a preview shows it: one picture, and the steps that are read beside it. */
export interface PreviewTour {
  /** The bare drawing with a layer for each step: `<g class="layer" data-layer="0">` and so on. */
  readonly svg: string;
  readonly steps: readonly PreviewStep[];
}

/** A step of a tour beside its picture. */
export interface PreviewStep {
  readonly title: string;
  /** Plain paragraphs. */
  readonly words: readonly string[];
  /** Parts that it speaks of, by the names that their symbols have. */
  readonly parts: readonly string[];
  /** Shapes of the picture that are dimmed in it, by what their `data-n` says. */
  readonly dimmed: readonly number[];
  /** What the drawing shows then, for those who hear it. */
  readonly spoken: string;
}

/** A tour for a preview. @param drawings each shape on a line of its own, as a drawing writes it */
export function previewTour({ steps }: Tour, drawings: TourDrawings): PreviewTour {
  const { svg, dimmed, descriptions } = layered(drawings.bare, drawings.steps);
  return {
    svg,
    steps: steps.map(({ heading, sentences, missing, parts, overlay }, index) => ({
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
      dimmed: dimmed[index] ?? [],
      spoken: unescaped(descriptions[index] ?? '') || heading,
    })),
  };
}
