import type { Figure, OperatingPoint, PartAtWork, TubeAtWork } from '@setwright/analysis';
import {
  type Circuit,
  isFilamentSupply,
  type Part,
  traceDirectCurrent,
  zeroTap,
} from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Quantity, UnitStyle } from './quantities.ts';
import { plainReason } from './reason.ts';
import { type RowOf, rowAtWork, type ValueRow } from './rows.ts';

/** What the rows of parts at work are made from. */
export interface AtWork {
  readonly circuit: Circuit;
  readonly point: OperatingPoint;
  readonly style: UnitStyle;
}

/** Volts and currents of a tube. */
export function tubeRows(work: AtWork, tube: TubeAtWork): readonly ValueRow[] {
  const { circuit, style } = work;
  const part = circuit.partNamed.get(tube.tube);
  const has = (end: string): boolean => part?.ends.some(({ name }) => name === end) ?? false;
  const lost = lostAt(work);
  const row = (quantity: Quantity, figure: Figure | undefined, ...missing: string[]): ValueRow =>
    rowAtWork({ part: tube.tube, quantity }, figure, style, [...lost, ...missing]);
  const lacksFeed = (end: string): string => `a way from ${tube.tube}.${end} to its battery`;
  const current = currentLacks(work, tube);
  return [
    row('filament-voltage', tube.filamentVolts, lacksFeed('filament+')),
    row('filament-current', tube.filamentAmperes, lacksFeed('filament+')),
    ...(has('grid')
      ? [
          rowAtWork(
            { part: tube.tube, quantity: 'bias' },
            tube.bias,
            style,
            [...lost, `a way home for direct current from ${tube.tube}.grid: it floats`],
            armsBefore(work, tube.tube),
          ),
        ]
      : []),
    ...(has('plate')
      ? [
          row('plate-voltage', tube.plateVolts, lacksFeed('plate')),
          row('plate-current', tube.plateCurrent, ...current),
          row('dissipation', tube.plateDissipation, ...current),
          row('transconductance', tube.transconductance, ...current),
          row('plate-resistance', tube.plateResistance, ...current),
          row('amplification', tube.amplification, ...current),
        ]
      : []),
    ...(has('screen')
      ? [
          row('screen-voltage', tube.screenVolts, lacksFeed('screen')),
          row('screen-current', tube.screenCurrent, ...current),
        ]
      : []),
    ...((tube.gridCurrent?.value ?? 0) >= NO_GRID_CURRENT && tube.bias
      ? [row('grid-current', tube.gridCurrent)]
      : []),
  ];
}

/** The arms on a grid's way home that are taken to stand half way, nothing being said of them. */
function armsBefore({ circuit, point }: AtWork, tube: string): readonly string[] {
  const supposed = circuit.parts.filter(
    ({ kind, name, setting }) =>
      kind === 'potentiometer' && setting === undefined && !point.settings.travels.has(name),
  );
  if (supposed.length === 0) return [];
  const way = traceDirectCurrent(circuit, `${tube}.grid`, point.settings)[0]?.steps ?? [];
  return supposed.flatMap(({ name }) =>
    way.some(({ part }) => part === name) ? [`${name} is set half way (not said)`] : [],
  );
}

/** Why the current of a plate is not known. */
function currentLacks({ point }: AtWork, tube: TubeAtWork): readonly string[] {
  const lawless = point.taken.find(({ part, ohms }) => part === tube.tube && ohms === undefined);
  if (lawless)
    return [tube.type === undefined ? `the type of ${tube.tube}` : `a point of type ${tube.type}`];
  if (tube.plateVolts === undefined) return [`a way from ${tube.tube}.plate to its battery`];
  return [`a current in ${tube.tube}: it is cut off`];
}

/** What keeps everything from being known, where the reckoning failed. */
function lostAt({ point }: AtWork): readonly string[] {
  if (point.converged) return [];
  return point.failures.map(({ junction, why }) => `a state of rest at ${junction}: ${why}`);
}

