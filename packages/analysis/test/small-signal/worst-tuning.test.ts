import { describe, expect, it } from 'vitest';
import { operatingPoint } from '../../src/operating-point.ts';
import { alignedAt, tunedSet } from '../../src/small-signal/aligned-at.ts';
import { fittedPlane } from '../../src/small-signal/fitted-plane.ts';
import { exactModes, modelModes } from '../../src/small-signal/modes-off.ts';
import { reducedNetwork } from '../../src/small-signal/reduced-network.ts';
import { shaftsOf } from '../../src/small-signal/shafts.ts';
import { smallSignal } from '../../src/small-signal/small-signal.ts';
import { matricesIn, stationModel } from '../../src/small-signal/station-model.ts';
import { tunedSystem } from '../../src/small-signal/tuned-system.ts';
import { worstTuning } from '../../src/small-signal/worst-tuning.ts';
import { exampleSets } from '../reading-set.ts';
import { threeDialSet } from './three-dial-set.ts';

const STATION = 1e6;

function waysOf(circuit: ReturnType<typeof threeDialSet>) {
  const set = smallSignal(circuit, operatingPoint(circuit));
  const tuned = tunedSet(set);
  const shafts = shaftsOf(tuned);
  const alignment = alignedAt(set, STATION, new Map(), tuned);
  const at = { tuned, shafts, alignment };
  const network = reducedNetwork(set.system, tuned.condensers, new Map());
  const plane = fittedPlane(network, STATION / 2, 2 * STATION);
  const model = stationModel(network.size, matricesIn(plane), STATION)!;
  return {
    count: shafts.length,
    exact: exactModes(at, (tuning) => tunedSystem(set.system, tuning)),
    quick: modelModes(at, network, model),
  };
}

const sets = [
  ['three dials without lossers', threeDialSet({})],
  ['three dials with 800 ohms', threeDialSet({ losser: 800 })],
  ['three dials with 3000 ohms', threeDialSet({ losser: 3000 })],
  ...['five-tube-trf', 'neutralized-five', 'screen-grid', 'reflex', 'two-tube'].map(
    (name) => [name, exampleSets.get(name)!] as const,
  ),
] as const;

describe('the worst way of the dials', () => {
  it.each(sets)('is as bad by the model of a station as by the equations: %s', (_name, circuit) => {
    const { count, exact, quick } = waysOf(circuit);
    const sought = worstTuning(count, quick);
    const whole = worstTuning(count, exact);
    const found = exact(sought.offsets)!;
    const damping = 2 * Math.PI * STATION * 1e-5;
    expect(Math.abs(found.growth - whole.mode!.growth)).toBeLessThan(damping);
    expect(Math.abs(found.growth - sought.mode!.growth)).toBeLessThan(damping);
  });

  it('leaves a dial alone that does nothing', () => {
    const mode = (growth: number) => ({ growth, radians: 6e6 });
    const { offsets } = worstTuning(2, ([first = 0]) => mode(-1000 - 1e5 * Math.abs(first - 0.01)));
    expect(offsets).toEqual([0.01, 0]);
  });
});
