import type { Circuit, Part, Value } from '@setwright/circuit';
import { capacitanceAtDial, dialAtCapacitance } from '@setwright/physics';
import { lawOfPlates } from './plate-law.ts';
import { USUAL_LEAST_CAPACITY } from './usual-values.ts';
import {
  factOf,
  missingOf,
  type Reckoned,
  stated,
  unknown,
  type ValueBecause,
} from './value-because.ts';

/** What a condenser is, in farads. */
export interface CondenserValues {
  readonly part: Part;
  readonly kind: 'fixed' | 'variable' | 'trimmer' | 'neutralizing';
  /** Plates out; of a fixed condenser the one value. */
  readonly least: Reckoned;
  /** Plates in. */
  readonly most: Reckoned;
  /** As it is set. A trimmer of which nothing is said is backed off, a neutralizer half way. */
  readonly now: Reckoned;
  /** Turn of the plates from out (0) to in (1) as set; undefined where nothing is said. */
  readonly turn: number | undefined;
}

/**
 * Most capacity in farads by the number of plates, of the broadcast condensers of the twenties.
 * Common practice.
 */
const BY_PLATES: ReadonlyMap<number, number> = new Map([
  [11, 0.25e-9],
  [13, 0.25e-9],
  [17, 0.35e-9],
  [21, 0.5e-9],
  [23, 0.5e-9],
  [43, 1e-9],
]);

/** The values of a condenser; undefined for any other kind of part. Never throws. */
export function condenserValues(circuit: Circuit, part: Part): CondenserValues | undefined {
  if (part.kind !== 'condenser') return undefined;
  const range = part.ranges.capacitance;
  const kind = kindOf(part, range !== undefined);
  const said = part.values.capacitance;
  if (kind === 'fixed') {
    const { tolerance } = part.values;
    const only = said
      ? stated(said, `capacity of ${part.name}`, tolerance)
      : unknown(`the capacity of ${part.name}`);
    return { part, kind, least: only, most: only, now: only, turn: undefined };
  }
  const most = range
    ? stated(range.high, `most capacity of ${part.name}`)
    : said
      ? stated(said, `most capacity of ${part.name}`)
      : byPlates(part);
  const least = range
    ? stated(withUnit(range.low, range.high), `least capacity of ${part.name}`)
    : leastOf(part, most);
  return { part, kind, least, most, ...asSet(circuit, part, kind, least, most) };
}

function kindOf(part: Part, isRange: boolean): CondenserValues['kind'] {
  if (part.words.has('trimmer')) return 'trimmer';
  if (part.words.has('neutralizing')) return 'neutralizing';
  return part.words.has('variable') || isRange ? 'variable' : 'fixed';
}

/** The lower end of `14 to 365 mmfd`, with the unit that is written once for both. */
function withUnit(low: Value, high: Value): Value {
  const unit = /[^\d\s./].*$/.exec(high.text)?.[0];
  return unit === undefined || /[^\d\s./]/.test(low.text)
    ? low
    : { ...low, text: `${low.text} ${unit}` };
}

function byPlates(part: Part): Reckoned {
  const plates: Value | undefined = part.values.plates;
  const most = plates && BY_PLATES.get(plates.value);
  if (!plates || most === undefined) return unknown(`the capacity of ${part.name}`);
  return {
    value: most,
    because: {
      formula: 'by the number of its plates',
      facts: [factOf(plates, `plates of ${part.name}`)],
      assumed: [`${part.name} is a usual condenser of ${plates.text}`],
      source: 'common practice',
      relativeError: 0.15,
    },
  };
}

function leastOf(part: Part, most: Reckoned): Reckoned {
  if (most.value === undefined) return most;
  return {
    value: most.value * USUAL_LEAST_CAPACITY,
    because: {
      ...most.because,
      formula: 'a twenty-fifth of its most',
      assumed: [
        ...most.because.assumed,
        `a least capacity of ${part.name} of a twenty-fifth of its most`,
      ],
      source: 'common practice',
      relativeError: 0.5,
    },
  };
}

/** Where it stands: by a stated capacity, by a share of its turn, else as presets are taken. */
function asSet(
  circuit: Circuit,
  part: Part,
  kind: CondenserValues['kind'],
  least: Reckoned,
  most: Reckoned,
): { readonly now: Reckoned; readonly turn: number | undefined } {
  if (least.value === undefined || most.value === undefined)
    return { now: unknown(...missingOf(least), ...missingOf(most)), turn: undefined };
  const { law, assumed } = lawOfPlates(circuit, part);
  const plates = { minimum: least.value, maximum: most.value, law };
  const set = part.values.set;
  if (set) {
    const turn = dialAtCapacitance(plates, set.value);
    return { now: stated(set, `setting of ${part.name}`), turn };
  }
  const because: ValueBecause = {
    formula: 'by the law of its plates',
    facts: [...least.because.facts, ...most.because.facts],
    assumed: assumed === undefined ? [] : [assumed],
    source: 'plate laws of the handbooks',
  };
  if (part.setting?.kind === 'fraction') {
    const { fraction, place } = part.setting;
    const turn = Math.min(1, Math.max(0, fraction));
    const value = capacitanceAtDial(plates, turn);
    const text = `set ${Math.round(1000 * fraction) / 10} %`;
    const facts = [...because.facts, { place, text, meaning: `setting of ${part.name}` }];
    const now: Reckoned =
      value === undefined
        ? unknown(`a range of ${part.name} that can exist`)
        : { value, because: { ...because, facts } };
    return { now, turn };
  }
  if (kind === 'variable') return { now: unknown(`where ${part.name} stands`), turn: undefined };
  const isBackedOff = kind === 'trimmer';
  return {
    now: {
      value: isBackedOff ? least.value : (least.value + most.value) / 2,
      because: {
        ...because,
        formula: isBackedOff ? 'its least' : 'half way between its least and most',
        assumed: [`${part.name} is ${isBackedOff ? 'backed off' : 'set half way'}`],
        source: 'common practice',
      },
    },
    turn: undefined,
  };
}
