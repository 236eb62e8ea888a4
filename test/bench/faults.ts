import { readFileSync } from 'node:fs';
import {
  operatingPoint,
  response,
  smallSignal,
  stability,
  tunedCircuits,
} from '@setwright/analysis';
import { edited, faultTable, type Reading } from '@setwright/bench';
import { readReceivers } from '@setwright/language';
import { solveAt } from '../../packages/analysis/src/small-signal/small-signal.ts';
import { coldNetwork } from '../../packages/bench/src/chart/cold-network.ts';
import { reckonCold } from '../../packages/bench/src/chart/expected.ts';
import { loadOf } from '../../packages/bench/src/chart/meter.ts';
import { soundSet } from '../../packages/bench/src/effects/sound-set.ts';
import { figure, quartilesInTurns, type Ratio, under } from './measuring.ts';

/**
 * The table of every fault of the five-tube set, against solving the set once for the numbers of
 * one row: its volts with a meter wired in at every place in turn, its ohms, its response at a
 * station, its stability there and at the shortest, and what a tap on each tube makes in the
 * loudspeaker. Told beside it: response and stability alone.
 */
export function faults(): readonly Ratio[] {
  const file = 'examples/five-tube-trf.receiver';
  const circuit = readReceivers(readFileSync(file, 'utf8'), file).circuits[0];
  if (!circuit) throw new Error(`${file} holds no receiver`);
  const bench = circuit.benches[0];
  const laws = new WeakMap();
  const { chart, standing, listening } = soundSet(circuit, { bench, laws });
  const { station = 1e6, shortest = 1.5e6 } = listening ?? {};
  const { effects } = faultTable(circuit, { bench, laws });
  if (effects.length < 150) throw new Error('the table is not whole');
  const alone = () => {
    const point = operatingPoint(circuit, undefined, { laws });
    return [
      tunedCircuits(circuit),
      response(circuit, point, { stations: [station] }),
      stability(circuit, point, { stations: [station, shortest] }),
    ];
  };
  const volts = ({ at, to, scale }: Reading): number | undefined => {
    if (to === undefined) return undefined;
    const amount = { value: loadOf(chart.meter, scale), dimension: 'resistance' } as const;
    const { settings, held, ...metered } = edited(standing, [
      { verb: 'join', target: at, other: to, amount },
    ]);
    return operatingPoint(metered.circuit, settings, { held, laws }).voltage(at, to);
  };
  const ohms = () => {
    const network = coldNetwork(standing, true, { laws, wires: new WeakMap() });
    return chart.readings
      .filter(({ quantity }) => quantity === 'resistance')
      .map((reading) => reckonCold(network, reading));
  };
  const taps = () => {
    const set = smallSignal(circuit, operatingPoint(circuit, undefined, { laws }));
    return tubes.map((tube) =>
      solveAt(set, 1000, [
        { kind: 'current', into: `${tube}.plate`, outOf: `${tube}.filament-`, amperes: 1e-3 },
      ])?.current(listening?.output ?? ''),
    );
  };
  const tubes = circuit.parts.filter(({ kind }) => kind === 'tube').map(({ name }) => name);
  const places = chart.readings.filter(({ quantity }) => quantity === 'voltage');
  // So many turns, that the code of both is as fast as it gets in most of them.
  const { table, row, bare } = quartilesInTurns(21, {
    table: { often: 1, work: () => faultTable(circuit, { bench, laws }) },
    row: { often: 2, work: () => [places.map(volts), ohms(), alone(), taps()] },
    bare: { often: 5, work: alone },
  });
  const count = `${effects.length} faults of the five-tube set by ${chart.readings.length} readings`;
  console.log(`\nThe ${count} (milliseconds of the processor; lower quartiles)`);
  console.log(`  the whole table                  ${figure(table)}`);
  console.log(`  one row, all from the beginning  ${figure(row)}`);
  console.log(`  response and stability alone     ${figure(bare)}`);
  return [
    under('all faults of the five-tube set, against one row from the beginning', table / row, 10),
  ];
}
