import type { Part, Step } from '@setwright/circuit';
import type { Study } from '../study.ts';
import type { TubeAt } from '../tubes/tubes.ts';
import { handlesRadio, radioChains, stageOf } from './radio-chain.ts';
import { isAirWinding, lowestFrequency } from './radio-use.ts';

/** How a plate's radio current gets home. */
export interface PlateReturn {
  readonly tube: TubeAt;
  /** Hertz at which it is judged: the end of the band, or the frequency, at which it is worst. */
  readonly frequency: number;
  /** Ohms of the way, by the sizes of its steps. */
  readonly ohms: number;
  /** Share by which the plate's radio current falls for it. */
  readonly keeps: number;
  /** Parts on the way with something to say, the largest impedance first. */
  readonly through: readonly Part[];
  /** Junctions passed, from rest outwards, with the ohms up to each. */
  readonly passed: readonly { readonly junction: number; readonly ohms: number }[];
}

/** Two or more stages whose radio current goes home through the same impedance. */
export interface SharedReturn {
  readonly tubes: readonly TubeAt[];
  readonly frequency: number;
  readonly ohms: number;
  /** Of the loop through what they share; at 1 it sings by itself. */
  readonly loopGain: number;
  readonly parts: readonly Part[];
  /** Where the shared way begins, seen from the tubes. */
  readonly junction: number;
  /** True when an impedance on it was taken for a usual one because the text gives none. */
  readonly isSupposed: boolean;
}

/** From here on two stages that share a return are told. */
export const LEAST_LOOP_GAIN = 0.3;
/** From here on they warn. */
export const LOUD_LOOP_GAIN = 0.7;

/** Farads of wiring and socket at a plate circuit's cold end: 10 mmfd. Common practice. */
const STRAY = 10e-12;

/** Stages beyond which a loop's gain is not reckoned further. */
const MOST_STAGES = 6;

/** The ways home of the radio current of every plate that has any. */
export function plateReturns(study: Study): readonly PlateReturn[] {
  return study.tubes.flatMap((tube) => {
    if (!tube.plate || !handlesRadio(study, tube)) return [];
    const stage = stageOf(tube);
    if (!stage) return [];
    const found = frequenciesOf(study, tube).flatMap(
      (frequency) => returnAt(study, tube, stage.plateCircuit, frequency) ?? [],
    );
    return found.sort((a, b) => a.keeps - b.keeps).slice(0, 1);
  });
}

function frequenciesOf({ circuit }: Study, tube: TubeAt): readonly number[] {
  const low = lowestFrequency(circuit, tube);
  if (low === undefined) return [];
  const high = circuit.tunes?.high.value;
  return tube.roles.includes('intermediate') || high === undefined ? [low] : [low, high];
}

function returnAt(
  study: Study,
  tube: TubeAt,
  plateCircuit: number,
  frequency: number,
): PlateReturn | undefined {
  const { radio } = study;
  const way = radio.ways(frequency).at(tube.plate?.junction ?? -1);
  if (!way) return undefined;
  // Wiring and sockets are a way home in any case.
  const stray = 1 / (2 * Math.PI * frequency * STRAY);
  let [resistive, reactive] = [0, 0];
  const sizes = sizesOf(study, way.steps(), frequency);
  for (const [part, ohms] of sizes) {
    if (isReactive(part)) reactive += ohms;
    else resistive += ohms;
  }
  const passed = way.steps().map(({ junction }) => ({
    junction,
    ohms: Math.min(stray, radio.ways(frequency).at(junction)?.ohms ?? 0),
  }));
  const keeps =
    way.ohms > stray
      ? plateCircuit / Math.hypot(plateCircuit, stray)
      : plateCircuit / Math.hypot(plateCircuit + resistive, reactive);
  const ohms = Math.min(stray, way.ohms);
  return { tube, frequency, ohms, keeps, through: tellingParts(sizes), passed };
}

