import {
  alignedGang,
  condenserValues,
  frequencyAtReading,
  readingAtFrequency,
  type TunedCircuit,
  type TunedDial,
  tunedCircuits,
  tunedDial,
} from '@setwright/analysis';
import type { Circuit } from '@setwright/circuit';
import { intermediateFrequency, isOscillator } from './oscillators.ts';

/** A condenser of a tuned circuit that is read by itself, or leads its gang. */
export interface DialColumn {
  /** What is read: `D1`, or the condenser where the text tells of no dial. */
  readonly name: string;
  readonly of: TunedDial;
  readonly low: number;
  readonly high: number;
  /** Hertz that it has to be tuned above the station, as an oscillator has. */
  readonly above: number;
  /** The other circuits on the same shaft. */
  readonly followers: readonly Follower[];
  /** Farads of the trimmers as one sets them, by their names. */
  readonly trimmers: ReadonlyMap<string, number>;
}

/** A circuit on the shaft of another one, and what it has to be tuned above the station. */
export interface Follower {
  readonly of: TunedDial;
  readonly above: number;
}

/** How a circuit on the shaft of another one keeps with it. */
export interface Following {
  readonly circuit: string;
  /** Hertz by which it is tuned above where it ought to be; undefined beyond its reach. */
  readonly off: number | undefined;
}

/** One station. */
export interface StationLine {
  /** Hertz. */
  readonly frequency: number;
  /** Column by column; undefined beyond that dial's reach. */
  readonly readings: readonly (number | undefined)[];
  /**
   * Highest less lowest of the readings, as a share of the scale; undefined where fewer than two
   * dials reach the station.
   */
  readonly spread: number | undefined;
  /** Column by column, in the order of its followers. */
  readonly following: readonly (readonly Following[])[];
}

/** The dials of a set at its stations. */
export interface DialReadings {
  readonly circuit: Circuit;
  readonly columns: readonly DialColumn[];
  readonly lines: readonly StationLine[];
  /** Tuned circuits with a variable condenser of which too little is told, and what is missing. */
  readonly unknown: readonly { readonly name: string; readonly missing: readonly string[] }[];
  /** What was taken because the text does not say it, each once. */
  readonly taken: readonly string[];
}

/** The usual scale, where the text tells of no dial. */
const USUAL_SCALE = { low: 0, high: 100 };

/** The dials that a set is tuned by. */
export function dialColumns(circuit: Circuit): Omit<DialReadings, 'lines'> {
  const all = tunedCircuits(circuit);
  const between = intermediateFrequency(circuit, all);
  const found = all.filter((tuned) => condenserOf(circuit, tuned) !== undefined);
  const isLost = (tuned: TunedCircuit): boolean =>
    between === undefined && isOscillator(circuit, tuned);
  const aligned = alignedGangs(circuit, found);
  const known = aligned.flatMap(({ tuned, trimmers }) => {
    const of = isLost(tuned) ? undefined : tunedDial(circuit, tuned);
    const above = isOscillator(circuit, tuned) ? (between ?? 0) : 0;
    return of ? { of, above, trimmers } : [];
  });
  const onShaft = (one: TunedDial, other: TunedDial): boolean =>
    one.circuit.tuner === other.circuit.tuner ||
    (one.circuit.gang !== undefined && one.circuit.gang === other.circuit.gang);
  const columns = known.flatMap(({ of, above, trimmers }, index): DialColumn[] => {
    if (known.slice(0, index).some((other) => onShaft(of, other.of))) return [];
    const followers = known.slice(index + 1).filter((other) => onShaft(of, other.of));
    const { low, high } = of.dial ?? USUAL_SCALE;
    const name = of.dial?.name ?? of.circuit.gang ?? of.circuit.tuner ?? '';
    const column = { name, of, low, high, above, followers, trimmers };
    // An oscillator with a dial of its own makes the same note above the station and below it.
    return above > 0 && followers.length === 0 ? [column, { ...column, above: -above }] : [column];
  });
  return {
    circuit,
    columns,
    unknown: aligned.flatMap(({ tuned }) => {
      if (isLost(tuned)) return lacksOf(circuit, tuned, [NO_INTERMEDIATE]);
      return tunedDial(circuit, tuned) ? [] : lacksOf(circuit, tuned);
    }),
    taken: takenFor(known.map(({ of }) => of)).filter((words) => !isOverruled(words, columns)),
  };
}

