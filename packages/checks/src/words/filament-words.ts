import type { Part } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { FilamentGroup } from '../filaments/filament-groups.ts';
import { listed } from './finding.ts';

/** A filament with what it gets. */
export interface Lit {
  /** Its branch in the group. */
  readonly branch: number;
  readonly tube: Part;
  /** Without a sign: a filament does not mind which way round it is lit. */
  readonly volts: number;
  readonly rated: number;
  /** Volts over rated volts. */
  readonly ratio: number;
}

/** The filaments of a group whose rating is known, with what `voltsOf` gives them. */
export function litOf(group: FilamentGroup, voltsOf: (branch: number) => number): Lit[] {
  return group.filaments.flatMap((branch) => {
    const tube = group.branches[branch]?.part;
    const rated = tube?.tubeType?.filamentVolts;
    const volts = Math.abs(voltsOf(branch));
    return tube && rated && Number.isFinite(volts)
      ? [{ branch, tube, volts, rated, ratio: volts / rated }]
      : [];
  });
}

/** The filament that is furthest over its rating; the first of equals. */
export function hottest(lit: readonly Lit[]): Lit | undefined {
  return extreme(lit, (a, b) => a.ratio > b.ratio * (1 + 1e-9));
}

/** The filament that is furthest under its rating; the first of equals. */
export function coldest(lit: readonly Lit[]): Lit | undefined {
  return extreme(lit, (a, b) => a.ratio < b.ratio * (1 - 1e-9));
}

function extreme(lit: readonly Lit[], before: (a: Lit, b: Lit) => boolean): Lit | undefined {
  let found: Lit | undefined;
  for (const each of lit) if (!found || before(each, found)) found = each;
  return found;
}

/** `V1`, `V1, V2 and V3`, `V1, V2, V3 and 20 others`. */
export function named(parts: readonly Part[]): string {
  const names = [...new Set(parts.map(({ name }) => name))];
  return names.length <= MOST_NAMES
    ? listed(names)
    : `${names.slice(0, MOST_NAMES).join(', ')} and ${names.length - MOST_NAMES} others`;
}

const MOST_NAMES = 8;

/** `the 5 V of the 01-A`. */
export function rating({ tube, rated }: Lit): string {
  const type = tube.tubeType?.name ?? tube.typeName;
  return `the ${volts(rated)} of ${type === undefined ? 'its type' : `the ${type}`}`;
}

export const volts = (value: number): string => formatQuantity(value, 'voltage');
export const amperes = (value: number): string => formatQuantity(value, 'current');
export const ohms = (value: number): string => formatQuantity(value, 'resistance');
export const percent = (value: number): string => formatQuantity(value, 'percent', 'period', 2);

/** A resistance as one would set it: rounded up to a tenth of an ohm, or an ohm from ten on. */
export function settable(value: number): number {
  const step = value < 10 ? 0.1 : 1;
  return Math.round(Math.ceil(value / step - 1e-6) * step * 10) / 10;
}
