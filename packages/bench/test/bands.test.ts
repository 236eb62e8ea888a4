import { restModel } from '@setwright/analysis';
import type { Circuit, Part, Value } from '@setwright/circuit';
import { describe, expect, it } from 'vitest';
import { loadOf } from '../src/chart/meter.ts';
import { chartGrounds, shownIn } from '../src/chart/readings.ts';
import type { Deviation } from '../src/chart/tolerances.ts';
import { exampleSet } from './example-set.ts';

/** Evenly spread numbers between 0 and 1, the same in every run (a linear congruence). */
function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}

/** A deviation drawn so that the tolerance holds for 19 of 20: two standard deviations of a bell. */
function drawn({ up, down }: Deviation, random: () => number): number {
  const bell = Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  return (bell > 0 ? up : down) * (bell / 2);
}

/** The part with what was drawn for it. */
function deviating(part: Part, kind: Deviation['parameter']['kind'], by: number): Part {
  const values = (slot: string, value: number): Part => {
    const written: Value = part.values[slot] ?? {
      value,
      dimension: 'ratio',
      text: '',
      place: part.place,
    };
    return { ...part, values: { ...part.values, [slot]: { ...written, value } } };
  };
  switch (kind) {
    case 'draw':
      return values('draw', Math.max(0.05, 1 + by));
    case 'volts':
      return {
        ...part,
        supplyTaps: part.supplyTaps.map((tap) =>
          tap.volts === undefined ? tap : { ...tap, volts: tap.volts * (1 + by) },
        ),
      };
    case 'ohms': {
      const { setting } = part;
      if (setting?.kind === 'ohms')
        return { ...part, setting: { ...setting, ohms: setting.ohms * Math.max(0.05, 1 + by) } };
      const times = Math.max(0.05, 1 + by);
      if (part.supplyTaps.some(({ resistance }) => resistance !== undefined))
        return {
          ...part,
          supplyTaps: part.supplyTaps.map((tap) =>
            tap.resistance === undefined ? tap : { ...tap, resistance: tap.resistance * times },
          ),
        };
      const ohms = part.values.resistance?.value;
      return ohms === undefined ? part : values('resistance', ohms * times);
    }
    default:
      return part;
  }
}

const SAMPLES = 240;

describe.each(['five-tube-trf', 'heater-tubes'])('the bands of %s', (name) => {
  const circuit = exampleSet(name);
  const { chart, known, deviations, standing } = chartGrounds(circuit);
  // What is drawn below. The bands are reckoned of these alone: nothing in a text tells the grid
  // and filament currents of a single tube.
  const varied = deviations.filter(
    ({ parameter }) =>
      parameter.kind === 'draw' || parameter.kind === 'volts' || parameter.kind === 'ohms',
  );
  const shown = shownIn(standing, known, chart.meter, varied);
  const spots = chart.readings.flatMap((spot) => {
    const found = spot.state === 'on' && spot.quantity === 'voltage' ? shown(spot) : undefined;
    return found && !spot.at.includes('filament') ? [{ ...spot, expected: found.expected }] : [];
  });
  const random = seeded(1926);
  const samples = Array.from({ length: SAMPLES }, () => {
    const parts = new Map(standing.circuit.partNamed);
    for (const deviation of varied) {
      const { kind, part } = deviation.parameter;
      const before = parts.get(part);
      if (before) parts.set(part, deviating(before, kind, drawn(deviation, random)));
    }
    const drawnSet: Circuit = { ...standing.circuit, parts: [...parts.values()], partNamed: parts };
    const model = restModel(drawnSet, standing.settings, { held: standing.held, ...known });
    return spots.map(({ at, to, scale }) => {
      const load = loadOf(chart.meter, scale);
      return model?.asItIs.metered(at, to ?? '', load)?.value ?? Number.NaN;
    });
  });

  it('hold the readings of nineteen sets of twenty, drawn at random', () => {
    const misses = spots.flatMap(({ at, expected }, index) => {
      const inside = samples.filter((values) => {
        const value = values[index] as number;
        return value >= expected.low && value <= expected.high;
      }).length;
      // With 240 draws 95 % is good to about 3 %.
      return inside >= 0.91 * SAMPLES ? [] : [`${at}: ${inside} of ${SAMPLES}`];
    });
    expect(misses).toEqual([]);
  });

  it('are not wider than the readings make them, the error of the meter left out', () => {
    const wide = spots.flatMap(({ at, expected }, index) => {
      const values = samples.map((each) => each[index] as number).sort((a, b) => a - b);
      const low = values[Math.floor(0.025 * SAMPLES)] as number;
      const high = values[Math.ceil(0.975 * SAMPLES) - 1] as number;
      const meter = Math.max(1e-3, 0.01 * Math.abs(expected.value));
      const band = expected.high - expected.low - 2 * meter;
      if (high - low < 0.02) return [];
      return band < 1.35 * (high - low) ? [] : [`${at}: ${band} for ${high - low}`];
    });
    expect(wide).toEqual([]);
  });
});
