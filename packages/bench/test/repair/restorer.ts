import type { Bench, BenchEntry } from '@setwright/circuit';
import { type ColdNetwork, coldNetwork } from '../../src/chart/cold-network.ts';
import { reckonCold, reckonOn } from '../../src/chart/expected.ts';
import { errorOf, type Meter } from '../../src/chart/meter.ts';
import { modelOf, type RestSource, sourceOf } from '../../src/chart/rest-source.ts';
import type { Spot } from '../../src/chart/spot.ts';
import { COLD_FILAMENT } from '../../src/chart/tolerances.ts';
import { edited } from '../../src/edits/edited.ts';
import type { Symptom } from '../../src/faults/fault.ts';
import type { CaseBook, Cause } from '../../src/suspects/causes.ts';
import { OPEN_FROM } from '../../src/suspects/foreseen.ts';
import { clickTold, dialTold, loudnessTold, othersTold } from '../../src/suspects/hearing.ts';
import type { Test } from '../../src/suspects/tests.ts';
import { agedSet } from './aged-set.ts';
import { between, type Random } from './random.ts';

/** Someone at the bench with a faulty set, who does what is asked and writes it down. */
export interface Restorer {
  /** What is heard of the set before anything is measured. */
  listens(): readonly BenchEntry[];
  does(test: Test): BenchEntry;
}

const place = { file: 'bench', start: 0, end: 0 };
const nothing: BenchEntry = {
  kind: 'state',
  at: undefined,
  to: undefined,
  value: undefined,
  range: undefined,
  words: [],
  text: undefined,
  place,
};

/** A bench of these lines. */
export function benchOf(entries: readonly BenchEntry[]): Bench {
  return { title: 'repair', entries, place };
}

/** So many figures people write down. */
const FIGURES = 3;

/**
 * A restorer at a set that is somewhere within its tolerances and has a fault, solved from the
 * beginning. What is heard, clicks and dials are those of the fault, told with the usual slips.
 */
export function restorerAt(book: CaseBook, cause: Cause, random: Random): Restorer {
  const { sound, circuit } = book;
  const { meter } = sound.chart;
  const aged = agedSet(sound, random);
  const edits = cause.faults.flatMap((fault) => fault.edits);
  const faulty = edited(aged.standing, edits);
  const source = sourceOf(faulty, aged.known, modelOf(faulty, aged.known)?.asItIs, []);
  const network = coldNetwork(faulty, true, aged.known);
  const { sounding } = cause;
  const heard = (text: string): BenchEntry => ({ ...nothing, kind: 'heard', text });
  return {
    listens() {
      const told = sounding.isHeardKnown ? toldOf(cause, random) : [];
      // Without anything amiss the set would not be here, or plays and its dials are noted.
      const [first] = sounding.heard;
      const isIt = told.some((each) => isToldOf(each, sounding.heard));
      if (first !== undefined && !isIt) return [first, ...told].map(heard);
      if (told.length > 0) return told.map(heard);
      if (!sounding.isHeardKnown) return [];
      return book.dials.map((at) => ({
        ...nothing,
        kind: 'dial',
        at,
        value: { value: 50, dimension: 'number', text: '50', place },
      }));
    },
    does(test) {
      if (test.kind === 'click') {
        const told = clickTold(sounding.clicks.get(test.tube) ?? Number.NEGATIVE_INFINITY);
        const drawn = random();
        const word =
          drawn < told.silent ? 'silent' : drawn < told.silent + told.faint ? 'faint' : 'heard';
        return { ...nothing, kind: 'click', at: test.tube, words: [word] };
      }
      if (test.kind === 'dial') {
        const isDead = sounding.deadDials.has(test.dial) || sounding.heard.has('silent');
        const told = dialTold(sounding.dialsLeft.get(test.dial) ?? 1, isDead);
        const entry = { ...nothing, kind: 'dial', at: test.dial } as const;
        const drawn = random();
        if (drawn < told['no effect']) return { ...entry, words: ['no', 'effect'] };
        if (drawn < told['no effect'] + told.broad) return { ...entry, words: ['broad'] };
        return { ...entry, value: { value: 50, dimension: 'number', text: '50', place } };
      }
      const { spot } = test;
      const isTube = circuit.partNamed.get(spot.across ?? '')?.kind === 'tube';
      const { value, scale } =
        spot.state === 'cold' ? coldAt(network, spot, isTube, random) : hotAt(source, spot, meter);
      return written(spot, withError(spot, value, scale, meter, random), scale);
    },
  };
}

const loudness: readonly string[] = ['silent', 'faint', 'weak'];

/** Whether what is told is of what a set does, if under another name. */
function isToldOf(told: string, does: ReadonlySet<Symptom>): boolean {
  if (loudness.includes(told)) return loudness.some((each) => does.has(each as Symptom));
  return othersTold(does).some(({ symptom, share }) => symptom === told && share > 0.05);
}

/** What is told of a set that does this. */
function toldOf({ sounding }: Cause, random: Random): readonly string[] {
  const told: string[] = [];
  let left = random();
  for (const { symptom, share } of loudnessTold(sounding.heard)) {
    left -= share;
    if (left >= 0) continue;
    if (symptom !== undefined) told.push(symptom);
    break;
  }
  for (const { symptom, share } of othersTold(sounding.heard))
    if (random() < share) told.push(symptom);
  return told;
}

interface Shown {
  readonly value: number;
  readonly scale: number | undefined;
}

function hotAt(source: RestSource, spot: Spot, meter: Meter): Shown {
  const found = reckonOn(source, spot, meter);
  // Where nothing ties two points together a meter shows nothing.
  return { value: found?.reckoning.value ?? 0, scale: found?.scale };
}

function coldAt(network: ColdNetwork, spot: Spot, isTube: boolean, random: Random): Shown {
  const ohms = reckonCold(network, spot)?.value ?? Number.POSITIVE_INFINITY;
  const share = isTube ? 1 + between(random, 0 - COLD_FILAMENT, COLD_FILAMENT) : 1;
  return {
    value: ohms >= OPEN_FROM ? Number.POSITIVE_INFINITY : ohms * share,
    scale: undefined,
  };
}

function withError(
  { quantity }: Spot,
  value: number,
  scale: number | undefined,
  meter: Meter,
  random: Random,
): number {
  if (!Number.isFinite(value)) return value;
  const off = between(random, -1, 1) * errorOf(meter, quantity, value, scale);
  const read = Number((value + off).toPrecision(FIGURES));
  return quantity === 'resistance' ? Math.max(0, read) : read;
}

function written(spot: Spot, read: number, scale: number | undefined): BenchEntry {
  const { at, to, across, quantity, lifted } = spot;
  const isOpen = !Number.isFinite(read);
  const amount = (value: number) => ({ value, dimension: quantity, text: String(value), place });
  return {
    ...nothing,
    kind: 'reading',
    at: across ?? at,
    to: across === undefined ? to : undefined,
    value: isOpen ? undefined : amount(read),
    range: scale === undefined ? undefined : amount(scale),
    words: [...(lifted ? ['lifted'] : []), ...(isOpen ? ['open'] : [])],
  };
}
