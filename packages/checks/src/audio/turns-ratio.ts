import type { Part } from '@setwright/circuit';

/**
 * Turns of one winding of an iron-core transformer over those of another: by its stated ratio, by
 * turns, or by the roots of their inductances; undefined where none of these tells.
 */
export function turnsRatio(transformer: Part, from: Part, to: Part): number | undefined {
  const { ratio } = transformer.values;
  const is = (part: Part, name: string): boolean => part.name === `${transformer.name}.${name}`;
  if (ratio && ratio.value > 0) {
    if (is(from, 'primary') && is(to, 'secondary')) return ratio.value;
    if (is(from, 'secondary') && is(to, 'primary')) return 1 / ratio.value;
  }
  const turns = quotient(from.values.turns?.value, to.values.turns?.value);
  if (turns !== undefined) return turns;
  const henries = quotient(from.values.inductance?.value, to.values.inductance?.value);
  return henries === undefined ? undefined : Math.sqrt(henries);
}

function quotient(below: number | undefined, above: number | undefined): number | undefined {
  if (below === undefined || above === undefined || !(below > 0) || !(above > 0)) return undefined;
  return above / below;
}
