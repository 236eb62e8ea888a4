import type { TubePoint, TubeType } from '@setwright/circuit';
import {
  type CathodeKind,
  fitScreenGrid,
  fitTriode,
  type Grid,
  type ScreenGridTube,
  type Triode,
  type TriodeResidual,
  typicalSaturation,
} from '@setwright/physics';
import { cathodeKindOf } from './cathode-kind.ts';
import { type FilamentLaw, filamentLaw } from './filament-law.ts';
import { positiveEndShare } from './return-share.ts';

/** A published point and how far the law is from it, as shares: 0.05 is 5 % high. */
export interface FittedPoint {
  readonly point: TubePoint;
  /** Of the plate current; undefined where none is printed. */
  readonly excess: number | undefined;
  /** Of the transconductance, printed or made of the plate resistance; undefined without. */
  readonly slopeExcess: number | undefined;
}

/** What the currents of all tubes of one type go by. */
export interface TubeLaw {
  readonly type: TubeType | undefined;
  /** The law of the plate; undefined where no published point lets one be found. */
  readonly plate:
    | { readonly kind: 'triode'; readonly triode: Triode }
    | { readonly kind: 'screen-grid'; readonly tube: ScreenGridTube }
    | undefined;
  /** The published points that the law was fitted to, and how far it is from each. */
  readonly fitted: readonly FittedPoint[];
  /** Published points that another one at the same volts contradicts. */
  readonly leftOut: readonly TubePoint[];
  readonly grid: Grid;
  /** Volts at which a grid that nothing leads to comes to rest, from F− or the cathode. */
  readonly freeGridVolts: number;
  readonly filament: FilamentLaw;
  readonly cathode: CathodeKind;
  /** Amperes that the cathode can emit at its rated volts. */
  readonly saturation: number;
  /** True when the cathode is apart from what warms it. */
  readonly heated: boolean;
  /** The share of the current from the filament that comes to it from its positive end. */
  readonly positiveShare: number;
  /** Amperes of ions that reach the grid for every ampere of the plate; none where left out. */
  readonly gas?: number;
}

/** Laws found before, by tube type: filled as types are met, and owned by the caller. */
export type TubeLaws = WeakMap<object, TubeLaw>;

/** Stands for the type of a tube of which the text names none that is known. */
const NO_TYPE = {};

/** Two printed currents at the same volts contradict each other from this share on. */
const CONTRADICTION = 0.1 + 1e-9;

/** Filament of a tube of which nothing is known: a quarter ampere at five volts. */
const SUPPOSED_VOLTS = 5;
const SUPPOSED_AMPERES = 0.25;

/**
 * Screen current over plate current where the type does not print it; from memory of the tube
 * manuals, where it is a fifth to a half.
 */
const SCREEN_OVER_PLATE = 0.33;
const PENTODE_SCREEN_OVER_PLATE = 0.22;

/**
 * The grid as a small anode, from memory of published grid-current curves: about a microampere
 * at F−, growing e-fold in a quarter of a volt where there is a drop along the filament and in
 * 0.15 volt where there is none or little. A positive grid takes about a fifth of what a plate
 * in its place would. Between two tubes of a type the current differs several times.
 */
const GRID_CURRENT_AT_ZERO = 1e-6;
const GRID_SLOPE_WITH_DROP = 0.25;
const GRID_SLOPE_WITHOUT_DROP = 0.15;
const LITTLE_DROP = 1.6;
const POSITIVE_GRID_SHARE = 0.2;
const SUPPOSED_PERVEANCE = 2e-4;

/**
 * Grid current at which a free grid comes to rest, amperes: there the leakage of socket and
 * base and the little gas of an ordinary tube make up for it. From memory; it puts a free grid
 * at -1.3 V, and poor insulation may well pull it elsewhere.
 */
const FREE_GRID_CURRENT = 5e-9;

/** The law of a tube type, from `laws` where it has been found before. Never throws. */
export function tubeLawOf(type: TubeType | undefined, laws: TubeLaws): TubeLaw {
  const known = laws.get(type ?? NO_TYPE);
  if (known) return known;
  const law = findLaw(type);
  laws.set(type ?? NO_TYPE, law);
  return law;
}

function findLaw(type: TubeType | undefined): TubeLaw {
  const heated = type?.heated ?? false;
  const volts = positive(type?.filamentVolts) ?? SUPPOSED_VOLTS;
  const amperes = positive(type?.filamentAmperes) ?? SUPPOSED_AMPERES;
  const cathode = cathodeKindOf(type);
  const drop = heated ? 0 : volts;
  const mu = type && factorOf(type);
  const { standing, leftOut } = uncontradicted(type?.points.filter(isUsable) ?? []);
  const { plate, residuals, perveance } = fitPlate(type, mu, standing, drop);
  const grid: Grid = {
    zeroCurrent: GRID_CURRENT_AT_ZERO,
    slopeVoltage: drop < LITTLE_DROP ? GRID_SLOPE_WITHOUT_DROP : GRID_SLOPE_WITH_DROP,
    perveance: POSITIVE_GRID_SHARE * perveance,
  };
  const factor = plate?.kind === 'screen-grid' ? plate.tube.screenMu : plate?.triode.mu;
  const offset = plate?.kind === 'screen-grid' ? plate.tube.offset : plate?.triode.offset;
  const first = standing[0];
  const accelerating = plate?.kind === 'screen-grid' ? first?.screenVolts : first?.plateVolts;
  return {
    type,
    plate,
    fitted: standing.map((point, index) => ({
      point,
      excess: residuals[index]?.current,
      slopeExcess: residuals[index]?.transconductance,
    })),
    leftOut,
    grid,
    freeGridVolts: grid.slopeVoltage * Math.log(FREE_GRID_CURRENT / grid.zeroCurrent),
    filament: filamentLaw(cathode, volts, amperes),
    cathode,
    saturation: typicalSaturation(cathode, volts * amperes) ?? 0,
    heated,
    positiveShare:
      heated || factor === undefined || offset === undefined || !first
        ? 0
        : positiveEndShare(
            first.gridVolts + (accelerating ?? 0) / factor + offset,
            drop * (1 + 1 / factor),
          ),
  };
}

