import {
  type OperatingPoint,
  operatingPoint,
  type SelfOscillation,
  selfOscillation,
  type TunedCircuit,
  type WindingsTurned,
} from '@setwright/analysis';
import type { Study } from '../study.ts';
import type { TubeAt } from '../tubes/tubes.ts';
import type { Feedback } from './feedback.ts';
import { signalCircuits } from './signal-circuits.ts';
import { FEEDBACK_ERROR, strengthened, USUAL_QUALITY } from './strengthened.ts';

/** Where an oscillator is judged, and where it is still there. */
export interface Still {
  readonly tuned: TunedCircuit;
  /** Hertz, all of them. */
  readonly judged: readonly number[];
  readonly still: readonly number[];
  /** Whether it oscillates throughout with so many times the feedback and coils of a Q of 100. */
  readonly isEnough: (times: number) => boolean;
}

/** Where an oscillator does not oscillate; undefined where it does throughout, or is not known. */
export function stillOscillator(
  study: Study,
  tube: TubeAt,
  feedback: readonly Feedback[],
): Still | undefined {
  const { circuit, conduction } = study;
  const own = signalCircuits(study).find(
    ({ use, tubes, tuned }) =>
      use === 'oscillator' && tubes.includes(tube) && tuned.inductance.value !== undefined,
  );
  if (!own || own.tuned.lowest.value === undefined || own.tuned.highest.value === undefined)
    return undefined;
  const { tuned } = own;
  const point =
    conduction === study.conduction && conduction.settings === study.on.settings
      ? study.operating
      : operatingPoint(circuit, conduction.settings, { laws: study.laws });
  if (!point.converged) return undefined;
  // A winding that turns is turned until it does.
  const turns = feedback.flatMap(({ grid, plate, isMovable }) =>
    isMovable ? [plate.winding, grid.winding].filter(({ setting }) => setting !== undefined) : [],
  );
  const stands: readonly WindingsTurned[] = [
    new Map(),
    ...turns.flatMap(({ name }) => [1, -1].map((share) => new Map([[name, share]]))),
  ];
  const reckoned = (times: number, quality?: number): readonly SelfOscillation[] =>
    stands.map((turned) =>
      selfOscillation(circuit, strengthened(point, times), {
        turned,
        ...(quality === undefined ? {} : { quality }),
      }),
    );
  const strong = reckoned(FEEDBACK_ERROR);
  if (!strong.every((each) => isKnown(study, tube, tuned, point, each))) return undefined;
  const isStillAt = (found: readonly SelfOscillation[], frequency: number): boolean =>
    found.every(({ oscillates }) => oscillates(tube.part.name, tuned, frequency) === false);
  const { judged, isWanted } = workingOf(study, tuned);
  // What goes at both ends goes between them.
  const ends = [judged[0], judged.at(-1)].filter((each) => each !== undefined);
  const stillAtEnds = ends.filter((frequency) => isStillAt(strong, frequency));
  if (stillAtEnds.length === 0) return undefined;
  // Where it is not known what the oscillator has to cover, an end may not be wanted.
  if (!isWanted && stillAtEnds.length < ends.length) return undefined;
  return {
    tuned,
    judged,
    still: judged.filter((frequency) => isStillAt(strong, frequency)),
    isEnough: (times) => {
      const found = reckoned(times, USUAL_QUALITY);
      return !judged.some((frequency) => isStillAt(found, frequency));
    },
  };
}

/** Whether all is known of the tube and of the parts of its own circuits. */
function isKnown(
  { circuit }: Study,
  tube: TubeAt,
  tuned: TunedCircuit,
  point: OperatingPoint,
  { lacks }: SelfOscillation,
): boolean {
  const atWork = point.tubes.find((each) => each.tube === tube.part.name);
  if (!atWork?.transconductance) return false;
  const coils = new Set(tuned.windings.map(({ edge }) => edge.coil?.coil ?? edge.part));
  return lacks.every(({ part }) => {
    const lacking = circuit.partNamed.get(part);
    if (!lacking || coils.has(lacking.name) || coils.has(lacking.owner ?? '')) return false;
    return lacking.stage === undefined || lacking.stage !== tube.part.stage;
  });
}

/** Hertz at the ends and in the middle of what the oscillator has to cover, as far as it reaches. */
function workingOf(
  { circuit }: Study,
  { lowest, highest }: TunedCircuit,
): { readonly judged: readonly number[]; readonly isWanted: boolean } {
  const [low, high] = [lowest.value ?? 0, highest.value ?? 0];
  if (!(high > low)) return { judged: [low], isWanted: true };
  const between = circuit.parts.find(({ values }) => values.tuned)?.values.tuned?.value;
  const band = circuit.tunes;
  const inside = [low * INSIDE, high / INSIDE] as const;
  const isWanted = band !== undefined && between !== undefined;
  const wanted = isWanted
    ? ([band.low.value + between, band.high.value + between] as const)
    : inside;
  const first = Math.min(Math.max(wanted[0], inside[0]), inside[1]);
  const last = Math.max(Math.min(wanted[1], inside[1]), first);
  return { judged: [...new Set([first, Math.sqrt(first * last), last])], isWanted };
}

/** A little inside the ends of the circuit's reach, where strays decide. */
const INSIDE = 1.03;
