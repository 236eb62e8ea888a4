import { isSupply } from '@setwright/circuit';
import { type ColdNetwork, coldNetwork } from '../chart/cold-network.ts';
import { type Expected, expectedCold, expectedOn } from '../chart/expected.ts';
import { modelOf, type RestSource, sourceOf, withTubesOut } from '../chart/rest-source.ts';
import type { Deviation } from '../chart/tolerances.ts';
import type { SetStanding } from '../edits/workbench.ts';
import type { FaultyRest, SoundSet } from './sound-set.ts';

/** A faulty set with its state of rest. */
export interface FaultySet {
  readonly faulty: SetStanding;
  readonly rest: FaultyRest['rest'];
}

/**
 * What every reading of the chart would show of a faulty set, in its order; undefined where it
 * cannot be told. Few that want the values want the bands: these are worked out when the first of
 * them is asked for, from the beginning, so that the set itself need not be kept for it.
 *
 * @param again works the same faulty set out once more
 */
export function faultyReadings(
  sound: SoundSet,
  set: FaultySet,
  again: () => FaultySet,
): readonly (Expected | undefined)[] {
  let known: readonly (Expected | undefined)[] | undefined;
  const whole = (): readonly (Expected | undefined)[] => {
    known ??= readingsWith(sound, again(), sound.deviations);
    return known;
  };
  return readingsWith(sound, set, []).map((alone, index) =>
    alone === undefined || alone === sound.chart.readings[index]?.expected
      ? alone
      : new BandedLater(alone.value, index, whole),
  );
}

/** A value whose band is worked out later. A table has thousands: accessors of its own cost more. */
class BandedLater implements Expected {
  readonly value: number;
  readonly #index: number;
  readonly #whole: () => readonly (Expected | undefined)[];

  constructor(value: number, index: number, whole: () => readonly (Expected | undefined)[]) {
    this.value = value;
    this.#index = index;
    this.#whole = whole;
  }

  get low(): number {
    return this.#whole()[this.#index]?.low ?? this.value;
  }

  get high(): number {
    return this.#whole()[this.#index]?.high ?? this.value;
  }
}

/** Every reading of a faulty set with what so much deviation makes of its band. */
function readingsWith(
  sound: SoundSet,
  { faulty, rest }: FaultySet,
  deviations: readonly Deviation[],
): readonly (Expected | undefined)[] {
  const { chart, known } = sound;
  const { meter } = chart;
  let hot: RestSource | undefined;
  const on = (): RestSource => {
    hot ??= besideSound(sound, sourceOf(faulty, known, rest, deviations));
    return hot;
  };
  let out: RestSource | undefined;
  const outOf = (): RestSource => {
    const without = withTubesOut(faulty);
    out ??= sourceOf(without, known, modelOf(without, known)?.asItIs, deviations);
    return out;
  };
  const touched = touchedBy(sound, faulty);
  // A condenser that opens moves no volt: the state of rest is the sound set's own.
  const isAtRest = rest !== undefined && rest.base.state === sound.model?.asItIs.base.state;
  let cold: ColdNetwork | undefined;
  const network = (): ColdNetwork => {
    cold ??= coldNetwork(faulty, true, known);
    return cold;
  };
  return chart.readings.map((spot) => {
    if (spot.state === 'cold') {
      const isSame = spot.lifted ? !touched.parts.has(spot.across ?? '') : !touched.ohms;
      return isSame ? spot.expected : expectedCold(network(), spot, meter, deviations)?.expected;
    }
    if (isAtRest && !spot.tubesOut) return spot.expected;
    return expectedOn(spot.tubesOut ? outOf() : on(), spot, meter, deviations)?.expected;
  });
}

/** Where a meter ties together again what a fault has parted, the sound set's model may serve. */
function besideSound({ model, standing }: SoundSet, source: RestSource): RestSource {
  const isHeldAlike = source.standing.held === standing.held;
  return model && isHeldAlike ? { ...source, tied: [model] } : source;
}

/** The parts that a fault is in, and whether it changes any way for an ohmmeter. */
function touchedBy(
  { standing }: SoundSet,
  { circuit, settings, held }: SetStanding,
): { readonly parts: ReadonlySet<string>; readonly ohms: boolean } {
  const before = standing.circuit;
  const parts = new Set<string>();
  let ohms =
    circuit.junctions.length !== before.junctions.length ||
    settings.positions !== standing.settings.positions ||
    held !== standing.held;
  for (const part of circuit.parts) {
    if (before.partNamed.get(part.name) === part) continue;
    parts.add(part.name);
    for (const within of part.companions) parts.add(within);
    if (part.kind !== 'tube' && !isSupply(part)) ohms = true;
  }
  for (const name of settings.removed) parts.add(name);
  return { parts, ohms };
}
