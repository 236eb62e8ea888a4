import type { TubePoint, TubeType } from '@setwright/circuit';
import { type Dimension, nearest, parseNumber } from '@setwright/units';
import {
  isAmountDetail,
  isCapacitanceStatement,
  isDetectorDataStatement,
  isElectrodeStatement,
  isFactStatement,
  isLimitStatement,
  isPointStatement,
  isScreenGridStatement,
  isTitleDetail,
  isWordDetail,
  type Quantity,
  type Statement,
  type TubeTypeStatement,
} from '../generated/ast.ts';
import { readRangeValues, readValue } from './amounts.ts';
import { headPlace, type Lowering, placeOf, remark, unquoted } from './context.ts';
import { incomplete, leftOver } from './facts.ts';

/** Reads a `tube type` statement into its data. Unknown facts stay undefined. */
export function tubeTypeOf(cx: Lowering, node: TubeTypeStatement, builtIn: boolean): TubeType {
  const name = node.name ?? '';
  const capacitances: Record<string, number> = {};
  const points: TubePoint[] = [];
  let base: string | undefined;
  let filamentVolts: number | undefined;
  let filamentAmperes: number | undefined;
  let heated = false;
  let amplification: number | undefined;
  let plateLimit: number | undefined;
  let screenLimit: number | undefined;
  let detector: TubeType['detector'];
  let soft = false;
  let screen = false;
  let pentode = false;
  let source: string | undefined;
  const volts = (quantity: Quantity | undefined, what: string) =>
    readValue(cx, quantity, 'voltage', what)?.value;

  for (const statement of node.statements ?? []) {
    if (isScreenGridStatement(statement)) {
      if (statement.keyword === 'soft') soft = true;
      else if (statement.keyword === 'pentode') {
        pentode = true;
        screen = true;
      } else screen = true;
    } else if (
      isElectrodeStatement(statement) &&
      (statement.keyword === 'filament' || statement.keyword === 'heater')
    ) {
      heated = statement.keyword === 'heater';
      for (const detail of statement.details) {
        if (!isAmountDetail(detail)) {
          leftOver(cx, detail, `the ${statement.keyword} of ${name}`, ['filament 5 V .25 A']);
          continue;
        }
        const value = readValue(
          cx,
          detail.amount?.low,
          ['voltage', 'current'],
          `The filament of ${name}`,
        );
        if (value?.dimension === 'voltage') filamentVolts = value.value;
        if (value?.dimension === 'current') filamentAmperes = value.value;
      }
    } else if (isPointStatement(statement)) {
      const point = pointOf(cx, statement, name);
      if (point) points.push(point);
    } else if (isCapacitanceStatement(statement)) {
      const value = readValue(cx, statement.amount, 'capacitance', `A capacitance of ${name}`);
      const pair = [statement.from, statement.to]
        .map((electrode) => (electrode === 'cathode' ? 'filament' : electrode))
        .sort((a, b) => inOrder.indexOf(a) - inOrder.indexOf(b));
      if (value) capacitances[pair.join(' ')] = value.value;
    } else if (isLimitStatement(statement)) {
      const value = volts(statement.amount, `The limit of ${name}`);
      if (statement.electrode === 'plate') plateLimit = value;
      else if (statement.electrode === 'screen') screenLimit = value;
      else leftOver(cx, statement, `the limits of ${name}`, ['limit plate 135 V']);
    } else if (isDetectorDataStatement(statement)) {
      detector = detectorOf(cx, statement, name);
    } else if (isFactStatement(statement)) {
      const first = statement.details[0];
      if (statement.keyword === 'base' && isWordDetail(first)) base = first.words.join(' ');
      else if (statement.keyword === 'amplification' && isAmountDetail(first))
        amplification = parseNumber(first.amount?.low?.number ?? '');
      else if (statement.keyword === 'source' && isTitleDetail(first))
        source = unquoted(first.text);
      else if (statement.keyword !== 'note') misplaced(cx, statement, name);
    } else misplaced(cx, statement, name);
  }
  return {
    name,
    title: unquoted(node.title),
    place: headPlace(cx, node),
    builtIn,
    base,
    filamentVolts,
    filamentAmperes,
    heated,
    amplification,
    points,
    capacitances,
    plateLimit,
    screenLimit,
    detector,
    soft,
    screen,
    pentode,
    source,
  };
}

/** Capacities are kept by their two electrodes in this order: `grid plate`, `plate filament`. */
const inOrder = ['grid', 'screen', 'plate', 'filament'];

function misplaced(cx: Lowering, statement: Statement, name: string) {
  const word = 'keyword' in statement ? String(statement.keyword) : '';
  if (!word) return;
  remark(cx, 'unknown-word', 'error', headPlace(cx, statement), {
    message: `"${word}" says nothing of a tube type such as ${name}.`,
    why: 'What is not understood is never passed over in silence.',
    cure: 'A tube type takes base, filament or heater, amplification, point, capacitance, limit, detector, soft, screen grid, pentode and source.',
  });
}

