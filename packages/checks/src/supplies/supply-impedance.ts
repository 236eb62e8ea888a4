import { type Conduction, isSupply, type Part, type SupplyTap, stepFrom } from '@setwright/circuit';
import { type Complex, solved } from '../audio/complex.ts';
import { isAirWinding } from '../radio/radio-use.ts';
import { amperesAtWork } from '../sizes/allowed-current.ts';
import type { Study } from '../study.ts';
import { railsOf } from './rails.ts';

/** Impedances of the plate supply, seen from where plates hang on it, against the filaments. */
export interface SupplyNetwork {
  /** Whether a battery whose resistance the text does not say lies in it. */
  readonly unsaid: readonly Part[];
  /**
   * Ohms: volts at one port for one ampere that flows into another.
   *
   * @param omega radians per second. @param unsaidOhms of each battery of unsaid resistance.
   */
  impedances(omega: number, unsaidOhms: number): readonly (readonly Complex[])[];
}

/** A resistor that carries so many amperes belongs to the filaments. Common practice. */
const FILAMENT_AMPERES = 0.03;
/** The least that lies between two points, in ohms, so that wires can be reckoned with. */
const LEAST_OHMS = 1e-3;
/** A network of more points than this is left alone: its cost grows with the cube. */
const MOST_POINTS = 48;
/** An iron choke whose inductance is not said, in henries. Common practice. */
const USUAL_CHOKE = 30;

interface Branch {
  readonly from: number;
  readonly to: number;
  readonly ohms: number;
  readonly henries: number;
  /** Share of the resistance of a battery that the text does not say. */
  readonly unsaidShare: number;
}

/** The junctions that stand still for audio: filaments and what lights them. */
export function filamentGround(study: Study): ReadonlySet<number> {
  const { circuit, conduction } = study;
  const amperes = amperesAtWork(study.operating.parts);
  const lighting = railsOf(conduction).lighting;
  const ground = new Set<number>();
  const zeros = new Set(
    circuit.parts.flatMap((part) =>
      isSupply(part)
        ? part.ends.flatMap(({ name, junction }) =>
            part.supplyTaps.find(({ end }) => end === name)?.volts === 0 ? junction : [],
          )
        : [],
    ),
  );
  for (const { part, cathode, filamentMinus, filamentPlus } of study.tubes) {
    if (part.tubeType?.heated || cathode) {
      if (cathode && zeros.has(cathode.junction)) ground.add(cathode.junction);
    } else for (const end of [filamentMinus, filamentPlus]) if (end) ground.add(end.junction);
  }
  for (const here of ground) {
    for (const branch of conduction.at[here] ?? []) {
      const part = circuit.partNamed.get(branch.part);
      if (!part || branch.direct.kind === 'blocks') continue;
      const isLit = (amperes.get(part.name) ?? 0) >= FILAMENT_AMPERES;
      const leads =
        branch.direct.kind === 'source'
          ? lighting.has(part)
          : part.kind === 'tube' || isContact(part) || isLit;
      if (leads) ground.add(stepFrom(branch, here).junction);
    }
  }
  return ground;
}

const isContact = ({ kind }: Part): boolean =>
  kind === 'switch' || kind === 'selector' || kind === 'jack';

/**
 * The plate supply behind some junctions, as far as it matters to audio: cells with their
 * resistance, resistors, chokes, leads and the condensers across them. Undefined where it is not
 * all known, or too large.
 */
