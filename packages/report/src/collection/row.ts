import { tunedCircuits } from '@setwright/analysis';
import { asOn, type Circuit, type Severity } from '@setwright/circuit';
import type { TourViews } from '../tour/grounds.ts';
import { placesOf } from '../tour/places.ts';
import { kindOfSet, tuningDials } from '../tour/steps/glance.ts';

/** What stands of one set in the index of a collection. */
export interface CollectionRow {
  /** As the text says it; may be empty. */
  readonly title: string;
  /** What a restorer calls it: `Superheterodyne`. */
  readonly kind: string;
  readonly year: string | undefined;
  /** Each type of tube with how many there are, in order of the text. */
  readonly tubes: readonly { readonly type: string; readonly count: number }[];
  /** Names of the dials, or condensers without one, that tune to the station. */
  readonly dials: readonly string[];
  readonly findings: Readonly<Record<Severity, number>>;
}

/**
 * What is told of a set in one line. Never throws.
 *
 * @param views what draws over a schematic, by which the signal's way is found
 * @param findings what the checks, and the reading of the text, have to tell of it
 */
export function collectionRow(
  circuit: Circuit,
  { overlayOf }: Pick<TourViews, 'overlayOf'>,
  findings: readonly { readonly severity: Severity }[],
): CollectionRow {
  const overlay = (view: string) => overlayOf(circuit, view);
  const places = placesOf(circuit, overlay('radio'), overlay('audio'));
  const kind = kindOfSet({ circuit, places, overlay });
  const types = new Map<string, number>();
  for (const part of circuit.parts)
    if (part.kind === 'tube') {
      const type = part.typeName ?? 'of unknown type';
      types.set(type, (types.get(type) ?? 0) + 1);
    }
  const counts = { error: 0, warning: 0, information: 0, hint: 0 };
  for (const { severity } of findings) counts[severity] += 1;
  return {
    title: circuit.title,
    kind: kind.charAt(0).toUpperCase() + kind.slice(1),
    year: circuit.year?.text,
    tubes: [...types].map(([type, count]) => ({ type, count })),
    dials: tuningDials({ circuit, tuned: tunedCircuits(circuit, asOn(circuit).settings) }),
    findings: counts,
  };
}
