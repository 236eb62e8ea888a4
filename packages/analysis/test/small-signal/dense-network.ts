import { Matrix, solve } from 'ml-matrix';
import type { SignalNetwork } from '../../src/small-signal/signal-network.ts';

/** Volts of a network's points by a dense solution with real numbers, set up from its pieces. */
export function denseVolts(
  network: SignalNetwork,
  frequency: number,
  electromotive: ReadonlyMap<string, number>,
  currents: ReadonlyMap<number, number>,
): readonly { re: number; im: number }[] {
  const pieces = network.series.flatMap((group) =>
    group.pieces.map((piece, row) => ({ piece, row, group })),
  );
  const size = network.points + pieces.length;
  const radians = 2 * Math.PI * frequency;
  const real = Matrix.zeros(size, size);
  const imaginary = Matrix.zeros(size, size);
  const add = (to: Matrix, row: number, column: number, value: number): void => {
    if (row > 0 && column > 0) to.set(row - 1, column - 1, to.get(row - 1, column - 1) + value);
  };
  const across = (to: Matrix, from: number, end: number, value: number): void => {
    add(to, from, from, value);
    add(to, end, end, value);
    add(to, from, end, -value);
    add(to, end, from, -value);
  };
  for (const { from, to, siemens } of network.conductances) across(real, from, to, siemens);
  for (const { from, to, farads } of network.capacities)
    across(imaginary, from, to, radians * farads);
  for (const { from, to, plus, minus, siemens } of network.steerings) {
    add(real, from, plus, siemens);
    add(real, from, minus, -siemens);
    add(real, to, plus, -siemens);
    add(real, to, minus, siemens);
  }
  const right = Matrix.zeros(2 * size, 1);
  for (const [point, amperes] of currents) right.set(point - 1, 0, amperes);
  for (const [index, { piece, row, group }] of pieces.entries()) {
    const at = network.points + index + 1;
    add(real, piece.from, at, 1);
    add(real, piece.to, at, -1);
    // Volts from end to end, less what resistance and fields hold, are what drives it back.
    add(real, at, piece.from, 1);
    add(real, at, piece.to, -1);
    add(real, at, at, -piece.ohms(frequency));
    for (const [column, other] of group.pieces.entries()) {
      const to = network.points + pieces.findIndex(({ piece: each }) => each === other) + 1;
      add(imaginary, at, to, -radians * group.henries[row]![column]!);
    }
    right.set(at - 1, 0, -(electromotive.get(piece.name) ?? 0));
  }
  const whole = Matrix.zeros(2 * size, 2 * size);
  whole.setSubMatrix(real, 0, 0);
  whole.setSubMatrix(real, size, size);
  whole.setSubMatrix(imaginary, size, 0);
  whole.setSubMatrix(Matrix.mul(imaginary, -1), 0, size);
  const found = solve(whole, right);
  return Array.from({ length: network.points + 1 }, (_, point) =>
    point === 0
      ? { re: 0, im: 0 }
      : { re: found.get(point - 1, 0), im: found.get(size + point - 1, 0) },
  );
}
