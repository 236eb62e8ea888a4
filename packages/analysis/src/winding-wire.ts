import type { Part } from '@setwright/circuit';
import { coveredDiameter, wireDiameter } from '@setwright/physics';
import { USUAL_WIRE_OVER_PITCH } from './usual-values.ts';
import { factOf, type ValueFact } from './value-because.ts';

/** The wire of a winding and how it lies. All lengths in metres. */
export interface WindingWire {
  readonly turns: number;
  /** Diameter of the copper. */
  readonly bare: number;
  /** Over its covering. */
  readonly covered: number;
  /** From turn to turn along the axis within one layer. */
  readonly pitch: number;
  /** 1 for a single layer. */
  readonly layers: number;
  /** Whether the text says the gauge: without it the copper's resistance is not known. */
  readonly gaugeSaid: boolean;
  readonly facts: readonly ValueFact[];
  readonly assumed: readonly string[];
}

/** Turns that must not be squeezed by more than this before they are taken to lie in layers. */
const SQUEEZE = 1.03;

/**
 * Reads the wire of a winding from its turns, gauge, covering and length; or says what is missing.
 *
 * A stated length counts from the outside of the first turn to the outside of the last. Turns that
 * do not fit into it in one layer are taken to lie in as many layers as they need.
 */
export function windingWire(part: Part): WindingWire | readonly string[] {
  const make = part.winding;
  const turns = make?.turns ?? part.values.turns;
  const missing: string[] = [];
  if (!turns || !(turns.value > 0)) missing.push(`the turns of ${part.name}`);
  if (!make?.gauge && !make?.length) missing.push(`the wire of ${part.name}, or its length`);
  if (missing.length > 0 || !turns || !make) return missing;
  const facts: ValueFact[] = [factOf(turns, `turns of ${part.name}`)];
  const assumed: string[] = [];
  const { gauge, length } = make;
  if (length) facts.push(factOf(length, `length of ${part.name}`));
  if (!gauge) {
    const pitch = (length?.value ?? 0) / turns.value;
    if (!(pitch > 0)) return [`the wire of ${part.name}, or its length`];
    assumed.push(`its wire fills ${USUAL_WIRE_OVER_PITCH} of the pitch (gauge not said)`);
    const bare = USUAL_WIRE_OVER_PITCH * pitch;
    const base = { turns: turns.value, bare, covered: pitch, pitch, layers: 1 };
    return { ...base, gaugeSaid: false, facts, assumed };
  }
  const words = [`${gauge.number}`, ...(gauge.table === 'SWG' ? ['swg'] : []), make.covering ?? ''];
  const text = words.join(' ').trim();
  facts.push({ place: gauge.place, text, meaning: `wire of ${part.name}` });
  const bare = wireDiameter(gauge.number, gauge.table);
  if (bare === undefined) return [`a wire gauge that exists, for ${part.name}`];
  if (!make.covering) assumed.push('double cotton covering (covering not said)');
  const covered = coveredDiameter(bare, make.covering ?? 'DCC') ?? bare;
  if (covered === bare && make.covering !== 'bare')
    assumed.push('no thickness for its covering (none in the wire table for this gauge)');
  if (!length) assumed.push('close-wound in one layer (length not said)');
  const closeLength = turns.value * covered;
  const base = { turns: turns.value, bare, covered, gaugeSaid: true, facts, assumed };
  if (!length) return { ...base, pitch: covered, layers: 1 };
  if (closeLength > SQUEEZE * length.value) {
    if (!(length.value >= covered)) return [`a length of ${part.name} that its wire fits into`];
    const layers = Math.ceil(closeLength / (SQUEEZE * length.value));
    assumed.push(`${layers} layers (its turns do not fit into its length in one)`);
    return { ...base, pitch: covered, layers };
  }
  const spread = turns.value > 1 ? (length.value - covered) / (turns.value - 1) : length.value;
  return { ...base, pitch: Math.max(bare, spread), layers: 1 };
}
