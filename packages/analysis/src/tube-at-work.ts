import type { Circuit, Part, Place, TubePoint } from '@setwright/circuit';
import { type Figure, fact, figure } from './because.ts';
import type { Rest } from './dc-rest.ts';
import type { DcTube } from './dc-tubes.ts';
import { BY_GRID, BY_PLATE, BY_SCREEN } from './tube-currents.ts';

/** A tube as its signal sees it: small currents by small volts. */
export interface TubeConductances {
  /** Rows and columns: the currents into these, by the volts of these. */
  readonly electrodes: readonly ['grid', 'plate', 'screen', 'reference'];
  /** Siemens; every row and every column sums to zero. The reference is F− or the cathode. */
  readonly siemens: readonly (readonly number[])[];
}

/** A tube at rest. Figures that cannot be had are undefined. */
export interface TubeAtWork {
  readonly tube: string;
  readonly type: string | undefined;
  /** Volts of F+ above F−; negative with the leads crossed. */
  readonly filamentVolts: Figure | undefined;
  readonly filamentAmperes: Figure | undefined;
  /** Volts of the grid above F− or the cathode; undefined for a free grid. */
  readonly bias: Figure | undefined;
  readonly plateVolts: Figure | undefined;
  readonly screenVolts: Figure | undefined;
  readonly plateCurrent: Figure | undefined;
  readonly screenCurrent: Figure | undefined;
  /** Amperes into the grid; 0 where it is free. */
  readonly gridCurrent: Figure | undefined;
  /** gm, siemens. */
  readonly transconductance: Figure | undefined;
  /** rp, ohms; undefined at cut-off. */
  readonly plateResistance: Figure | undefined;
  /** μ at this point. */
  readonly amplification: Figure | undefined;
  /** Watts that the plate has to give off. */
  readonly plateDissipation: Figure | undefined;
  /**
   * A grid that nothing leads to: where it was taken to rest, volts from F− or the cathode. It
   * is no voltage to be measured: a meter would be its leak.
   */
  readonly freeGrid: Figure | undefined;
  /** The published point that it is nearest to, and its plate current over the one printed. */
  readonly nearest: { readonly point: TubePoint; readonly ratio: number } | undefined;
  readonly conductances: TubeConductances;
}

const CURRENT_LAW =
  'C. D. Child (1911) and I. Langmuir (1913), fitted to the published points of the type';
const GRID_LAW = 'L. H. Germer, Physical Review 25 (1925) 795; constants from memory';
const FILAMENT_LAW = 'resistance of hot filaments, from memory of the lamp laws';
const FREE_GRID = 'where its own current has fallen to what leaks; from memory';

/** What is known of a tube at rest. */
export function tubeAtWork(circuit: Circuit, rest: Rest, isKnown: Known, tube: DcTube): TubeAtWork {
  const { part, law, currents } = tube;
  const reader = readerOf(circuit, rest, isKnown, part);
  const reference = part.ends.some(({ name }) => name === 'cathode') ? 'cathode' : 'filament-';
  const above = (electrode: string): Figure | undefined => reader(electrode, reference);
  const isLoose = !tube.closed[0] && part.ends.some(({ name }) => name === 'grid');
  const isFree = isLoose && rest.loose.has(rest.groups.of(tube.electrodes[0]));
  const freeVolts = isFree ? voltsOf(rest, tube, 0) : undefined;
  const fails = !isKnown(tube.reference, tube.reference);
  const filamentIndex = rest.elementsOf.get(part.name)?.[0];
  const filamentVolts = reader('filament+', 'filament-');
  const bias = isLoose ? undefined : above('grid');
  const plateVolts = tube.closed[1] || law.plate === undefined ? above('plate') : undefined;
  const screenVolts = above('screen');
  const facts = [
    ...factsOf('bias', bias),
    ...factsOf('plate volts', plateVolts),
    ...factsOf('screen volts', screenVolts),
    ...factsOf('filament volts', filamentVolts),
    ...(part.tubeType
      ? [
          fact(
            `points of type ${part.tubeType.name}`,
            law.fitted.length,
            'number',
            part.tubeType.place,
          ),
        ]
      : []),
  ];
  const current = (value: number, formula: string, source: string): Figure | undefined =>
    fails || !Number.isFinite(value) ? undefined : figure(value, formula, facts, source);
  const { slopes } = currents;
  const ofType = part.tubeType?.source;
  const currentLaw = ofType ? `${CURRENT_LAW}: ${ofType}` : CURRENT_LAW;
  const isTriode = law.plate?.kind === 'triode';
  const plateFormula = isTriode
    ? 'Ip = G (Eg + Ep/μ + e₀)^1.5, averaged along the filament, held down by emission'
    : 'Ip = share of G (Eg + Es/μs + e₀)^1.5 that the plate takes';
  const gm = slopes[4 + BY_GRID] as number;
  const gp = slopes[4 + BY_PLATE] as number;
  const hasPlate = law.plate !== undefined && tube.electrodes[1] >= 0;
  const plateCurrent = hasPlate ? current(currents.plate, plateFormula, currentLaw) : undefined;
  const isScreened = law.plate?.kind === 'screen-grid' && tube.electrodes[2] >= 0;
  return {
    tube: part.name,
    type: part.typeName,
    filamentVolts,
    filamentAmperes:
      filamentIndex === undefined || filamentVolts === undefined
        ? undefined
        : figure(
            0 - (rest.system.amperes[filamentIndex] as number),
            'Ohm’s law, I = V/R(V), cold far below hot',
            [
              ...factsOf('filament volts', filamentVolts),
              fact('rated volts', law.filament.ratedVolts, 'voltage', part.tubeType?.place),
              fact('rated amperes', law.filament.ratedAmperes, 'current', part.tubeType?.place),
            ],
            FILAMENT_LAW,
          ),
    bias,
    plateVolts,
    screenVolts,
    plateCurrent,
    screenCurrent: isScreened
      ? current(currents.screen, 'Is = what the plate leaves of the cathode current', currentLaw)
      : undefined,
    gridCurrent: current(
      currents.grid,
      isLoose ? 'no way leads home: no current' : 'Ig = i₀ exp(Eg/V₀), Eg^1.5 when positive',
      GRID_LAW,
    ),
    transconductance: hasPlate ? current(gm, 'gm = slope of Ip by Eg', currentLaw) : undefined,
    plateResistance:
      hasPlate && gp > 0 ? current(1 / gp, 'rp = 1 / slope of Ip by Ep', currentLaw) : undefined,
    amplification: hasPlate && gp > 0 ? current(gm / gp, 'μ = gm rp', currentLaw) : undefined,
    plateDissipation:
      plateCurrent && plateVolts
        ? figure(plateCurrent.value * plateVolts.value, 'Joule’s law, P = Ip Ep', [
            fact('plate current', plateCurrent.value, 'current'),
            fact('plate volts', plateVolts.value, 'voltage'),
          ])
        : undefined,
    freeGrid:
      freeVolts !== undefined
        ? figure(
            freeVolts,
            'Eg = V₀ ln(leakage / i₀)',
            [
              fact('V₀', law.grid.slopeVoltage, 'voltage'),
              fact('i₀', law.grid.zeroCurrent, 'current'),
            ],
            FREE_GRID,
          )
        : undefined,
    nearest: nearestPoint(tube, bias?.value ?? freeVolts, plateVolts?.value, screenVolts?.value),
    conductances: conductancesOf(slopes),
  };
}

