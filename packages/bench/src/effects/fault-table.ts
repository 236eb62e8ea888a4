import type { Circuit, Suppose } from '@setwright/circuit';
import type { ChartOptions } from '../chart/readings.ts';
import { calledSo } from '../chart/spot.ts';
import { editsOf, lineOf } from '../edits/edit.ts';
import type { Fault } from '../faults/fault.ts';
import { faultsOf } from '../faults/faults-of.ts';
import type { FaultTable } from './effect.ts';
import { effectOfFault } from './effect-of.ts';
import { type SoundSet, soundSet } from './sound-set.ts';

/**
 * What every single fault of a set does to every reading of its chart, to the signal, and to the
 * ear. The square of the set's size. Never throws.
 *
 * @param faults those that are wanted; all of the set where not given
 */
export function faultTable(
  circuit: Circuit,
  options: ChartOptions = {},
  faults: readonly Fault[] = faultsOf(circuit),
): FaultTable {
  return tableOf(soundSet(circuit, options), faults);
}

/** The same of what a set's own text supposes. */
export function supposedTable(
  circuit: Circuit,
  supposes: readonly Suppose[],
  options: ChartOptions = {},
): FaultTable {
  return tableOf(
    soundSet(circuit, options),
    supposes.map((suppose) => faultSupposed(circuit, suppose)),
  );
}

function tableOf(sound: SoundSet, faults: readonly Fault[]): FaultTable {
  return {
    chart: sound.chart,
    sound: sound.listening?.sound,
    effects: faults.map((fault) => effectOfFault(sound, fault)),
  };
}

/** A supposition as a fault: its title stands for the words. */
function faultSupposed(circuit: Circuit, suppose: Suppose): Fault {
  const edits = editsOf(suppose);
  const target = edits[0]?.target ?? '';
  return {
    id: edits.map((edit) => lineOf(edit, (name) => calledSo(circuit, name))).join('; '),
    kind: 'supposed',
    part: circuit.partOfEnd.get(target)?.name ?? target,
    words: suppose.title || 'as supposed',
    edits,
    prior: undefined,
    weight: 0,
    source: 'the text',
    heard: edits.flatMap(({ verb }) =>
      verb === 'microphonic'
        ? (['microphonic'] as const)
        : verb === 'intermittent'
          ? (['comes and goes'] as const)
          : [],
    ),
  };
}
