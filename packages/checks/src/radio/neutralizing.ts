import type { Part } from '@setwright/circuit';
import type { Study } from '../study.ts';
import { otherJunction, type TubeAt } from '../tubes/tubes.ts';
import {
  coilOf,
  coldEnd,
  type GridCircuit,
  type PlateCircuit,
  windingsFrom,
} from './radio-wiring.ts';
import { fieldBetween, type Stretch } from './winding-fields.ts';

/** A condenser that feeds a grid from somewhere to balance what its own plate feeds it. */
export interface Balance {
  readonly condenser: Part;
  readonly tube: TubeAt;
  /** Where the current comes from: a winding of the plate's coil, or the plate itself. */
  readonly from: Part | undefined;
  /** The tube's own plate winding. */
  readonly plate: Part | undefined;
  /**
   * Volts there over the plate's, with the next circuit in tune and with it far out of tune. They
   * must be below nothing, or the current adds to what it should balance.
   */
  readonly ratios: readonly number[];
}

/**
 * Every neutralizing condenser on a grid of which it can be told with what sign it feeds it: from
 * a winding of the coil in the tube's plate circuit, or from the plate itself. Bridges with a
 * split grid coil and unknown coils are left out.
 */
export function balances(study: Study): readonly Balance[] {
  const { circuit, radio } = study;
  const condensers = circuit.parts.filter(
    (part) => part.kind === 'condenser' && part.words.has('neutralizing'),
  );
  if (condensers.length === 0) return [];
  const byGrid = new Map(study.tubes.map((tube) => [tube.grid?.junction, tube]));
  const byTube = new Map<TubeAt, PlateCircuit[]>();
  for (const each of radio.plateCircuits)
    byTube.set(each.tube, [...(byTube.get(each.tube) ?? []), each]);
  const byCoil = new Map<string, GridCircuit[]>();
  for (const each of radio.gridCircuits) {
    const coil = coilOf(each.winding);
    byCoil.set(coil, [...(byCoil.get(coil) ?? []), each]);
  }
  return condensers.flatMap((condenser): readonly Balance[] => {
    for (const { junction } of condenser.ends) {
      const far = otherJunction(condenser, junction);
      if (far === undefined || far === junction || radio.isRest(far)) continue;
      const tube = byGrid.get(junction);
      const plates = tube ? (byTube.get(tube) ?? []) : [];
      if (!tube || plates.length === 0) continue;
      if (far === tube.plate?.junction) {
        const plate = plates[0]?.winding;
        return [{ condenser, tube, from: undefined, plate, ratios: [1] }];
      }
      // On a grid coil split in two the condenser comes from the plate: another bridge.
      for (const plate of plates) {
        const found = balanceBy(study, condenser, tube, plate, far, byCoil);
        if (found) return [found];
      }
    }
    return [];
  });
}

function balanceBy(
  study: Study,
  condenser: Part,
  tube: TubeAt,
  plate: PlateCircuit,
  far: number,
  byCoil: ReadonlyMap<string, readonly GridCircuit[]>,
): Balance | undefined {
  const { radio, conduction } = study;
  const coil = radio.coil(coilOf(plate.winding));
  const fed = windingsFrom(conduction, far, radio.isRest).find(
    ({ winding, junction }) => coilOf(winding) === coilOf(plate.winding) && junction === far,
  );
  if (!fed || !radio.isRest(plate.far)) return undefined;
  const cold = coldEnd(fed.winding, fed.terminal, radio.isRest);
  if (!cold || !radio.isRest(cold.junction)) return undefined;
  const here: Stretch = { winding: fed.winding, from: cold.id, to: fed.terminal };
  const drive: Stretch = { winding: plate.winding, from: plate.farEnd, to: plate.plateEnd };
  const next = byCoil.get(coilOf(plate.winding))?.find((each) => each.tube !== tube);
  const ratios: number[] = [];
  const drivers: Stretch[] = [drive];
  if (next) drivers.push({ winding: next.winding, from: next.lowEnd, to: next.gridEnd });
  for (const driver of drivers) {
    const above = fieldBetween(coil, here, driver);
    const below = fieldBetween(coil, drive, driver);
    if (above === undefined || !below) return undefined;
    ratios.push(above / below);
  }
  return { condenser, tube, from: fed.winding, plate: plate.winding, ratios };
}
