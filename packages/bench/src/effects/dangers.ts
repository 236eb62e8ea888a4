import type { ChangedRest, TubeInChange } from '@setwright/analysis';
import { isBias, isFilamentSupply, isSupply, type Part } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { SetStanding } from '../edits/workbench.ts';

/** A filament over its rating by this share ages fast; by that it is lost at once. */
const OVER = 1.1;
const LOST = 1.6;

/** A plate that turns this many times its usual watts, and so many watts, into heat. */
const PLATE_TIMES = 3;
const PLATE_WATTS = 1;

/** Fine wire on iron, and a resistor of the time of which no rating is said, stand so many watts. */
const WINDING_WATTS = 0.4;
const RESISTOR_WATTS = 1;
/** What a part must turn into heat against what it did in the sound set. */
const HOT_TIMES = 3;

/** Amperes from a B battery, and from one that lights filaments, that are a short. */
const B_SHORT = 0.3;
const A_SHORT = 8;

/** What may be lost by leaving a faulty set on; the sound set's own heat does not count. */
export function dangersOf(
  faulty: SetStanding,
  rest: ChangedRest,
  sound: ChangedRest,
): readonly string[] {
  return [
    ...filaments(faulty, rest.tubes, sound.tubes),
    ...plates(rest.tubes, sound.tubes),
    ...hotParts(faulty, rest, sound),
    ...shorts(faulty, rest, sound),
  ];
}

function filaments(
  { circuit }: SetStanding,
  tubes: readonly TubeInChange[],
  sound: readonly TubeInChange[],
): string[] {
  const before = new Map(sound.map((tube) => [tube.tube, Math.abs(tube.filamentVolts)]));
  return tubes.flatMap(({ tube, filamentVolts }) => {
    const rated = circuit.partNamed.get(tube)?.tubeType?.filamentVolts;
    const volts = Math.abs(filamentVolts);
    if (!rated || volts < OVER * rated || volts < 1.02 * (before.get(tube) ?? 0)) return [];
    const said = formatQuantity(volts, 'voltage');
    return volts > LOST * rated
      ? [`${tube} is lost: its filament gets ${said}`]
      : [`the filament of ${tube} is over-run: ${said}`];
  });
}

function plates(tubes: readonly TubeInChange[], sound: readonly TubeInChange[]): string[] {
  const watts = ({ plateVolts = 0, plateAmperes }: TubeInChange): number =>
    Math.max(0, plateVolts) * plateAmperes;
  const before = new Map(sound.map((tube) => [tube.tube, watts(tube)]));
  return tubes.flatMap((tube) => {
    const now = watts(tube);
    return now > PLATE_WATTS && now > PLATE_TIMES * (before.get(tube.tube) ?? 0)
      ? [`the plate of ${tube.tube} glows: ${formatQuantity(now, 'power')}`]
      : [];
  });
}

function hotParts({ circuit }: SetStanding, rest: ChangedRest, sound: ChangedRest): string[] {
  return circuit.parts.flatMap((part) => {
    const most = wattsOf(part, circuit.partNamed.get(part.owner ?? ''));
    if (most === undefined) return [];
    const watts = rest.through(part.name)?.watts ?? 0;
    if (watts < most || watts < HOT_TIMES * (sound.through(part.name)?.watts ?? 0)) return [];
    return [`${part.name} burns: ${formatQuantity(watts, 'power')}`];
  });
}

/** Watts that a part stands; undefined for one that does not burn. */
function wattsOf(part: Part, owner: Part | undefined): number | undefined {
  const rated = part.values.ratedPower?.value;
  switch (part.kind) {
    case 'winding':
      return owner?.kind === 'transformer' ? WINDING_WATTS : undefined;
    case 'choke':
    case 'phones':
    case 'horn':
    case 'speaker':
      return 3 * WINDING_WATTS;
    case 'resistor':
    case 'leak':
    case 'potentiometer':
      return rated ?? RESISTOR_WATTS;
    default:
      return undefined;
  }
}

function shorts({ circuit }: SetStanding, rest: ChangedRest, sound: ChangedRest): string[] {
  return circuit.parts.flatMap((part) => {
    if (!isSupply(part)) return [];
    const amperes = Math.abs(rest.through(part.name)?.amperes ?? 0);
    const most = isFilamentSupply(part) && !isBias(part) ? A_SHORT : B_SHORT;
    const before = Math.abs(sound.through(part.name)?.amperes ?? 0);
    return amperes > most && amperes > 2 * before
      ? [`${part.name} is shorted: ${formatQuantity(amperes, 'current')}`]
      : [];
  });
}
