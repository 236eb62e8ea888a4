import { type TunedCircuit, tunedCircuits } from '@setwright/analysis';
import type { Finding, Part } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { rewound } from '../fixes/edits.ts';
import { type SignalCircuit, signalCircuits } from '../radio/signal-circuits.ts';
import { turnsFor } from '../radio/turns-for.ts';
import type { Study } from '../study.ts';
import { alsoPart, finding, listed } from '../words/finding.ts';

/** Positions times parts beyond which the union over positions is not looked at. */
const MOST_WORK = 20_000;

/** A tuned circuit that does not reach an end of the band. */
export const bandNotCovered: Check = {
  id: 'band-not-covered',
  group: 'Radio frequency',
  severity: 'warning',
  summary: 'A circuit tuned by hand that misses an end of the band that the set tunes.',
  why: 'The stations at that end of the dial cannot be tuned in.',
  silent: [
    'A set that does not say what it tunes.',
    'A circuit that misses the end by less than the reckoning may be out: 2 % at the long-wave end, 10 % at the short.',
    'Wave traps, loading coils, untuned stages, intermediate circuits and oscillators.',
    'Taps and switches reach the band together: what some position covers is covered.',
    'The first circuit, with the aerial straight on it or on a tapped winding, is only told as information.',
    'A coil or condenser of which not enough is said, or a winding that turns.',
  ],
  source: 'resonance: Lord Kelvin (1853); error band: common practice',
  needsWholeText: true,
  fails: set('40 turns'),
  passes: set('58 turns'),
  find(study) {
    const { circuit } = study;
    const band = circuit.tunes;
    if (!band) return [];
    const [low, high] = [band.low.value, band.high.value];
    const short = signalCircuits(study).flatMap((each) => {
      const { tuned } = each;
      if (each.use !== 'signal' || turns(study, tuned)) return [];
      const missed = missedEnds(tuned.lowest, tuned.highest, low, high);
      return missed ? [{ each, missed }] : [];
    });
    if (short.length === 0) return [];
    const over = overPositions(study);
    if (!over) return [];
    return short.flatMap(({ each, missed }) => {
      const others = over(each.tuned);
      const still = missed.filter((end) => !others.some((other) => covers(other, end)));
      return still.length > 0 ? [told(study, each, still, low, high)] : [];
    });
  },
};

/** Whether a winding of the circuit turns, so that one setting does not say what it reaches. */
function turns(study: Study, tuned: TunedCircuit): boolean {
  return tuned.windings.some(({ edge }) => {
    const part = study.circuit.partNamed.get(edge.part);
    return part?.kind === 'variometer' || part?.setting !== undefined;
  });
}

interface Missed {
  readonly end: 'low' | 'high';
  /** Hertz it should reach, and does. */
  readonly wanted: number;
  readonly reaches: number;
}

function missedEnds(
  lowest: TunedCircuit['lowest'],
  highest: TunedCircuit['highest'],
  low: number,
  high: number,
): readonly Missed[] | undefined {
  const missed: Missed[] = [];
  const { value: down } = lowest;
  const { value: up } = highest;
  if (down !== undefined && down * (1 - (lowest.because.relativeError ?? 0)) > low)
    missed.push({ end: 'low', wanted: low, reaches: down });
  if (up !== undefined && up * (1 + (highest.because.relativeError ?? 0)) < high)
    missed.push({ end: 'high', wanted: high, reaches: up });
  return missed.length > 0 ? missed : undefined;
}

function covers({ lowest, highest }: TunedCircuit, { end, wanted }: Missed): boolean {
  const edge = end === 'low' ? lowest : highest;
  if (edge.value === undefined) return true;
  const { value } = edge;
  const error = edge.because.relativeError ?? 0;
  return end === 'low' ? value * (1 - error) <= wanted : value * (1 + error) >= wanted;
}

/** What the same tuner reaches in the other positions; undefined for more than can be tried. */
function overPositions(
  study: Study,
): ((tuned: TunedCircuit) => readonly TunedCircuit[]) | undefined {
  const others = study.everyPosition.slice(1);
  if (others.length * study.circuit.parts.length > MOST_WORK) return undefined;
  let all: readonly TunedCircuit[] | undefined;
  return ({ tuner }) => {
    all ??= others.flatMap(({ settings }) => tunedCircuits(study.circuit, settings));
    return all.filter((other) => other.tuner === tuner);
  };
}

