import type { Question } from './bordered-system.ts';
import { valuesAt } from './fitted-path.ts';
import type { FittedPlane } from './fitted-plane.ts';
import { capacitiesOf, covers, matrixLength } from './reduced-network.ts';
import type { SignalSystem, Tuning } from './signal-system.ts';
import { eliminateFirst } from './small-matrix.ts';
import { eliminateAt, solveDriven, tunedSystem } from './tuned-system.ts';

/** Volts that answer a question, at a frequency in hertz; undefined where there is no answer. */
export type Strength = (frequency: number) => number | undefined;

/** The volts that answer a question, with the condensers as they stand. */
export function strengthOf(system: SignalSystem, question: Question, tuning: Tuning): Strength {
  const tuned = tunedSystem(system, tuning);
  const electromotive = new Map([[question.series, [1, 0] as const]]);
  const { plus, minus } = question;
  return (frequency) => {
    if (!(frequency > 0)) return undefined;
    const room = eliminateAt(tuned, { growth: 0, radians: 2 * Math.PI * frequency });
    if (!room) return undefined;
    const { re, im } = solveDriven(system, room, { electromotive });
    return Math.hypot(
      (re[plus] as number) - (re[minus] as number),
      (im[plus] as number) - (im[minus] as number),
    );
  };
}

/** The same sooner by a fitted network; off its ends, and for another question, in full. */
export function strengthIn(
  plane: FittedPlane,
  system: SignalSystem,
  question: Question,
  tuning: Tuning,
): Strength {
  const { network, axis } = plane;
  const { size, question: known } = network;
  let made: Strength | undefined;
  const plain: Strength = (frequency) => {
    made ??= strengthOf(system, question, tuning);
    return made(frequency);
  };
  const isSame =
    known?.series === question.series &&
    known.plus === question.plus &&
    known.minus === question.minus;
  if (!isSame || !covers(network, tuning)) return plain;
  const added = capacitiesOf(network, tuning);
  const whole = size + 1;
  const matrix = new Float64Array(2 * whole * whole);
  const asked = matrixLength(network);
  return (frequency) => {
    if (!(frequency > 0)) return undefined;
    const radians = 2 * Math.PI * frequency;
    if (!valuesAt(axis, Math.log(radians))) return plain(frequency);
    const { values } = axis;
    for (let row = 0; row < size; row++) {
      for (let column = 0; column < size; column++) {
        const entry = row * size + column;
        const at = 2 * (row * whole + column);
        matrix[at] = values[2 * entry] as number;
        matrix[at + 1] = (values[2 * entry + 1] as number) + radians * (added[entry] as number);
      }
      const at = 2 * (row * whole + size);
      matrix[at] = values[asked + 2 * row] as number;
      matrix[at + 1] = values[asked + 2 * row + 1] as number;
    }
    const last = 2 * size * whole;
    for (let each = 0; each < 2 * whole; each++)
      matrix[last + each] = values[asked + 2 * size + each] as number;
    if (!eliminateFirst(matrix, whole, size)) return plain(frequency);
    const corner = matrix.length - 2;
    const re = matrix[corner] as number;
    const im = matrix[corner + 1] as number;
    return Math.sqrt(re * re + im * im);
  };
}
