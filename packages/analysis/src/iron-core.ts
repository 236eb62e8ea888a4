import type { Circuit, Part } from '@setwright/circuit';
import { windingsOf } from './coil-layout.ts';
import { IRON_LEAKAGE } from './usual-values.ts';
import { factOf, type Reckoned, unknown, type ValueBecause } from './value-because.ts';

/** Coupling of two windings on one iron core where nothing is said of it. */
export const IRON_COUPLING = Math.sqrt(1 - IRON_LEAKAGE);

/** What the coupling of windings on iron is taken from. */
export const ironCouplingBecause: ValueBecause = {
  formula: 'windings on one iron core: all but the leakage',
  facts: [],
  assumed: [`a leakage of ${100 * IRON_LEAKAGE} % of the inductance`],
  source: 'common practice',
  relativeError: 0.02,
};

/** The primary and secondary of a transformer: by name, else in the order of the text. */
function primaryAndSecondary(
  windings: readonly Part[],
): readonly [primary: Part | undefined, secondary: Part | undefined] {
  const named = (word: string) => windings.find(({ name }) => name.endsWith(`.${word}`));
  const primary = named('primary') ?? windings.find((part) => part !== named('secondary'));
  return [primary, named('secondary') ?? windings.find((part) => part !== primary)];
}

/**
 * Inductance in henries of a winding of an iron-core transformer that does not state its own: that
 * of the other winding by the square of the ratio of turns. Unknown without a ratio and one
 * stated inductance, and for a third winding.
 */
export function ironInductance(circuit: Circuit, transformer: Part, part: Part): Reckoned {
  const [primary, secondary] = primaryAndSecondary(windingsOf(circuit, transformer.name));
  const { ratio } = transformer.values;
  if (part !== primary && part !== secondary) return unknown(`the inductance of ${part.name}`);
  const other = part === primary ? secondary : primary;
  const said = other?.values.inductance;
  const missing = [
    ...(said && said.value > 0 ? [] : [`the inductance of ${primary?.name ?? transformer.name}`]),
    ...(ratio && ratio.value > 0 ? [] : [`the ratio of ${transformer.name}`]),
  ];
  if (!said || !other || !(said.value > 0) || !ratio || !(ratio.value > 0))
    return unknown(...missing);
  const square = ratio.value * ratio.value;
  return {
    value: part === secondary ? said.value * square : said.value / square,
    because: {
      formula: 'the other winding by the square of the ratio',
      facts: [
        factOf(said, `inductance of ${other.name}`),
        factOf(ratio, `ratio of ${transformer.name}`),
      ],
      assumed: [],
      source: 'turns on one core',
      relativeError: 0.1,
    },
  };
}
