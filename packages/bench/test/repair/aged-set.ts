import { type Parameter, type TubeLaw, tubeLawOf } from '@setwright/analysis';
import { type Circuit, isSupply, type Part } from '@setwright/circuit';
import type { Known } from '../../src/chart/known.ts';
import type { Deviation } from '../../src/chart/tolerances.ts';
import type { SetStanding } from '../../src/edits/workbench.ts';
import type { SoundSet } from '../../src/effects/sound-set.ts';
import { between, type Random } from './random.ts';

/** One set of the many that a text describes: its parts somewhere within their tolerances. */
export interface AgedSet {
  readonly standing: SetStanding;
  /** What this very set is reckoned by: its tubes are not those of the type. */
  readonly known: Known;
}

type Factors = ReadonlyMap<string, Partial<Record<Parameter['kind'], number>>>;

/** Draws a set: every part and battery evenly within how far it may be off. */
export function agedSet(
  { standing, deviations, known }: Pick<SoundSet, 'standing' | 'deviations' | 'known'>,
  random: Random,
): AgedSet {
  const factors = drawn(deviations, random);
  const { circuit, settings } = standing;
  const laws: Known['laws'] = new WeakMap();
  const held = new Map(
    [...standing.held].map(([name, ohms]) => [name, ohms * (factors.get(name)?.ohms ?? 1)]),
  );
  const parts = circuit.parts.map((part) => aged(part, factors, known, laws));
  return {
    standing: { circuit: withParts(circuit, parts), settings, held },
    known: { laws, wires: new WeakMap() },
  };
}

function drawn(deviations: readonly Deviation[], random: Random): Factors {
  const factors = new Map<string, Partial<Record<Parameter['kind'], number>>>();
  for (const { parameter, up, down } of deviations) {
    const { kind, part } = parameter;
    // What may be several times as much goes by its logarithm.
    const factor =
      up >= 1
        ? Math.exp(between(random, 0 - Math.log1p(up), Math.log1p(up)))
        : 1 + between(random, 0 - down, up);
    factors.set(part, { ...factors.get(part), [kind]: factor });
  }
  return factors;
}

function aged(part: Part, factors: Factors, known: Known, laws: Known['laws']): Part {
  const own = factors.get(part.name);
  if (!own) return part;
  const { ohms = 1, volts = 1 } = own;
  if (part.kind === 'tube') {
    const tubeType = { ...part.tubeType } as NonNullable<Part['tubeType']>;
    laws.set(tubeType, agedLaw(tubeLawOf(part.tubeType, known.laws), own));
    return { ...part, tubeType };
  }
  const whole = part.values.resistance?.value ?? known.wires.get(part);
  const values =
    whole === undefined
      ? part.values
      : {
          ...part.values,
          resistance: {
            value: whole * ohms,
            dimension: 'resistance' as const,
            text: '',
            place: part.place,
          },
        };
  if (isSupply(part))
    return {
      ...part,
      values,
      supplyTaps: part.supplyTaps.map((tap) => ({
        ...tap,
        volts: tap.volts === undefined ? undefined : tap.volts * volts,
        ...(tap.resistance === undefined ? {} : { resistance: tap.resistance * ohms }),
      })),
    };
  const { setting } = part;
  return setting?.kind === 'ohms'
    ? { ...part, values, setting: { ...setting, ohms: setting.ohms * ohms } }
    : { ...part, values };
}

function agedLaw(law: TubeLaw, { draw = 1, filament = 1, grid = 1 }: Record<string, number>) {
  const { plate } = law;
  const drawing: TubeLaw['plate'] =
    plate === undefined
      ? undefined
      : plate.kind === 'triode'
        ? { ...plate, triode: { ...plate.triode, perveance: plate.triode.perveance * draw } }
        : { ...plate, tube: { ...plate.tube, perveance: plate.tube.perveance * draw } };
  return {
    ...law,
    plate: drawing,
    filament: { ...law.filament, ratedAmperes: law.filament.ratedAmperes * filament },
    grid: { ...law.grid, zeroCurrent: law.grid.zeroCurrent * grid },
  };
}

function withParts(circuit: Circuit, parts: readonly Part[]): Circuit {
  const partNamed = new Map(parts.map((part) => [part.name, part]));
  return {
    ...circuit,
    parts,
    partNamed,
    partOfEnd: new Map(
      [...circuit.partOfEnd].map(([id, part]) => [id, partNamed.get(part.name) ?? part]),
    ),
  };
}