export function supplyNetwork(
  study: Study,
  ports: readonly number[],
  ground: ReadonlySet<number>,
): SupplyNetwork | undefined {
  const { conduction, circuit } = study;
  const plates = new Set(study.tubes.flatMap(({ plate }) => plate?.junction ?? []));
  const sections = new Map(
    circuit.parts.filter(isSupply).map((part) => [part.name, sectionsOf(part)] as const),
  );
  const points = new Map<number, number>();
  const enter = (junction: number): void => {
    if (!ground.has(junction) && !points.has(junction)) points.set(junction, points.size);
  };
  for (const port of ports) enter(port);
  const branches = new Set<Branch>();
  const unsaid = new Set<Part>();
  const seen = new Set<number>();
  for (const here of points.keys()) {
    if (points.size > MOST_POINTS) return undefined;
    for (const joined of conduction.at[here] ?? []) {
      if (seen.has(joined.index)) continue;
      seen.add(joined.index);
      const part = circuit.partNamed.get(joined.part);
      if (!part || joined.direct.kind === 'blocks') continue;
      if (joined.direct.kind === 'source') {
        const pieces = sections.get(part.name);
        if (!pieces) return undefined;
        for (const piece of pieces) {
          if (branches.has(piece)) continue;
          branches.add(piece);
          if (piece.unsaidShare > 0) unsaid.add(part);
          enter(piece.from);
          enter(piece.to);
        }
        continue;
      }
      const there = stepFrom(joined, here).junction;
      if (plates.has(there)) continue;
      const passed = passedBy(conduction, part, joined.direct.ohms);
      if (passed === 'no way') continue;
      if (!passed) return undefined;
      branches.add({ from: here, to: there, ...passed, unsaidShare: 0 });
      enter(there);
    }
  }
  const condensers = circuit.parts.flatMap((part) => {
    const farads = part.values.capacitance?.value;
    const [first, second] = part.ends;
    if (part.kind !== 'condenser' || farads === undefined || !first || !second) return [];
    const inside = [first, second].every(
      ({ junction }) => points.has(junction) || ground.has(junction),
    );
    return inside && first.junction !== second.junction
      ? [{ from: first.junction, to: second.junction, farads }]
      : [];
  });
  return {
    unsaid: [...unsaid],
    impedances(omega, unsaidOhms) {
      const size = points.size;
      const matrix: Complex[][] = Array.from({ length: size }, () =>
        Array.from({ length: size }, (): Complex => [0, 0]),
      );
      const tie = (from: number, to: number, [re, im]: Complex): void => {
        const [a, b] = [points.get(from), points.get(to)];
        for (const [row, column, sign] of [
          [a, a, 1],
          [b, b, 1],
          [a, b, -1],
          [b, a, -1],
        ] as const) {
          const line = row === undefined ? undefined : matrix[row];
          const was = column === undefined ? undefined : line?.[column];
          if (line && column !== undefined && was)
            line[column] = [was[0] + sign * re, was[1] + sign * im];
        }
      };
      for (const { from, to, ohms, henries, unsaidShare } of branches) {
        const resistance = Math.max(LEAST_OHMS, ohms + unsaidShare * unsaidOhms);
        const reactance = omega * henries;
        const square = resistance * resistance + reactance * reactance;
        tie(from, to, [resistance / square, -reactance / square]);
      }
      for (const { from, to, farads } of condensers) tie(from, to, [0, omega * farads]);
      const at = ports.map((port) => points.get(port));
      const sides = matrix.map((_, row) =>
        ports.map((__, port): Complex => (at[port] === row ? [1, 0] : [0, 0])),
      );
      const volts = solved(matrix, sides);
      return at.map((row) =>
        ports.map(
          (_, port): Complex => (row === undefined ? [0, 0] : (volts[row]?.[port] ?? [0, 0])),
        ),
      );
    },
  };
}

/** What a part is to audio in the supply; undefined where it is not known. */
function passedBy(
  { circuit }: Conduction,
  part: Part,
  ohms: number | undefined,
): { readonly ohms: number; readonly henries: number } | 'no way' | undefined {
  switch (part.kind) {
    case 'resistor':
    case 'leak':
    case 'potentiometer':
    case 'rheostat':
    case 'lamp':
      return ohms === undefined || !(ohms >= 0) ? undefined : { ohms, henries: 0 };
    case 'lead':
    case 'fuse':
    case 'switch':
    case 'selector':
    case 'jack':
      return { ohms: Math.max(0, ohms ?? 0), henries: 0 };
    case 'choke':
      return {
        ohms: Math.max(0, ohms ?? 0),
        henries: part.words.has('air') ? 0 : (part.values.inductance?.value ?? USUAL_CHOKE),
      };
    default:
      return isAirWinding(circuit, part) ? { ohms: Math.max(0, ohms ?? 0), henries: 0 } : 'no way';
  }
}

/**
 * A supply as pieces: a battery is one row of cells from tap to tap, each with its share by volts
 * of the resistance; an eliminator's taps hang on its zero by their own. Undefined for an
 * eliminator whose resistance is not said.
 */
function sectionsOf(part: Part): readonly Branch[] | undefined {
  const at = (tap: SupplyTap): number | undefined =>
    part.ends.find(({ name }) => name === tap.end)?.junction;
  const taps = part.supplyTaps
    .filter((tap): tap is SupplyTap & { volts: number } => Number.isFinite(tap.volts))
    .sort((a, b) => a.volts - b.volts);
  const zero = taps.find(({ volts }) => volts === 0) ?? taps[0];
  const whole = (taps.at(-1)?.volts ?? 0) - (taps[0]?.volts ?? 0);
  const said = part.values.resistance?.value;
  const pieces: Branch[] = [];
  for (const [index, tap] of taps.entries()) {
    const below = part.kind === 'battery' ? taps[index - 1] : zero;
    if (!below || below === tap) continue;
    const [from, to] = [at(below), at(tap)];
    if (from === undefined || to === undefined) continue;
    const share = whole > 0 ? (tap.volts - below.volts) / whole : 1;
    if (part.kind === 'eliminator') {
      const ohms = tap.resistance ?? said;
      if (ohms === undefined) return undefined;
      pieces.push({ from, to, ohms, henries: 0, unsaidShare: 0 });
    } else
      pieces.push({
        from,
        to,
        ohms: (said ?? 0) * share,
        henries: 0,
        unsaidShare: said === undefined ? share : 0,
      });
  }
  return pieces;
}
