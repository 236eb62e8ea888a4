import type { Spot } from '../chart/spot.ts';
import type { CaseBook } from './causes.ts';
import type { Evidence } from './evidence.ts';

/** What may be done next. */
export type Test =
  | { readonly kind: 'reading'; readonly spot: Spot }
  | { readonly kind: 'click'; readonly tube: string }
  | { readonly kind: 'dial'; readonly dial: string };

/** What a bench says that was done, told from others by what matters. */
function placeOf({ at, to, quantity, lifted, tubesOut, state }: Spot): string {
  return [quantity, at, to, lifted, state === 'on' && tubesOut].join(' ');
}

/** Everything that a restorer may do next on a set, without what the bench says was done. */
export function testsLeft({ spots, tapped, dials }: CaseBook, evidence: Evidence): readonly Test[] {
  const done = new Set(evidence.readings.map(({ spot }) => placeOf(spot)));
  return [
    ...spots.flatMap((spot): Test[] =>
      done.has(placeOf(spot)) ? [] : [{ kind: 'reading', spot }],
    ),
    ...tapped.flatMap((tube): Test[] =>
      evidence.clicks.has(tube) ? [] : [{ kind: 'click', tube }],
    ),
    ...dials.flatMap((dial): Test[] => (evidence.dials.has(dial) ? [] : [{ kind: 'dial', dial }])),
  ];
}

/** Volts that are taken with care. */
const HURTING = 40;
/** What only a finger and an ear are needed for, against a reading with the set on. */
const LISTENED = 0.6;

/**
 * What a test costs against another, in work and in risk: the ear and the dials
 * little, cold ohms more, a lead in series or an end taken off more, volts of B with the set on most.
 * After the order in which a dead set is gone through: cold before hot, A before B. Common
 * practice.
 *
 * @param volts about what is between the two points
 * @param danger how probable it is that leaving the set on burns something
 * @param wasOn whether the set has been on already
 */
export function costOf(test: Test, volts: number, danger: number, wasOn: boolean): number {
  const power = (wasOn ? 1 : 3) + danger;
  switch (test.kind) {
    case 'dial':
    case 'click':
      return LISTENED * power;
    case 'reading': {
      const { quantity, lifted, across, state } = test.spot;
      if (state === 'cold') {
        const isTube = across !== undefined && test.spot.at.includes('.filament');
        return lifted && !isTube ? 1.2 : 1;
      }
      if (quantity === 'current') return 1.05 * power;
      return (Math.abs(volts) >= HURTING ? 1.2 : 1.1) * power;
    }
  }
}