function told(
  study: Study,
  { tuned, aerial }: SignalCircuit,
  missed: readonly Missed[],
  low: number,
  high: number,
): Finding {
  const { circuit } = study;
  const tuner = circuit.partNamed.get(tuned.tuner ?? '');
  const windings = tuned.windings.flatMap(({ edge }) => circuit.partNamed.get(edge.part) ?? []);
  const kc = (hertz: number) => formatQuantity(hertz, 'frequency');
  const how = missed.map(({ end, wanted, reaches }) => {
    const share = formatQuantity(Math.abs(reaches / wanted - 1), 'percent', 'period', 2);
    const way = end === 'low' ? 'down' : 'up';
    return `${way} to ${kc(reaches)} only, ${share} short of ${kc(wanted)}`;
  });
  const isFirst = aerial === 'straight' || aerial === 'tapped';
  const place = windings[0]?.place ?? circuit.namePlace;
  return finding({
    check: 'band-not-covered',
    severity: isFirst ? 'information' : 'warning',
    message: `${tuned.name} with ${tuned.tuner ?? 'its condenser'} tunes ${listed(how)}.`,
    why: isFirst
      ? 'The aerial shifts this circuit, and many were made so; other stations at that end may stay weak.'
      : 'What lies between cannot be tuned in.',
    ...cureOf(tuned, windings[0], tuner, missed, low, high),
    place,
    related: [
      ...(tuner ? [alsoPart(tuner, 'the condenser that tunes it')] : []),
      ...(circuit.tunes
        ? [{ place: circuit.tunes.low.place, message: 'the band of the set' }]
        : []),
    ],
    parts: [...windings.map(({ name }) => name), ...(tuner ? [tuner.name] : [])],
  });
}

function cureOf(
  tuned: TunedCircuit,
  winding: Part | undefined,
  tuner: Part | undefined,
  missed: readonly Missed[],
  low: number,
  high: number,
): Pick<Finding, 'cure' | 'fixes'> {
  const { value: henries } = tuned.inductance;
  const { value: most } = tuned.mostCapacity;
  const { value: least } = tuned.leastCapacity;
  if (henries === undefined || most === undefined || least === undefined)
    return { cure: 'Change the coil or its condenser.', fixes: [] };
  const reach = Math.sqrt(most / least);
  const [first] = missed;
  const name = tuner?.name ?? 'the condenser';
  if (!first || missed.length > 1 || reach < high / low) {
    const needed = least * (high / low) ** 2;
    const added = formatQuantity(Math.max(0, needed - most), 'capacitance', 'period', 2);
    const cure = `Use a condenser with about ${added} more for ${name}, or one with a lower least capacity: no coil lets this one span ${formatQuantity(high / low, 'ratio')} to 1.`;
    return { cure, fixes: [] };
  }
  const factor = (first.reaches / first.wanted) ** 2;
  const [only] = tuned.windings;
  const inductance = formatQuantity(henries * factor, 'inductance');
  const turns =
    tuned.windings.length === 1 && only ? turnsFor(only.edge.values, factor) : undefined;
  const now = formatQuantity(henries, 'inductance');
  const wound = turns === undefined ? '' : `, about ${turns} turns of the same wire`;
  const fixes = tuned.windings.length === 1 ? rewound(winding, turns, inductance) : [];
  return { cure: `Make ${tuned.name} ${inductance} where it has ${now}${wound}.`, fixes };
}

function set(turns: string): string {
  return `receiver "Gull Rock" {
  tunes 550 kc to 1500 kc
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+45 45 V
  }
  post ANT aerial 250 mmfd
  post GND ground
  wire B- to A- to GND
  rheostat RH1 20 ohms from A- set 4 ohms
  detector stage DET {
    coil L1 {
      form 2 3/4 in
      winding aerial 10 turns of 26 DCC from GND to ANT
      winding grid ${turns} of 26 DCC beside aerial spaced 1/4 in from GND
    }
    condenser C1 variable 14 to 365 mmfd rotor to L1.grid.start stator to L1.grid.finish
    condenser C2 .00025 mfd from L1.grid.finish to V1.grid
    leak R1 2 meg from V1.grid to A+
    tube V1 01-A {
      filament from RH1 to A+
    }
    condenser C3 .001 mfd from V1.plate to A-
    phones PH1 2000 ohms from V1.plate to B+45
  }
}
`;
}