/** Whether the volts between two junctions can be told. */
export type Known = (a: number, b: number) => boolean;

type Reader = (electrode: string, reference: string) => Figure | undefined;

function readerOf(circuit: Circuit, rest: Rest, isKnown: Known, part: Part): Reader {
  const { system } = rest;
  return (electrode, reference) => {
    const a = part.ends.find(({ name }) => name === electrode);
    const b = part.ends.find(({ name }) => name === reference);
    if (!a || !b || !isKnown(a.junction, b.junction)) return undefined;
    const volts = (junction: number): number => system.volts[system.pointOf(junction)] as number;
    const value = volts(a.junction) - volts(b.junction);
    const said = (junction: number): string => circuit.junctions[junction]?.name ?? '';
    return figure(value, `V(${a.id}) − V(${b.id})`, [
      fact(`${a.id}, on ${said(a.junction)}`, volts(a.junction), 'voltage', placeOf(a.joins)),
      fact(`${b.id}, on ${said(b.junction)}`, volts(b.junction), 'voltage', placeOf(b.joins)),
    ]);
  };
}

function placeOf(joins: readonly Place[]): Place | undefined {
  return joins[0];
}

/** Some volts of the tube as a fact of what follows from them. */
function factsOf(what: string, from: Figure | undefined) {
  return from ? [fact(what, from.value, 'voltage', from.because.facts[0]?.place)] : [];
}

function voltsOf({ system }: Rest, tube: DcTube, electrode: number): number | undefined {
  const junction = tube.electrodes[electrode] as number;
  const volts =
    (system.volts[system.pointOf(junction)] as number) -
    (system.volts[system.pointOf(tube.reference)] as number);
  return Number.isFinite(volts) ? volts : undefined;
}

/** The point nearest by plate and screen volts, by their shares, and by what the bias is worth. */
function nearestPoint(
  { law, currents }: DcTube,
  bias: number | undefined,
  plateVolts: number | undefined,
  screenVolts: number | undefined,
): TubeAtWork['nearest'] {
  if (bias === undefined || plateVolts === undefined) return undefined;
  const mu = law.plate?.kind === 'triode' ? law.plate.triode.mu : law.plate?.tube.screenMu;
  let nearest: TubePoint | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const { point } of law.fitted) {
    const wanted = point.screenVolts ?? point.plateVolts;
    const distance =
      ((plateVolts - point.plateVolts) / point.plateVolts) ** 2 +
      (((bias - point.gridVolts) * (mu ?? 1)) / wanted) ** 2 +
      (point.screenVolts === undefined
        ? 0
        : (((screenVolts ?? 0) - point.screenVolts) / point.screenVolts) ** 2);
    if (distance >= least) continue;
    least = distance;
    nearest = point;
  }
  if (!nearest?.plateAmperes) return undefined;
  return { point: nearest, ratio: currents.plate / nearest.plateAmperes };
}

/** Conductances from the slopes of a tube's currents. */
export function conductancesOf(slopes: Float64Array): TubeConductances {
  const rows: number[][] = [];
  const home = [0, 0, 0, 0];
  for (let electrode = 0; electrode < 3; electrode++) {
    const row = [BY_GRID, BY_PLATE, BY_SCREEN].map((by) => slopes[4 * electrode + by] as number);
    row.push(0 - row.reduce((sum, slope) => sum + slope, 0));
    rows.push(row);
    for (const [column, slope] of row.entries()) home[column] = (home[column] as number) - slope;
  }
  rows.push(home);
  return { electrodes: ['grid', 'plate', 'screen', 'reference'], siemens: rows };
}
