import type { TubeLaws, WiresKnown } from '@setwright/analysis';

/** What was reckoned before and holds for every faulty self of a set as well. */
export interface Known {
  readonly laws: TubeLaws;
  readonly wires: WiresKnown;
}
