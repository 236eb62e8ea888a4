import type { TubePoint, TubeType } from '@setwright/circuit';
import { parseNumber, readQuantity } from '@setwright/units';
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
import { readValue } from './amounts.ts';
import { headPlace, type Lowering, placeOf, remark, unquoted } from './context.ts';

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
        if (!isAmountDetail(detail)) continue;
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
      const pair = [statement.from, statement.to].map((e) => (e === 'cathode' ? 'filament' : e));
      if (value) capacitances[pair.join(' ')] = value.value;
    } else if (isLimitStatement(statement)) {
      const value = volts(statement.amount, `The limit of ${name}`);
      if (statement.electrode === 'plate') plateLimit = value;
      if (statement.electrode === 'screen') screenLimit = value;
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
  let source: string | undefined;
  for (const item of statement.items) {
    const what = `A point of ${name}`;
    if (item.what === 'source') source = unquoted(item.text);
    else if (item.what === 'plate') plateVolts = readValue(cx, item.amount, 'voltage', what)?.value;
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
  if (plateVolts === undefined || gridVolts === undefined) return undefined;
  return {
    plateVolts,
    screenVolts,
    gridVolts,
    plateAmperes,
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
    const low = valueIn(item.amount?.low, item.amount?.high);
    if (item.what === 'return') {
      const to = item.target?.ref;
      if (to === 'A+' || to === 'A-' || to === 'cathode') returnTo = to;
      else {
        remark(cx, 'unknown-word', 'error', placeOf(cx, item), {
          message: `${what} returns to A+, A- or cathode, not to ${to ?? 'nothing'}.`,
          why: 'The check of the grid return goes by this.',
          cure: 'Write return A+, return A- or return cathode.',
        });
      }
    } else if (item.what === 'plate') plateVolts = low('voltage');
    else if (item.what === 'condenser') condenser = low('capacitance');
    else if (item.what === 'leak') {
      const from = low('resistance');
      const to = valueIn(item.amount?.high)('resistance') ?? from;
      if (from !== undefined && to !== undefined) leak = [from, to];
    }
  }
  return { plateVolts, returnTo, leak, condenser };
}

function valueIn(quantity: Quantity | undefined, unitFrom?: Quantity) {
  return (dimension: 'voltage' | 'capacitance' | 'resistance'): number | undefined => {
    if (!quantity) return undefined;
    const reading = readQuantity(quantity.number, quantity.unit ?? unitFrom?.unit, dimension);
    return reading.ok ? reading.value : undefined;
  };
}

/** The type that a tube's written name means, exactly or but for case. */
export function findTubeType(
  types: ReadonlyMap<string, TubeType>,
  written: string,
): TubeType | undefined {
  const exact = types.get(written);
  if (exact) return exact;
  const folded = written.toLowerCase();
  for (const [name, type] of types) if (name.toLowerCase() === folded) return type;
  return undefined;
}