/** Ohms of every part on a way from rest; windings on air count as wire. */
function sizesOf(
  { circuit, radio }: Study,
  steps: readonly Step[],
  frequency: number,
): ReadonlyMap<Part, number> {
  const sizes = new Map<Part, number>();
  let before = 0;
  for (const { part: name, junction } of steps) {
    const part = circuit.partNamed.get(name);
    const here = radio.ways(frequency).at(junction)?.ohms ?? before;
    if (part && !isAirWinding(circuit, part))
      sizes.set(part, (sizes.get(part) ?? 0) + here - before);
    before = here;
  }
  return sizes;
}

/** The parts that make a twentieth of the whole or more, the largest first. */
function tellingParts(sizes: ReadonlyMap<Part, number>): readonly Part[] {
  let whole = 0;
  for (const ohms of sizes.values()) whole += ohms;
  return [...sizes]
    .filter(([, ohms]) => ohms > 0 && ohms >= whole / 20)
    .sort((a, b) => b[1] - a[1])
    .map(([part]) => part);
}

function isReactive({ kind }: Part): boolean {
  return ['condenser', 'winding', 'choke', 'phones', 'horn', 'speaker'].includes(kind);
}

/**
 * The stages of a row that share a way home with a loop gain of `LEAST_LOOP_GAIN` and more, each
 * group once, where it is worst.
 *
 * A shared impedance Z hands the last stage's current on to the first with Z over the first's plate
 * circuit, and the stages between give their gains: with the usual tube, 2 kilohms shared by two
 * stages or 300 ohms shared by three are enough. Common practice, roughly computed.
 */
export function sharedReturns(
  study: Study,
  returns: readonly PlateReturn[],
): readonly SharedReturn[] {
  const places = radioChains(study);
  const groups = new Map<string, { tubes: PlateReturn[]; ohms: number; junction: number }>();
  for (const each of returns) {
    const chain = places.get(each.tube)?.chain;
    if (chain === undefined) continue;
    for (const { junction, ohms } of each.passed) {
      if (!(ohms > 0)) continue;
      const key = `${chain} ${junction}`;
      const known = groups.get(key);
      if (known) {
        known.tubes.push(each);
        known.ohms = Math.max(known.ohms, ohms);
      } else groups.set(key, { tubes: [each], ohms, junction });
    }
  }
  const worst = new Map<number, SharedReturn>();
  for (const { tubes, ohms, junction } of groups.values()) {
    const found = tubes.length > 1 ? sharedBy(study, places, tubes, ohms, junction) : undefined;
    const chain = places.get(tubes[0]?.tube as TubeAt)?.chain ?? -1;
    if (found && found.loopGain > (worst.get(chain)?.loopGain ?? 0)) worst.set(chain, found);
  }
  return [...worst.values()].filter(({ loopGain }) => loopGain >= LEAST_LOOP_GAIN);
}

function sharedBy(
  study: Study,
  places: ReturnType<typeof radioChains>,
  returns: readonly PlateReturn[],
  ohms: number,
  junction: number,
): SharedReturn | undefined {
  const row = [...returns].sort(
    (a, b) => (places.get(a.tube)?.place ?? 0) - (places.get(b.tube)?.place ?? 0),
  );
  const [first, last] = [row[0], row.at(-1)];
  if (!first || !last) return undefined;
  const stage = stageOf(first.tube);
  const between = (places.get(last.tube)?.place ?? 0) - (places.get(first.tube)?.place ?? 0);
  if (!stage || between < 1) return undefined;
  const gain = stage.gain ** Math.min(between, MOST_STAGES);
  // A high return of its own keeps a stage's current out of what is shared.
  const kept = Math.min(first.keeps, last.keeps);
  const loopGain = (kept * gain * ohms) / stage.plateCircuit;
  const parts = sharedParts(study, first.frequency, junction);
  return {
    tubes: row.map(({ tube }) => tube),
    frequency: first.frequency,
    ohms,
    loopGain,
    parts,
    junction,
    isSupposed: parts.some(
      (part) => part.kind === 'battery' && part.values.resistance === undefined,
    ),
  };
}

/** What matters of a way home from rest as far as a junction. */
function sharedParts(study: Study, frequency: number, junction: number): readonly Part[] {
  const steps = study.radio.ways(frequency).at(junction)?.steps() ?? [];
  return tellingParts(sizesOf(study, steps, frequency));
}
