import { type TunedCircuit, tunedAt } from '@setwright/analysis';
import type { Circuit, Finding } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { superheterodyneExample } from '../examples/superheterodyne-example.ts';
import { coilOf } from '../radio/radio-wiring.ts';
import { signalCircuits } from '../radio/signal-circuits.ts';
import { fieldBetween } from '../radio/winding-fields.ts';
import type { Study } from '../study.ts';
import { plateResistanceOf } from '../tubes/tube-data.ts';
import { alsoPart, finding } from '../words/finding.ts';

/** What is stated of two circuits lets them differ by this share without being out. */
const BOOK_ERROR = 0.02;

/** No intermediate circuit of the time at work has more than about this Q. Common practice. */
const MOST_WORKING_Q = 60;

/** Circuits of the intermediate amplifier that peak apart. */
export const intermediatesDiffer: Check = {
  id: 'intermediates-differ',
  group: 'Radio frequency',
  severity: 'warning',
  summary: 'Circuits of the intermediate amplifier that peak at different frequencies.',
  why: 'Each circuit then takes away what the one before let through: weak, and two humps on every station.',
  silent: [
    'Circuits that peak within half their own width of one another, what the plates load them with counted.',
    'Trimmers that can bring them together.',
    'Circuits of which not enough is said.',
    'A difference that is smaller than coils and condensers are good to.',
    'Circuits staggered on purpose, with a `meant`.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: superheterodyneExample({ secondTuning: '.0006 mfd' }),
  passes: superheterodyneExample({}),
  find(study) {
    const peaks = signalCircuits(study).flatMap(({ use, tuned }) =>
      use === 'intermediate' ? (peakOf(study.circuit, tuned) ?? []) : [],
    );
    const [first, ...others] = [...peaks].sort((a, b) => a.low - b.low);
    if (!first || others.length === 0) return [];
    // Where one frequency lies in the reach of all there is nothing wrong.
    const bottom = Math.max(...peaks.map(({ low }) => low));
    const top = Math.min(...peaks.map(({ high }) => high));
    if (top >= bottom) return [];
    const highest = peaks.find(({ low }) => low === bottom);
    const lowest = peaks.find(({ high }) => high === top);
    if (!highest || !lowest || highest === lowest) return [];
    const apart = bottom / top - 1;
    const half = Math.max(widthOf(study, highest, bottom), widthOf(study, lowest, top)) / 2;
    if (apart <= Math.max(half, BOOK_ERROR)) return [];
    return [told(study, highest, lowest, bottom, top, peaks.length)];
  },
};

interface Peak {
  readonly tuned: TunedCircuit;
  /** Hertz it can be brought to by its trimmers. */
  readonly low: number;
  readonly high: number;
}

function peakOf(circuit: Circuit, tuned: TunedCircuit): Peak | undefined {
  const { lowest, highest, mostCapacity } = tuned;
  if (lowest.value === undefined || highest.value === undefined || !mostCapacity.value)
    return undefined;
  let [less, more] = [0, 0];
  for (const name of tuned.beside) {
    const part = circuit.partNamed.get(name);
    const range = part?.ranges.capacitance;
    if (!part || !range) continue;
    // A trimmer was counted as backed off.
    more += range.high.value - range.low.value;
    less += part.words.has('trimmer') ? 0 : range.high.value - range.low.value;
  }
  const at = mostCapacity.value;
  return {
    tuned,
    low: lowest.value * Math.sqrt(at / (at + more)),
    high: highest.value * Math.sqrt(at / Math.max(at - less, at / 10)),
  };
}

/** Width between half-power points as a share of the frequency, the plate's load counted. */
function widthOf(study: Study, { tuned }: Peak, frequency: number): number {
  const { radio } = study;
  const { resistance, reactance, loadedQ } = tunedAt(tuned, frequency);
  const own = 1 / Math.min(loadedQ.value ?? MOST_WORKING_Q, MOST_WORKING_Q);
  const names = new Set(tuned.windings.map(({ edge }) => edge.part));
  let widest = own;
  for (const { tube, winding, plateEnd, farEnd } of radio.plateCircuits) {
    const ohms = plateResistanceOf(tube);
    const [step] = tuned.windings;
    const part = step && study.circuit.partNamed.get(step.edge.part);
    if (!part || names.has(winding.name) || coilOf(winding) !== coilOf(part)) continue;
    if (ohms === undefined || reactance.value === undefined || resistance.value === undefined)
      return Number.POSITIVE_INFINITY;
    const mutual = fieldBetween(
      radio.coil(coilOf(part)),
      { winding: part, from: `${part.name}.start`, to: `${part.name}.finish` },
      { winding, from: plateEnd, to: farEnd },
    );
    // What the plate reflects is not known without the coupling.
    if (mutual === undefined) return Number.POSITIVE_INFINITY;
    const reflected = (2 * Math.PI * frequency * mutual) ** 2 / ohms;
    widest = Math.max(widest, own + reflected / reactance.value);
  }
  return widest;
}

function told(
  study: Study,
  high: Peak,
  low: Peak,
  above: number,
  below: number,
  count: number,
): Finding {
  const { circuit } = study;
  const kc = (hertz: number) => formatQuantity(hertz, 'frequency');
  const partOf = ({ tuned }: Peak) => circuit.partNamed.get(tuned.windings[0]?.edge.part ?? '');
  // The odd one out is the one that does not peak where it says, or where the others do.
  const isHighOdd =
    Math.abs(high.tuned.stated?.excess ?? 1) >= Math.abs(low.tuned.stated?.excess ?? 0);
  const odd = isHighOdd ? high : low;
  const other = isHighOdd ? low : high;
  const at = isHighOdd ? above : below;
  const farads = odd.tuned.mostCapacity.value ?? 0;
  const wanted = farads * (at / (isHighOdd ? below : above)) ** 2;
  const change = formatQuantity(Math.abs(wanted - farads), 'capacitance', 'period', 2);
  const [condenser] = odd.tuned.beside;
  const [a, b] = [partOf(odd), partOf(other)];
  const more = wanted > farads;
  return finding({
    check: 'intermediates-differ',
    severity: 'warning',
    message: `${odd.tuned.name} peaks at ${kc(at)} and ${other.tuned.name} at ${kc(isHighOdd ? below : above)}, further apart than either is wide.`,
    why: `Of the ${count} circuits each takes away what the other lets through: weak, and two humps on every station.`,
    cure: `Give ${odd.tuned.name} about ${change} ${more ? 'more' : 'less'}${condenser ? ` than ${condenser} has` : ''}, or a transformer of the same make as the others.`,
    place: a?.place ?? circuit.namePlace,
    related: b ? [alsoPart(b, 'the circuit that it differs from')] : [],
    parts: [a?.name ?? '', b?.name ?? ''].filter((name) => name !== ''),
  });
}
