import { expect, it } from 'vitest';
import { operatingPoint } from '../../src/operating-point.ts';
import { smallSignal } from '../../src/small-signal/small-signal.ts';
import { sweep } from '../../src/small-signal/sweep.ts';
import { exampleSets } from '../reading-set.ts';
import { denseVolts } from './dense-network.ts';

it('sweeps the five-tube set at least 30 times faster than a dense library', () => {
  const circuit = exampleSets.get('five-tube-trf')!;
  const set = smallSignal(circuit, operatingPoint(circuit));
  const frequencies = Array.from({ length: 200 }, (_, at) => 500e3 + 5e3 * at);
  const sources = [{ kind: 'aerial', volts: 1 }] as const;
  const shortest = (times: number, run: () => void): number => {
    let least = Number.POSITIVE_INFINITY;
    for (let time = 0; time < times; time++) {
      const before = performance.now();
      run();
      least = Math.min(least, performance.now() - before);
    }
    return least;
  };
  const ours = shortest(10, () => {
    expect(sweep(set, frequencies, sources, 'V3.grid')).toHaveLength(200);
  });
  // A tenth of the sweep is enough to know the time of one solution.
  const entrance = new Map([[set.entrance!.series, 1]]);
  const theirs = shortest(3, () => {
    for (const frequency of frequencies.slice(0, 20))
      denseVolts(set.network, frequency, entrance, new Map());
  });
  expect((10 * theirs) / ours).toBeGreaterThan(30);
});
