import {
  type Circuit,
  conductionOf,
  isSupply,
  type JoinedBranch,
  type Settings,
  supposedOhms,
} from '@setwright/circuit';
import {
  emissionRatio,
  gridState,
  screenGridState,
  triodeState,
  typicalSaturation,
} from '@setwright/physics';
import { Matrix, solve } from 'ml-matrix';
import { filamentCurrent } from '../src/filament-law.ts';
import { type TubeLaws, tubeLawOf } from '../src/tube-law.ts';
import { windingValues } from '../src/winding-values.ts';

/** One equation: what is left of it, from all unknowns. */
type Equation = (x: readonly number[]) => number;

/**
 * The volts of every junction of a set at rest by the plainest way there is: every junction's
 * volts and every branch's current an unknown, a Jacobian of small differences, dense equations,
 * and the supplies turned up in eight steps. Supplies must be batteries with stated resistance
 * or eliminators, and all must hang together.
 *
 * @param control ohms of rheostats and ballasts, by name
 */
export function denseRest(
  circuit: Circuit,
  settings: Settings,
  control: ReadonlyMap<string, number>,
  laws: TubeLaws,
): readonly number[] {
  const junctions = circuit.junctions.length;
  const leaving: ((x: readonly number[]) => number)[][] = circuit.junctions.map(() => []);
  const laid: Equation[] = [];
  let share = 0;
  let unknowns = junctions;
  const reach = circuit.junctions.map((_, index) => index);
  const rootOf = (at: number): number => (reach[at] === at ? at : rootOf(reach[at]!));
  const branchOf = (
    from: number,
    to: number,
    law: (amperes: number, across: number) => number,
  ): void => {
    const own = unknowns++;
    leaving[from]!.push((x) => x[own]!);
    leaving[to]!.push((x) => -x[own]!);
    laid.push((x) => law(x[own]!, x[from]! - x[to]!));
    reach[rootOf(from)] = rootOf(to);
  };

  for (const branch of conductionOf(circuit, settings).branches) {
    const part = circuit.partNamed.get(branch.part)!;
    if (branch.direct.kind === 'blocks' || isSupply(part)) continue;
    const { fromJunction: from, toJunction: to } = branch;
    if (part.kind === 'tube') {
      const { filament } = tubeLawOf(part.tubeType, laws);
      branchOf(from, to, (amperes, across) => amperes - filamentCurrent(filament, across).amperes);
      continue;
    }
    const stated = control.get(part.name) ?? branch.direct.ohms;
    const ohms = stated ?? copperOf(circuit, branch) ?? supposedOhms(circuit, branch).ohms;
    branchOf(from, to, (amperes, across) => across - ohms * amperes);
  }
  for (const part of circuit.parts.filter(isSupply)) {
    const taps = part.supplyTaps
      .map((tap) => ({
        ...tap,
        volts: tap.volts!,
        junction: part.ends.find(({ name }) => name === tap.end)!.junction,
      }))
      .sort((a, b) => a.volts - b.volts);
    const lowest = taps[0]!;
    const whole = part.values.resistance?.value;
    for (const [index, tap] of taps.entries()) {
      if (index === 0) continue;
      const isRow = part.kind === 'battery';
      const below = isRow ? taps[index - 1]! : lowest;
      const volts = tap.volts - below.volts + (tap.atLoad ?? 0) * (tap.resistance ?? 0);
      const resistance = isRow
        ? ((whole ?? 0.02) * volts) / (taps[taps.length - 1]!.volts - lowest.volts)
        : tap.resistance!;
      branchOf(
        below.junction,
        tap.junction,
        (amperes, across) => across + share * volts - resistance * amperes,
      );
    }
  }
  for (const part of circuit.parts) {
    if (part.kind !== 'tube') continue;
    const law = tubeLawOf(part.tubeType, laws);
    const at = (name: string) => part.ends.find((end) => end.name === name)?.junction ?? -1;
    const home = at('cathode') < 0 ? at('filament-') : at('cathode');
    const currents = (x: readonly number[]) => {
      const above = (junction: number) => (junction < 0 ? 0 : x[junction]! - x[home]!);
      const lit = x[at('filament+')]! - x[at('filament-')]!;
      const { ratedVolts, ratedAmperes } = law.filament;
      const ratio = emissionRatio(law.cathode, Math.abs(lit) / ratedVolts)!;
      const saturation = typicalSaturation(law.cathode, ratedVolts * ratedAmperes)! * ratio;
      const volts = {
        grid: above(at('grid')),
        plate: above(at('plate')),
        screen: above(at('screen')),
        filament: law.heated ? 0 : lit,
      };
      const grid = (gridState(law.grid, volts.grid)!.current * 2 * ratio) / (1 + ratio);
      if (law.plate?.kind === 'triode')
        return {
          grid,
          plate: triodeState(law.plate.triode, volts, saturation)!.current,
          screen: 0,
        };
      const both = screenGridState(law.plate!.tube, volts, saturation)!;
      // Emission holds down both together.
      return { grid, plate: both.plate.current, screen: both.screen.current };
    };
    for (const electrode of ['grid', 'plate', 'screen'] as const) {
      if (at(electrode) < 0) continue;
      leaving[at(electrode)]!.push((x) => currents(x)[electrode]);
      leaving[home]!.push((x) => -currents(x)[electrode] * (1 - law.positiveShare));
      leaving[at('filament+')]!.push((x) => -currents(x)[electrode] * law.positiveShare);
    }
  }
  const equations: Equation[] = leaving.map((flows, junction) =>
    rootOf(junction) === junction
      ? (x) => x[junction]!
      : (x) => flows.reduce((sum, flow) => sum + flow(x), 0),
  );
  equations.push(...laid);

  const x = new Array<number>(unknowns).fill(0);
  for (share = 0.125; share <= 1; share += 0.125) {
    for (let round = 0; round < 60; round++) {
      const left = equations.map((equation) => equation(x));
      const jacobian = Matrix.zeros(unknowns, unknowns);
      for (let column = 0; column < unknowns; column++) {
        const was = x[column]!;
        const step = 1e-6 * (column < junctions ? 1 : 0.01);
        x[column] = was + step;
        const up = equations.map((equation) => equation(x));
        x[column] = was - step;
        for (const [row, equation] of equations.entries()) {
          const slope = (up[row]! - equation(x)) / (2 * step);
          if (slope !== 0) jacobian.set(row, column, slope);
        }
        x[column] = was;
      }
      const move = solve(jacobian, Matrix.columnVector(left)).to1DArray();
      const most = Math.max(...move.slice(0, junctions).map(Math.abs));
      const pace = Math.min(1, 2 / most);
      for (const [index, by] of move.entries()) x[index] = x[index]! - pace * by;
      if (most < 1e-10) break;
    }
  }
  return x.slice(0, junctions);
}

/** Ohms of a stretch of a winding by its wire: its share of the turns. */
function copperOf(circuit: Circuit, { part: name, from, to }: JoinedBranch): number | undefined {
  const part = circuit.partNamed.get(name)!;
  const whole = part.kind === 'winding' ? windingValues(circuit, part).resistance.value : undefined;
  const places = [from, to].map((terminal) => {
    const end = terminal.slice(name.length + 1);
    const tap = part.taps.find((each) => each.end === end)?.fraction;
    return end === 'start' ? 0 : end === 'finish' ? 1 : tap!;
  });
  return whole && whole * Math.abs(places[1]! - places[0]!);
}
