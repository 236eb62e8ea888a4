import type { TunedCircuit } from '@setwright/analysis';
import { type SingleLayerCoil, singleLayerInductance } from '@setwright/physics';

type Values = TunedCircuit['windings'][number]['edge']['values'];

/**
 * Turns of the same wire on the same form for so many times the inductance. Undefined where the
 * winding is not told as a single layer.
 */
export function turnsFor(values: Values, factor: number): number | undefined {
  const shape = values?.shape;
  if (shape?.wire.layers !== 1) return undefined;
  const { turns, radius } = shape.winding;
  const { pitch, bare } = shape.wire;
  const coil = (count: number): SingleLayerCoil => ({
    turns: count,
    radius,
    pitch,
    wireDiameter: bare,
  });
  const now = singleLayerInductance(coil(turns));
  if (now === undefined) return undefined;
  let [few, many] = [1, turns * 20];
  for (let step = 0; step < 40; step++) {
    const middle = (few + many) / 2;
    const henries = singleLayerInductance(coil(middle));
    if (henries === undefined) return undefined;
    if (henries < now * factor) few = middle;
    else many = middle;
  }
  return Math.round(few);
}
