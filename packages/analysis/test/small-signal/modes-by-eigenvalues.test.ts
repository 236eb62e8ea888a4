import { EigenvalueDecomposition, Matrix, solve } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { operatingPoint } from '../../src/operating-point.ts';
import { alignedAt } from '../../src/small-signal/aligned-at.ts';
import { growingModes } from '../../src/small-signal/growing-modes.ts';
import { type SignalSystem, signalSystem } from '../../src/small-signal/signal-system.ts';
import { type SmallSignal, smallSignal } from '../../src/small-signal/small-signal.ts';
import { tunedSystem } from '../../src/small-signal/tuned-system.ts';
import { exampleSets } from '../reading-set.ts';
import { threeDialSet } from './three-dial-set.ts';

const LOW = 200e3;
const HIGH = 5e6;
const STATION = 1e6;

/** The set with the ohms of its windings held at those of one frequency: a set of constants. */
function heldAt(set: SmallSignal, frequency: number): SignalSystem {
  const series = set.network.series.map((group) => ({
    ...group,
    pieces: group.pieces.map((piece) => {
      const ohms = piece.ohms(frequency);
      return { ...piece, ohms: () => ohms };
    }),
  }));
  return signalSystem({ ...set.network, series });
}

/** Growing roots in the range by eigenvalues: those of (G + aC)⁻¹C are 1/(a − s). */
function byEigenvalues(system: SignalSystem, moving: Float64Array) {
  const { size, rows, columns } = system.pattern;
  const shift = 2 * Math.PI * STATION;
  const still = Matrix.zeros(size, size);
  const inertia = Matrix.zeros(size, size);
  for (let slot = 0; slot < rows.length; slot++) {
    still.set(rows[slot]!, columns[slot]!, system.still[slot]!);
    inertia.set(rows[slot]!, columns[slot]!, moving[slot]!);
  }
  for (const { slot, ohms } of system.losses) {
    const [row, column] = [rows[slot]!, columns[slot]!];
    still.set(row, column, still.get(row, column) - ohms(STATION) / 1000);
  }
  const shifted = Matrix.add(still, Matrix.mul(inertia, shift));
  const { realEigenvalues, imaginaryEigenvalues } = new EigenvalueDecomposition(
    solve(shifted, inertia),
  );
  return realEigenvalues.flatMap((re, at) => {
    const im = imaginaryEigenvalues[at]!;
    const square = re * re + im * im;
    const growth = shift - re / square;
    const radians = im / square;
    const size = Math.hypot(growth, radians) / (2 * Math.PI);
    return growth > 0 && size > LOW && size < HIGH ? [{ growth, radians }] : [];
  });
}

const sets: readonly [name: string, set: SmallSignal][] = [
  ['three dials without lossers', threeDialSet({})],
  ['three dials with 3000 ohms', threeDialSet({ losser: 3000 })],
  ['five tubes not neutralized', exampleSets.get('neutralized-five')!],
  ['the five-tube example', exampleSets.get('five-tube-trf')!],
  ['the superheterodyne', exampleSets.get('superheterodyne')!],
  ['two tubes', exampleSets.get('two-tube')!],
].map(([name, circuit]) => {
  const read = circuit as ReturnType<typeof threeDialSet>;
  return [name as string, smallSignal(read, operatingPoint(read))];
});

describe('growing modes counted by the phase', () => {
  it.each(sets)('are the growing eigenvalues: %s', (_name, set) => {
    const { tuning } = alignedAt(set, STATION);
    const tuned = tunedSystem(heldAt(set, STATION), tuning);
    const found = growingModes(tuned, LOW, HIGH);
    const roots = byEigenvalues(tuned.system, tuned.moving);
    expect(found.count).toBe(roots.length);
    for (const { frequency, growth } of found.modes) {
      const nearest = Math.min(
        ...roots.map((root) =>
          Math.hypot(root.growth - growth, Math.abs(root.radians) - 2 * Math.PI * frequency),
        ),
      );
      expect(nearest / (2 * Math.PI * STATION)).toBeLessThan(1e-6);
    }
  });
});
