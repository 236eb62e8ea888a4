import type { Circuit } from '@setwright/circuit';
import type { ChartOptions } from '../chart/readings.ts';
import { faultsOf } from '../faults/faults-of.ts';
import type { FaultTable } from './effect.ts';
import { effectOfFault } from './effect-of.ts';
import { soundSet } from './sound-set.ts';

/**
 * What every single fault of a set does to every reading of its chart, to the signal, and to the
 * ear. The square of the set's size. Never throws.
 */
export function faultTable(circuit: Circuit, options: ChartOptions = {}): FaultTable {
  const sound = soundSet(circuit, options);
  return {
    chart: sound.chart,
    sound: sound.listening?.sound,
    effects: faultsOf(circuit).map((fault) => effectOfFault(sound, fault)),
  };
}
