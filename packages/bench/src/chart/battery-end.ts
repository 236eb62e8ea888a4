import { isBias, isFilamentSupply, isSupply, type Part } from '@setwright/circuit';

/** Below which share of its printed volts a battery is at its end, and who says so. */
export interface BatteryEnd {
  readonly share: number;
  readonly source: string;
}

/** A block of dry cells for plates or grids: 18 volts of 22.5, 36 of 45, 1.2 a cell. */
const DRY_BLOCK: BatteryEnd = {
  share: 36 / 45,
  source: 'Radio Record (New Zealand), 4 May 1928: 36 volts of a block of 45, under load',
};

/** A large dry cell that lights filaments: 1.1 volts of 1.5. From memory. */
const DRY_CELL: BatteryEnd = { share: 1.1 / 1.5, source: 'common practice, from memory' };

/** A lead cell on discharge: 1.8 volts of 2. From memory. */
const LEAD_CELL: BatteryEnd = { share: 0.9, source: 'common practice, from memory' };

/**
 * When a battery is at its end, by what the text says that it is; undefined where it does not say,
 * and for an eliminator.
 */
export function batteryEnd(supply: Part): BatteryEnd | undefined {
  if (!isSupply(supply) || supply.kind === 'eliminator') return undefined;
  if (supply.words.has('storage')) return LEAD_CELL;
  if (!supply.words.has('dry')) return undefined;
  return isFilamentSupply(supply) && !isBias(supply) ? DRY_CELL : DRY_BLOCK;
}