const NO_INTERMEDIATE = 'what the intermediate amplifier is tuned to, as in: tuned 45 kc';

/** The variable condenser of a tuned circuit, be its range known or not. */
function condenserOf(circuit: Circuit, { tuner, beside }: TunedCircuit): string | undefined {
  if (tuner !== undefined) return tuner;
  return beside.find((name) => {
    const part = circuit.partNamed.get(name);
    return part && condenserValues(circuit, part)?.kind === 'variable';
  });
}

/** Every circuit with the trimmers of its gang as one sets them. */
function alignedGangs(circuit: Circuit, found: readonly TunedCircuit[]) {
  const gangs = new Map(
    [...new Set(found.flatMap(({ gang }) => gang ?? []))].map((gang) => [
      gang,
      alignedGang(circuit, found, gang),
    ]),
  );
  return found.map((each, index) => {
    const gang = each.gang === undefined ? undefined : gangs.get(each.gang);
    const trimmers: ReadonlyMap<string, number> = gang?.trimmers ?? new Map();
    return { tuned: gang?.tuned[index] ?? each, trimmers };
  });
}

function lacksOf(
  circuit: Circuit,
  tuned: TunedCircuit,
  more: readonly string[] = [],
): DialReadings['unknown'] {
  const { name, inductance, mostCapacity } = tuned;
  const condenser = condenserOf(circuit, tuned) ?? '';
  const missing = [inductance, mostCapacity].flatMap((each) =>
    each.value === undefined ? each.missing : [],
  );
  const all = [...new Set([...missing, ...more])];
  const why = all.length > 0 ? all : [`a range of ${condenser} that tunes it`];
  return [{ name: `${condenser} (${name})`, missing: why }];
}

function takenFor(dials: readonly TunedDial[]): readonly string[] {
  const taken = dials.flatMap(({ assumed, dial, circuit }) => {
    const { inductance, mostCapacity } = circuit;
    return [
      ...(assumed === undefined ? [] : [assumed]),
      ...(dial ? [] : [`a scale of 0 to 100 for ${circuit.tuner}, with 100 for plates in`]),
      ...[inductance, mostCapacity].flatMap((each) =>
        each.value === undefined ? [] : each.because.assumed,
      ),
    ];
  });
  return [...new Set(taken)];
}

/** Whether a trimmer that is set is said to be backed off. */
function isOverruled(words: string, columns: readonly DialColumn[]): boolean {
  return columns.some(({ trimmers }) =>
    [...trimmers.keys()].some((name) => words === `${name} is backed off`),
  );
}

/** Where the dials stand for stations in hertz. */
export function dialReadings(
  dials: Omit<DialReadings, 'lines'>,
  stations: readonly number[],
): DialReadings {
  return { ...dials, lines: stations.map((frequency) => lineAt(dials.columns, frequency)) };
}

function lineAt(columns: readonly DialColumn[], frequency: number): StationLine {
  const readings = columns.map(({ of, above }) => readingAtFrequency(of, frequency + above));
  const shares = readings.flatMap((reading, index) => {
    const { low = 0, high = 100, above } = columns[index] ?? {};
    // An oscillator is meant to stand elsewhere.
    return reading === undefined || above !== 0 ? [] : [(reading - low) / (high - low)];
  });
  return {
    frequency,
    readings,
    spread: shares.length > 1 ? Math.max(...shares) - Math.min(...shares) : undefined,
    following: columns.map(({ above: leads, followers }, index) =>
      followers.map(({ of, above }): Following => {
        const reading = readings[index];
        const tuned = reading === undefined ? undefined : frequencyAtReading(of, reading);
        const wanted = frequency + (leads < 0 ? -above : above);
        return {
          circuit: of.circuit.name,
          off: tuned === undefined ? undefined : tuned - wanted,
        };
      }),
    ),
  };
}

/** What a dial is called at the head of its column: `D1 (C1)`, `D2 (C2) below`. */
export function headingOf({ name, of, above }: DialColumn): string {
  const what = of.circuit.gang ?? of.circuit.tuner ?? '';
  const side = above === 0 ? '' : above > 0 ? ' above' : ' below';
  return `${name === what ? name : `${name} (${what})`}${side}`;
}
