import { operatingPoint } from '@setwright/analysis';
import { describe, expect, it } from 'vitest';
import { loadOf } from '../src/chart/meter.ts';
import { edited } from '../src/edits/edited.ts';
import { effectOfFault } from '../src/effects/effect-of.ts';
import { faultyRest, soundSet } from '../src/effects/sound-set.ts';
import { faultsOf } from '../src/faults/faults-of.ts';
import { exampleSet } from './example-set.ts';

/** How far apart two numbers are, as a share of one unit and themselves. */
function apart(one: number | undefined, other: number | undefined): number {
  if (one === other) return 0;
  if (one === undefined || other === undefined) return Number.POSITIVE_INFINITY;
  return Math.abs(one - other) / (1 + Math.abs(other));
}

const CLOSE = 1e-6;

describe.each(['one-tube-regenerative', 'five-tube-trf', 'resistance-coupled'])(
  'every fault of %s by what it changes alone',
  (name) => {
    const circuit = exampleSet(name);
    const sound = soundSet(circuit, { bench: circuit.benches[0] });
    const faults = faultsOf(circuit);
    // The others are worked out from the beginning as it is.
    const quickOnes = faults.filter(
      ({ edits }) => faultyRest(sound, edited(sound.standing, edits)).isQuick,
    );

    it('gives every number that comes of working the faulty set out from the beginning', () => {
      const off = quickOnes.flatMap((fault) => {
        const quick = effectOfFault(sound, fault);
        const slow = effectOfFault(sound, fault, false);
        const readings = quick.readings.flatMap((each, index) => {
          const other = slow.readings[index];
          const most = Math.max(
            apart(each?.value, other?.value),
            // A band is a matter of a few parts in a hundred; it must be the same all the same.
            apart(each?.low, other?.low) / 100,
            apart(each?.high, other?.high) / 100,
          );
          return most < CLOSE ? [] : [`${fault.id}: ${sound.chart.readings[index]?.id} ${most}`];
        });
        const figures = (['radio', 'detection', 'audio'] as const).flatMap((figure) =>
          apart(quick[figure], slow[figure]) < CLOSE
            ? []
            : [`${fault.id}: ${figure} ${quick[figure]} ${slow[figure]}`],
        );
        const words = quick.words === slow.words ? [] : [`${fault.id}: ${quick.words}`];
        return [...readings, ...figures, ...words];
      });
      expect(off).toEqual([]);
    });

    it('gives what a meter wired into the faulty set has across it', () => {
      const hot = sound.chart.readings.flatMap((spot, index) =>
        spot.quantity === 'voltage' && spot.to !== undefined
          ? [{ ...spot, index, to: spot.to }]
          : [],
      );
      const off = faults.flatMap((fault, order) => {
        const effect = effectOfFault(sound, fault);
        const faulty = edited(sound.standing, fault.edits);
        // Two spots of each fault, others for the next.
        return [0, 1].flatMap((step) => {
          const spot = hot[(7 * order + 13 * step) % hot.length];
          const shown = spot && effect.readings[spot.index]?.value;
          if (!spot || shown === undefined) return [];
          const { laws } = sound.known;
          const open = operatingPoint(faulty.circuit, faulty.settings, { held: faulty.held, laws });
          const scale = scaleOf(spot, open.voltage(spot.at, spot.to) ?? 0);
          const ohms = loadOf(sound.chart.meter, scale);
          const {
            circuit: metered,
            settings,
            held,
          } = edited(faulty, [
            {
              verb: 'join',
              target: spot.at,
              other: spot.to,
              amount: { value: ohms, dimension: 'resistance' },
            },
          ]);
          const point = operatingPoint(metered, settings, { held, laws });
          const volts = point.voltage(spot.at, spot.to);
          return apart(shown, volts) < CLOSE ? [] : [`${fault.id}: ${spot.id} ${shown} ${volts}`];
        });
      });
      expect(off).toEqual([]);
    });

    it('is what most of them are worked out by', () => {
      expect(quickOnes.length).toBeGreaterThan(0.5 * faults.length);
    });
  },
);

/** The full scale that a spot was read on: as the text says, else the first that holds it. */
function scaleOf(
  { range }: { readonly range: number | undefined },
  volts: number,
): number | undefined {
  return range ?? [2.5, 10, 50, 250, 500, 1000].find((scale) => Math.abs(volts) <= scale);
}