function positive(value: number | undefined): number | undefined {
  return value !== undefined && value > 0 && Number.isFinite(value) ? value : undefined;
}

/** The amplification factor as printed, or as transconductances and plate resistances make it. */
function factorOf(type: TubeType): number | undefined {
  const printed = positive(type.amplification);
  if (printed !== undefined) return printed;
  const products = type.points.flatMap(({ transconductance, plateResistance }) => {
    const product = positive((transconductance ?? 0) * (plateResistance ?? 0));
    return product === undefined ? [] : [Math.log(product)];
  });
  return products.length === 0
    ? undefined
    : Math.exp(products.reduce((sum, product) => sum + product, 0) / products.length);
}

function isUsable({ plateVolts, gridVolts, plateAmperes }: TubePoint): boolean {
  return (
    positive(plateVolts) !== undefined &&
    Number.isFinite(gridVolts) &&
    positive(plateAmperes) !== undefined
  );
}

/**
 * Of points at the same volts the last and fullest one stands, and those whose current is more
 * than a tenth off it are left out: prints of different years differ.
 */
function uncontradicted(points: readonly TubePoint[]): {
  readonly standing: readonly TubePoint[];
  readonly leftOut: readonly TubePoint[];
} {
  const fullest = new Map<string, TubePoint>();
  for (const point of points) {
    const other = fullest.get(voltsOf(point));
    if (!other || factsOf(point) >= factsOf(other)) fullest.set(voltsOf(point), point);
  }
  const stands = (point: TubePoint): boolean => {
    const best = fullest.get(voltsOf(point))?.plateAmperes ?? 0;
    return Math.abs((point.plateAmperes ?? 0) / best - 1) <= CONTRADICTION;
  };
  return { standing: points.filter(stands), leftOut: points.filter((point) => !stands(point)) };
}

function voltsOf({ plateVolts, screenVolts, gridVolts }: TubePoint): string {
  return `${plateVolts} ${screenVolts} ${gridVolts}`;
}

function factsOf({ plateResistance, transconductance }: TubePoint): number {
  return (plateResistance === undefined ? 0 : 1) + (transconductance === undefined ? 0 : 1);
}

interface PlateFit {
  readonly plate: TubeLaw['plate'];
  readonly residuals: readonly TriodeResidual[];
  readonly perveance: number;
}

function fitPlate(
  type: TubeType | undefined,
  mu: number | undefined,
  points: readonly TubePoint[],
  drop: number,
): PlateFit {
  const nothing: PlateFit = { plate: undefined, residuals: [], perveance: SUPPOSED_PERVEANCE };
  if (!type || points.length === 0) return nothing;
  if (type.screen) {
    const share = type.pentode ? PENTODE_SCREEN_OVER_PLATE : SCREEN_OVER_PLATE;
    const fit = fitScreenGrid(
      points.map((point) => ({
        plate: point.plateVolts,
        screen: point.screenVolts ?? 0,
        grid: point.gridVolts,
        current: point.plateAmperes ?? 0,
        screenCurrent: point.screenAmperes ?? (point.plateAmperes ?? 0) * share,
        ...(point.transconductance === undefined
          ? {}
          : { transconductance: point.transconductance }),
        ...(point.plateResistance === undefined ? {} : { plateResistance: point.plateResistance }),
      })),
      drop,
    );
    if (!fit) return nothing;
    return {
      plate: { kind: 'screen-grid', tube: fit.tube },
      residuals: fit.residuals,
      perveance: fit.tube.perveance,
    };
  }
  if (mu === undefined) return nothing;
  const fit = fitTriode(
    points.map((point) => {
      const { plateResistance } = point;
      const transconductance =
        point.transconductance ?? (plateResistance ? mu / plateResistance : undefined);
      return {
        plate: point.plateVolts,
        grid: point.gridVolts,
        ...(point.plateAmperes === undefined ? {} : { current: point.plateAmperes }),
        ...(transconductance === undefined ? {} : { transconductance }),
      };
    }),
    mu,
    drop,
  );
  if (!fit) return nothing;
  return {
    plate: { kind: 'triode', triode: fit.triode },
    residuals: fit.residuals,
    perveance: fit.triode.perveance,
  };
}