/** Volts and currents of the taps of a supply, its drain and how long it lasts. */
export function supplyRows(work: AtWork, supply: Part): readonly ValueRow[] {
  const { point, style } = work;
  const found = point.supplies.find((each) => each.supply === supply.name);
  if (!found) return [];
  const taking = takenFor(work, supply.name);
  const lost = lostAt(work);
  const zero = zeroTap(supply)?.end;
  const atZero = found.taps.find(({ tap }) => tap === zero)?.volts?.value ?? 0;
  const nameless = `what is joined to ${supply.name}`;
  const { drain } = found;
  const isIdle = drain !== undefined && drain.value < LEAST_DRAIN;
  const noHours = isIdle
    ? `a drain: nothing draws on ${supply.name}`
    : `the capacity of ${supply.name}, as in: capacity ${isFilamentSupply(supply) ? 100 : 5} Ah`;
  return [
    ...found.taps.flatMap(({ tap, volts, amperes }) => [
      ...(tap === zero
        ? []
        : [
            rowAtWork(
              { part: tap, quantity: 'voltage', note: `above ${zero}` },
              volts && { ...volts, value: volts.value - atZero },
              style,
              [...lost, `the volts of ${tap}`],
              taking,
            ),
          ]),
      rowAtWork(
        {
          part: tap,
          quantity: 'current',
          note: (amperes?.value ?? 0) < -NO_CURRENT ? 'into the tap' : 'out of the tap',
        },
        upright(amperes),
        style,
        [...lost, nameless],
      ),
    ]),
    rowAtWork({ part: supply.name, quantity: 'drain' }, drain, style, [...lost, nameless]),
    ...(supply.kind === 'battery'
      ? [
          rowAtWork({ part: supply.name, quantity: 'hours' }, found.hours, style, [
            ...lost,
            noHours,
          ]),
        ]
      : []),
  ];
}

function takenFor({ point, style }: AtWork, part: string): readonly string[] {
  return point.taken.flatMap((taken) =>
    taken.part === part && taken.ohms !== undefined
      ? [`${formatQuantity(taken.ohms, 'resistance', style)}, those of ${taken.because}`]
      : [],
  );
}

/** Kinds of parts whose heat says whether they stand it. */
const getWarm: ReadonlySet<Part['kind']> = new Set([
  'resistor',
  'leak',
  'rheostat',
  'potentiometer',
  'ballast',
  'lamp',
  'choke',
  'phones',
  'horn',
  'speaker',
]);

/** The current through a part, the heat in it, and where a control came to stand. */
export function partRows(work: AtWork, part: Part): readonly ValueRow[] {
  const { point, style } = work;
  const found = point.parts.find((each) => each.part === part.name);
  const stand = point.controls.find((each) => each.part === part.name);
  const rows: ValueRow[] = [];
  if (stand) {
    rows.push({
      part: part.name,
      quantity: 'resistance',
      note: 'as it has to stand',
      value: stand.ohms,
      reason: plainReason(standInWords[stand.outcome], takenFor(work, part.name)),
    });
  }
  if (!found || isIdle(found)) return rows;
  const lost = lostAt(work);
  const lacks = [...lost, `the current through ${part.name}`];
  rows.push(rowAtWork(directed(part, found.amperes), upright(found.amperes), style, lacks));
  if (getWarm.has(part.kind) && !(Math.abs(found.watts?.value ?? 1) < NO_HEAT)) {
    const row = { part: part.name, quantity: 'dissipation' } as const;
    rows.push(rowAtWork(row, upright(found.watts), style, lacks));
  }
  return rows;
}

const standInWords = {
  rated: 'set so that what it feeds gets what it is rated for',
  below: 'full on, and still too little',
  above: 'all of it in, and still too much',
  'full-on': 'full on: others behind it do the work',
  'no-current': 'nothing flows that it could set',
  'no-filament': 'all of it: it lights no filament',
  unsettled: 'no right stand was found',
} as const;

/** Less than this many amperes through a part is no current worth a line. */
const NO_CURRENT = 1e-7;

/** At a drain of fewer amperes cells die of age first. */
const LEAST_DRAIN = 1e-6;

/** Fewer amperes into a grid do nothing to the biggest leak. */
const NO_GRID_CURRENT = 1e-9;

/** Fewer watts warm nothing. */
const NO_HEAT = 1e-6;

function isIdle({ amperes }: PartAtWork): boolean {
  return amperes !== undefined && Math.abs(amperes.value) < NO_CURRENT;
}

/** A current is told as a size, and which way it flows in words. */
function directed({ name, ends }: Part, amperes: Figure | undefined): RowOf {
  const row = { part: name, quantity: 'current' } as const;
  const [first, last] = [ends[0]?.name, ends.at(-1)?.name];
  if (!amperes || ends.length !== 2 || first === undefined || last === undefined) return row;
  const isForward = amperes.value >= 0;
  return { ...row, note: isForward ? `from ${first} to ${last}` : `from ${last} to ${first}` };
}

/** A figure and what it follows from as sizes: which way is told in words. */
function upright(figure: Figure | undefined): Figure | undefined {
  if (!figure) return undefined;
  const { value, because } = figure;
  const facts = because.facts.map((fact) => ({ ...fact, value: Math.abs(fact.value) }));
  return { value: Math.abs(value), because: { ...because, facts } };
}
