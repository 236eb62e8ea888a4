import type { Part } from '@setwright/circuit';
import { lastDetector, plateDrive, radioWay } from './detector-port.ts';
import { tubePoints } from './signal-chain.ts';
import type { Tuning } from './signal-system.ts';
import type { SmallSignal } from './small-signal.ts';
import { eliminateAt, solveDriven, tunedSystem } from './tuned-system.ts';

/** What comes out of a set at one audio frequency. */
export interface AudioPoint {
  /** Hertz. */
  readonly frequency: number;
  /** Volts across the phones or loudspeaker for one volt at the detector. */
  readonly gain: number;
  /**
   * Of the current through them, to which the pull on diaphragm or reed goes in step, against
   * 1000 cycles.
   */
  readonly decibels: number;
}

/** From the detector to phones or loudspeaker. */
export interface AudioResponse {
  readonly detector: string;
  /** Phones, horn or loudspeaker that most comes out of. */
  readonly output: string;
  readonly points: readonly AudioPoint[];
  /** Hertz within which it stays 6 decibels or less below 1000 cycles. */
  readonly low: number;
  readonly high: number;
  /** Volts at each tube's grid for one volt at the detector, at 1000 cycles. */
  readonly grids: ReadonlyMap<string, number>;
}

const MIDDLE = 1000;

/** Hertz at which a detector that no stage names is looked for. */
const STATION = 1e6;

/** Points of the curve, 30 cycles to 10 kilocycles. */
const FIRST = 30;
const LAST = 10_000;
const POINTS = 41;

/** Decibels down at which the range ends. */
const DOWN = 6;

/**
 * Audio response of a set from its detector to its output, with what transformers, plate
 * resistances and condensers do to low and high notes. The detector is taken as a tube that
 * amplifies what audio voltage its grid has; what leak and condenser take off is not in it.
 * Undefined for a set without detector or output.
 */
export function audioResponse(set: SmallSignal, tuning: Tuning): AudioResponse | undefined {
  const detector = lastDetector(set) ?? radioWay(set, STATION, tuning).detector;
  if (!detector) return undefined;
  const drive = plateDrive(set, detector);
  const outputs = set.circuit.parts.flatMap((part) => outputOf(set, part) ?? []);
  if (!drive || outputs.length === 0) return undefined;
  const tuned = tunedSystem(set.system, tuning);
  const solve = (frequency: number) => {
    const room = eliminateAt(tuned, { growth: 0, radians: 2 * Math.PI * frequency });
    return room && solveDriven(set.system, room, { currents: drive });
  };
  const middle = solve(MIDDLE);
  if (!middle) return undefined;
  const across = (
    { re, im }: { re: Float64Array; im: Float64Array },
    from: number,
    to: number,
  ): number =>
    Math.hypot(
      (re[from] as number) - (re[to] as number),
      (im[from] as number) - (im[to] as number),
    );
  const [output] = outputs
    .map((each) => ({ ...each, gain: across(middle, each.from, each.to) }))
    .sort((a, b) => b.gain - a.gain);
  if (!output || !(output.gain > 0)) return undefined;
  const points: AudioPoint[] = [];
  for (let at = 0; at < POINTS; at++) {
    const frequency = FIRST * (LAST / FIRST) ** (at / (POINTS - 1));
    const solution = solve(frequency);
    const gain = solution ? across(solution, output.from, output.to) : Number.NaN;
    const decibels = solution
      ? 20 * Math.log10(currentIn(solution, output.row) / currentIn(middle, output.row))
      : Number.NaN;
    if (Number.isFinite(decibels) && Number.isFinite(gain))
      points.push({ frequency, gain, decibels });
  }
  const grids = new Map(
    tubePoints(set).map(({ part, grid, reference }) => [
      part.name,
      across(middle, grid, reference),
    ]),
  );
  return {
    detector: detector.part.name,
    output: output.part,
    points,
    ...range(points),
    grids,
  };
}

function outputOf(set: SmallSignal, part: Part) {
  if (part.kind !== 'phones' && part.kind !== 'horn' && part.kind !== 'speaker') return undefined;
  const from = set.pointOf(part.ends[0]?.id ?? '');
  const to = set.pointOf(part.ends[1]?.id ?? '');
  const row = set.system.rowOfSeries.get(part.name);
  return from === undefined || to === undefined || from === to || row === undefined
    ? undefined
    : { part: part.name, from, to, row };
}

function currentIn({ re, im }: { re: Float64Array; im: Float64Array }, row: number): number {
  return Math.hypot(re[row + 1] as number, im[row + 1] as number);
}

/** Between which frequencies round the middle it stays up. */
function range(points: readonly AudioPoint[]): { readonly low: number; readonly high: number } {
  let low = MIDDLE;
  let high = MIDDLE;
  for (const { frequency, decibels } of [...points].reverse()) {
    if (frequency > MIDDLE) continue;
    if (decibels < 0 - DOWN) break;
    low = frequency;
  }
  for (const { frequency, decibels } of points) {
    if (frequency < MIDDLE) continue;
    if (decibels < 0 - DOWN) break;
    high = frequency;
  }
  return { low, high };
}
