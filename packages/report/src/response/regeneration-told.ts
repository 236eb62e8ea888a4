import {
  condenserValues,
  type OperatingPoint,
  regeneration,
  regenerationControls,
  type SmallSignalOptions,
} from '@setwright/analysis';
import type { Circuit, Part } from '@setwright/circuit';

/** How a set is regenerated, by the control that governs it. */
export interface RegenerationTold {
  readonly control: Part;
  /** The tube that it makes oscillate. */
  readonly tube: string;
  /** Where oscillation begins at some stations in hertz, as a share of the control's travel. */
  readonly begins: readonly { readonly frequency: number; readonly share: number }[];
  /**
   * Where it was put, short of oscillation throughout, because as drawn it oscillates or the text
   * does not say how it stands; undefined where it stands as the text says.
   */
  readonly backedOff: { readonly share: number; readonly options: SmallSignalOptions } | undefined;
}

/** Controls that are tried. */
const MOST_CONTROLS = 3;

/** How far short of where oscillation begins a control is put, as a share of the way there. */
const SHORT_OF = 0.7;

/**
 * How a regenerative set is governed: by a tickler that turns, or a condenser that throttles.
 * Undefined for a set of which nothing of the kind is found.
 *
 * @param stations hertz that the set is told of
 */
export function regenerationTold(
  circuit: Circuit,
  point: OperatingPoint,
  stations: readonly number[],
): RegenerationTold | undefined {
  const chosen = [...new Set([stations[0], middleOf(stations), stations.at(-1)])].flatMap(
    (each) => each ?? [],
  );
  const middle = middleOf(chosen);
  if (middle === undefined) return undefined;
  for (const control of regenerationControls(circuit).slice(0, MOST_CONTROLS)) {
    const by = regeneration(circuit, point, control);
    const [tube] = by.at(middle, 1)?.tubes ?? [];
    if (tube === undefined || by.at(middle, 0)?.tubes.includes(tube) !== false) continue;
    const begins = chosen.flatMap((frequency) => {
      const share = by.begins(frequency, tube);
      return share === undefined ? [] : [{ frequency, share }];
    });
    const set = shareOf(circuit, control);
    const isQuiet = (share: number): boolean =>
      stations.every((station) => by.at(station, share)?.tubes.length === 0);
    if (set !== undefined && isQuiet(set)) return { control, tube, begins, backedOff: undefined };
    const first = Math.min(1, ...begins.map(({ share }) => share));
    const share = [SHORT_OF * first, 0].find(isQuiet);
    const options = share === undefined ? undefined : optionsAt(circuit, control, share);
    return {
      control,
      tube,
      begins,
      backedOff: share === undefined || !options ? undefined : { share, options },
    };
  }
  return undefined;
}

function middleOf(stations: readonly number[]): number | undefined {
  return stations[Math.floor((stations.length - 1) / 2)];
}

/** How a control stands by the text, as a share of its travel. */
function shareOf(circuit: Circuit, control: Part): number | undefined {
  if (control.kind !== 'condenser')
    return control.setting?.kind === 'fraction' ? control.setting.fraction : undefined;
  const { least, most, now } = condenserValues(circuit, control) ?? {};
  if (least?.value === undefined || most?.value === undefined || now?.value === undefined)
    return undefined;
  return (now.value - least.value) / (most.value - least.value);
}

/** Farads of a condenser at a share of its travel. */
export function faradsAt(circuit: Circuit, control: Part, share: number): number | undefined {
  const { least, most } = condenserValues(circuit, control) ?? {};
  return least?.value === undefined || most?.value === undefined
    ? undefined
    : least.value + share * (most.value - least.value);
}

function optionsAt(circuit: Circuit, control: Part, share: number): SmallSignalOptions | undefined {
  if (control.kind !== 'condenser') return { turned: new Map([[control.name, share]]) };
  const farads = faradsAt(circuit, control, share);
  return farads === undefined ? undefined : { condensers: new Map([[control.name, farads]]) };
}
