import { createHash } from 'node:crypto';
import type { Circuit } from '@setwright/circuit';
import {
  drawCircuit,
  layoutEngine,
  overlayOf,
  sceneToSvg,
  setAtWork,
  stagesOf,
  viewsOf,
} from '@setwright/diagram';
import { type Tour, type TourLevel, tourMarkdown, tourOf, tourPage } from '@setwright/report';

/** How a tour is to be made. */
export interface TourMaking {
  readonly format: 'html' | 'markdown';
  readonly level: TourLevel;
  readonly symbols: 'modern' | 'period';
  readonly units: 'period' | 'si';
}

/** A tour as it is written: one text, and the pictures that belong beside it. */
export interface TourMade {
  readonly text: string;
  /** By file name. */
  readonly pictures: ReadonlyMap<string, string>;
}

/** Makes the tour of a set, laid out once for all its steps. */
export async function tourMade(circuit: Circuit, making: TourMaking): Promise<TourMade> {
  const { level, units, symbols, format } = making;
  const scene = await drawCircuit(circuit, layoutEngine(), { rows: 'page' });
  const tour = tourOf(circuit, { overlayOf, setAtWork, viewsOf }, { level, units });
  const use = format === 'html' ? 'screen' : 'file';
  const paint = (step: Tour['steps'][number] | undefined): string =>
    sceneToSvg(scene, {
      symbols,
      use,
      ...(step ? { overlay: step.overlay } : {}),
      ...(step?.shadesStages ? { stages: stagesOf(circuit) } : {}),
    });
  if (format === 'html') {
    const digest = (text: string): string => createHash('sha256').update(text).digest('base64');
    const drawings = { bare: paint(undefined), steps: tour.steps.map(paint) };
    return { text: tourPage(tour, drawings, digest), pictures: new Map() };
  }
  const nameOf = (step: number): string => `${tour.steps[step]?.id ?? 'step'}.svg`;
  return {
    text: tourMarkdown(tour, nameOf),
    pictures: new Map(tour.steps.map((step, index) => [nameOf(index), paint(step)])),
  };
}
