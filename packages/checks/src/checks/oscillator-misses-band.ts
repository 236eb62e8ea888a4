import type { TunedCircuit } from '@setwright/analysis';
import type { Circuit, Finding } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { superheterodyneExample } from '../examples/superheterodyne-example.ts';
import { rewound } from '../fixes/edits.ts';
import { type SignalCircuit, signalCircuits } from '../radio/signal-circuits.ts';
import { turnsFor } from '../radio/turns-for.ts';
import type { Study } from '../study.ts';
import { alsoPart, finding } from '../words/finding.ts';

/** A local oscillator whose range does not go with the band. */
export const oscillatorMissesBand: Check = {
  id: 'oscillator-misses-band',
  group: 'Radio frequency',
  severity: 'warning',
  summary: 'A local oscillator that cannot stand off the whole band by the intermediate frequency.',
  why: 'Where the oscillator does not reach, nothing comes out of the mixer at the intermediate frequency: that end of the dial is dead.',
  silent: [
    'An intermediate frequency that is neither said nor to be reckoned.',
    'The oscillator may stand above the band or below it: one of the two is enough.',
    'An oscillator at half of that, whose second harmonic does the work.',
    'An oscillator that misses by less than the reckoning may be out.',
    'A set that does not say what it tunes, or a coil of which not enough is said.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: superheterodyneExample({ oscillatorTurns: 30 }),
  passes: superheterodyneExample({}),
  find(study) {
    const { circuit } = study;
    const band = circuit.tunes;
    if (!band || !study.tubes.some(({ roles }) => roles.includes('oscillator'))) return [];
    const all = signalCircuits(study);
    const intermediate = intermediateFrequency(circuit, all);
    if (intermediate === undefined) return [];
    const [low, high] = [band.low.value, band.high.value];
    return all.flatMap((each) => {
      if (each.use !== 'oscillator' || each.tuned.tuner === undefined) return [];
      const { lowest, highest } = each.tuned;
      if (lowest.value === undefined || highest.value === undefined) return [];
      const wanted = [
        [low + intermediate, high + intermediate],
        [low - intermediate, high - intermediate],
      ] as const;
      const isFit = wanted.some(([from, to]) =>
        [1, 2].some((harmonic) => misses(each.tuned, from / harmonic, to / harmonic) === 0),
      );
      if (isFit) return [];
      const nearest =
        misses(each.tuned, ...wanted[0]) <= misses(each.tuned, ...wanted[1])
          ? wanted[0]
          : wanted[1];
      return [told(study, each.tuned, intermediate, nearest)];
    });
  },
};

/** The intermediate frequency in hertz: as said, else that of the circuits behind the mixer. */
function intermediateFrequency(
  circuit: Circuit,
  all: readonly SignalCircuit[],
): number | undefined {
  for (const { kind, values } of circuit.parts)
    if ((kind === 'transformer' || kind === 'coil') && values.tuned) return values.tuned.value;
  const found = all.find(({ use, tuned }) => use === 'intermediate' && tuned.tuner === undefined);
  return found?.tuned.lowest.value;
}

/** By how much, as a share, a circuit misses a range, the error band taken off. */
function misses({ lowest, highest }: TunedCircuit, from: number, to: number): number {
  if (lowest.value === undefined || highest.value === undefined || !(from > 0)) return Infinity;
  const down = lowest.value * (1 - (lowest.because.relativeError ?? 0));
  const up = highest.value * (1 + (highest.because.relativeError ?? 0));
  return Math.max(0, down / from - 1) + Math.max(0, 1 - up / to);
}

function told(
  study: Study,
  tuned: TunedCircuit,
  intermediate: number,
  [from, to]: readonly [number, number],
): Finding {
  const { circuit } = study;
  const kc = (hertz: number) => formatQuantity(hertz, 'frequency', 'period', 4);
  const [low, high] = [tuned.lowest.value ?? 0, tuned.highest.value ?? 0];
  const winding = circuit.partNamed.get(tuned.windings[0]?.edge.part ?? '');
  const tuner = circuit.partNamed.get(tuned.tuner ?? '');
  const henries = tuned.inductance.value ?? 0;
  const wanted = henries * (low / from) ** 2;
  const spans = high / low >= (to / from) * 0.95;
  return finding({
    check: 'oscillator-misses-band',
    severity: 'warning',
    message: `The oscillator circuit ${tuned.name} with ${tuned.tuner ?? 'its condenser'} goes from ${kc(low)} to ${kc(high)}; for this band and ${kc(intermediate)} it wants ${kc(from)} to ${kc(to)}.`,
    why: 'Stations for which the oscillator does not stand off by the intermediate frequency are not heard.',
    cure: spans
      ? `Make ${tuned.name} ${formatQuantity(wanted, 'inductance')} where it has ${formatQuantity(henries, 'inductance')}.`
      : `Use a condenser that spans more for ${tuned.tuner ?? 'it'}, or take a padding condenser out.`,
    place: winding?.place ?? circuit.namePlace,
    related: tuner ? [alsoPart(tuner, 'the condenser that tunes it')] : [],
    parts: [winding?.name ?? '', tuner?.name ?? ''].filter((name) => name !== ''),
    fixes:
      spans && tuned.windings.length === 1 && henries > 0
        ? rewound(
            winding,
            turnsFor(tuned.windings[0]?.edge.values, wanted / henries),
            formatQuantity(wanted, 'inductance'),
          )
        : [],
  });
}