function pointOf(
  cx: Lowering,
  statement: Extract<Statement, { $type: 'PointStatement' }>,
  name: string,
): TubePoint | undefined {
  let plateVolts: number | undefined;
  let screenVolts: number | undefined;
  let gridVolts: number | undefined;
  let plateAmperes: number | undefined;
  let plateResistance: number | undefined;
  let transconductance: number | undefined;
  let screenAmperes: number | undefined;
  let fedThrough = 0;
  let source: string | undefined;
  for (const item of statement.items) {
    const what = `A point of ${name}`;
    if (item.what === 'source') source = unquoted(item.text);
    else if (item.what === 'plate') plateVolts = readValue(cx, item.amount, 'voltage', what)?.value;
    else if (item.what === 'screen' && item.inner === 'current')
      screenAmperes = readValue(cx, item.amount, 'current', what)?.value;
    else if (item.what === 'through')
      fedThrough = readValue(cx, item.amount, 'resistance', what)?.value ?? 0;
    else if (item.what === 'screen')
      screenVolts = readValue(cx, item.amount, 'voltage', what)?.value;
    else if (item.what === 'grid') gridVolts = readValue(cx, item.amount, 'voltage', what)?.value;
    else if (item.what === 'current')
      plateAmperes = readValue(cx, item.amount, 'current', what)?.value;
    else if (item.what === 'resistance')
      plateResistance = readValue(cx, item.amount, 'resistance', what)?.value;
    else if (item.what === 'transconductance') {
      // The trade gave transconductance in micromhos, with or without the unit.
      const number = parseNumber(item.amount?.number ?? '');
      if (number !== undefined) transconductance = number * 1e-6;
    }
  }
  if (plateVolts === undefined || gridVolts === undefined) {
    const says = (what: string) => statement.items.some((item) => item.what === what);
    if (!says('plate') || !says('grid')) {
      const missing = says('plate') ? 'grid' : 'plate';
      incomplete(cx, statement, `the ${missing} volts`, ['point plate 90 V grid -4.5 V']);
    }
    return undefined;
  }
  return {
    // `plate 135 V through 250 kilohms` gives the supply's volts, of which the resistor drops some.
    plateVolts: plateVolts - fedThrough * (plateAmperes ?? 0),
    screenVolts,
    gridVolts,
    plateAmperes,
    screenAmperes,
    plateResistance,
    transconductance,
    source,
    place: placeOf(cx, statement),
  };
}

function detectorOf(
  cx: Lowering,
  statement: Extract<Statement, { $type: 'DetectorDataStatement' }>,
  name: string,
): TubeType['detector'] {
  let plateVolts: number | undefined;
  let returnTo: 'A+' | 'A-' | 'cathode' | undefined;
  let leak: readonly [number, number] | undefined;
  let condenser: number | undefined;
  const what = `The detector data of ${name}`;
  for (const item of statement.items) {
    const { low, high } = item.amount ?? {};
    const read = (dimension: Dimension) => readValue(cx, low, dimension, what)?.value;
    if (item.what === 'return') {
      const to = item.target?.ref.replace(/\u2212/g, '-');
      if (to === 'A+' || to === 'A-' || to === 'cathode') returnTo = to;
      else {
        remark(cx, 'unknown-word', 'error', placeOf(cx, item), {
          message: `${what} returns to A+, A- or cathode, not to ${to ?? 'nothing'}.`,
          why: 'The check of the grid return goes by this.',
          cure: 'Write return A+, return A- or return cathode.',
        });
      }
    } else if (item.what === 'plate') plateVolts = read('voltage');
    else if (item.what === 'condenser') condenser = read('capacitance');
    else if (low && high) {
      const range = readRangeValues(cx, low, high, 'resistance', what);
      if (range) leak = [range.low.value, range.high.value];
    } else {
      const ohms = read('resistance');
      if (ohms !== undefined) leak = [ohms, ohms];
    }
  }
  return { plateVolts, returnTo, leak, condenser };
}

/** The type that a tube's written name means, exactly or but for case and hyphen. */
export function findTubeType(
  types: ReadonlyMap<string, TubeType>,
  written: string,
): TubeType | undefined {
  const exact = types.get(written);
  if (exact) return exact;
  const folded = fold(written);
  for (const [name, type] of types) if (fold(name) === folded) return type;
  return undefined;
}

const fold = (name: string) => name.replace(/[-\u2212]/g, '').toUpperCase();

/**
 * The known types that a written number may stand for. Makers set letters before the number, a
 * figure for themselves before its last two, and a letter of their own behind: of all that, the
 * last two figures tell the type.
 */
export function likelyTypes(types: ReadonlyMap<string, TubeType>, written: string): string[] {
  const [, number, suffix = ''] = /^[A-Z]*([0-9]+)([A-Z]*)$/.exec(fold(written)) ?? [];
  const known = new Map([...types.keys()].map((name) => [fold(name), name]));
  if (number !== undefined) {
    const short = number.length === 3 ? number.slice(1) : number;
    const found = [`${short}${suffix}`, short, `${short}A`].flatMap(
      (name) => known.get(name) ?? [],
    );
    if (found.length > 0) return [...new Set(found)];
  }
  return nearest(written, types.keys(), 3);
}
