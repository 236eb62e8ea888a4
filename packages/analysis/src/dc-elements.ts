import {
  type Circuit,
  type Conduction,
  conductionOf,
  isSupply,
  type JoinedBranch,
  type Settings,
  type SettingsOn,
} from '@setwright/circuit';
import type { Curve } from './dc-system.ts';
import { type DcTube, tubesInSockets } from './dc-tubes.ts';
import { filamentLaw } from './filament-law.ts';
import { type Element, networkOf } from './network.ts';
import { supplySections } from './supply-sections.ts';
import type { TubeLaws } from './tube-law.ts';
import type { WiresKnown } from './wire-ohms.ts';

/** All that carries direct current in a set, with the law that each goes by. */
export interface DcElements {
  readonly elements: readonly Element[];
  /** One for each element, in their order. */
  readonly curves: readonly Curve[];
  readonly tubes: readonly DcTube[];
  /** Supplies between two taps of which nobody knows the volts. */
  readonly unknownSources: readonly JoinedBranch[];
  readonly conduction: Conduction;
}

/** Gathers what carries current in a set whose controls stand in one way. About linear. */
export function dcElements(
  circuit: Circuit,
  settings: Settings | SettingsOn,
  heldControls: ReadonlyMap<string, number>,
  laws: TubeLaws,
  wires?: WiresKnown,
): DcElements {
  const conduction = conductionOf(circuit, settings);
  const { elements: parts, unknownSources } = networkOf(conduction, heldControls, wires);
  const elements = [
    ...parts.filter(({ part }) => !isSupply(part)),
    ...circuit.parts.flatMap((part) =>
      settings.removed.has(part.name) ? [] : supplySections(part, conduction),
    ),
  ];
  const tubes = tubesInSockets(circuit, settings, laws);
  const lawOf = new Map(tubes.map(({ part, law }) => [part.name, law]));
  const curves = elements.map(({ part }): Curve => {
    const law = lawOf.get(part.name);
    if (law) return { kind: 'filament', law: law.filament };
    if (part.kind === 'crystal') return { kind: 'crystal' };
    return part.kind === 'lamp' ? lampCurve(part) : { kind: 'ohmic' };
  });
  return { elements, curves, tubes, unknownSources, conduction };
}

/** A lamp of stated volts and amperes burns as a filament does; any other has its one resistance. */
function lampCurve({ values }: Element['part']): Curve {
  const volts = values.volts?.value ?? 0;
  const watts = values.ratedPower?.value ?? 0;
  const amperes = values.ratedCurrent?.value ?? (volts > 0 ? watts / volts : 0);
  const isKnown = volts > 0 && amperes > 0 && values.resistance === undefined;
  return isKnown
    ? { kind: 'filament', law: filamentLaw('tungsten', volts, amperes) }
    : { kind: 'ohmic' };
}
