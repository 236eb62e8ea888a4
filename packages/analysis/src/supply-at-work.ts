import type { Part, SupplyTap } from '@setwright/circuit';
import { type Fact, type Figure, fact, figure } from './because.ts';
import type { Rest } from './dc-rest.ts';
import type { Element } from './network.ts';
import type { Flows } from './rest-flows.ts';
import type { Known } from './tube-at-work.ts';

/** A tap of a supply at work. */
export interface TapAtWork {
  /** The tap's name, such as `B+67`. */
  readonly tap: string;
  /** Volts of the tap above the supply's lowest one, as they stand under load. */
  readonly volts: Figure | undefined;
  /** Amperes out of the tap into its lead; negative where they come back. */
  readonly amperes: Figure | undefined;
}

/** A battery or eliminator at work. */
export interface SupplyAtWork {
  readonly supply: string;
  readonly taps: readonly TapAtWork[];
  /** Amperes of the hardest worked cells; negative when they are being charged. */
  readonly drain: Figure | undefined;
  /** Hours that the stated capacity lasts at this drain; undefined where none is stated or taken. */
  readonly hours: Figure | undefined;
}

/** A drain of fewer amperes is none: the cells die of age first. */
const NO_DRAIN = 1e-6;
const SECONDS_OF_HOUR = 3600;

/** What a supply gives; its capacity in coulombs as the text's values are kept. */
export function supplyAtWork(part: Part, rest: Rest, flows: Flows, isKnown: Known): SupplyAtWork {
  const { system } = rest;
  const volts = (junction: number): number => system.volts[system.pointOf(junction)] as number;
  const sections = (rest.elementsOf.get(part.name) ?? []).map((index) => ({
    amperes: flows.amperes[index] as number,
    element: system.elements[index],
  }));
  const first = sections[0]?.element?.branch;
  const named = (terminal: string | undefined): string =>
    (terminal ?? '').slice(part.name.length + 1);
  const cells = (element: Element, amperes: number): Fact => {
    const { from, to } = element.branch;
    return fact(`cells ${named(from)} to ${named(to)}`, amperes, 'current', part.place);
  };
  const taps = part.supplyTaps.map((tap): TapAtWork => {
    const end = part.ends.find(({ name }) => name === tap.end);
    const amperes = end && flows.into.get(end.id);
    const known = end && isKnown(end.junction, end.junction);
    const zero = first?.fromJunction;
    const above = end && zero !== undefined && isKnown(end.junction, zero);
    const stated = fact(`${tap.end} as stated`, tap.volts ?? 0, 'voltage', tap.place);
    const inside = resistanceOf(part, tap);
    return {
      tap: tap.end,
      volts: above
        ? figure(volts(end.junction) - volts(zero), 'Ohm’s law, V = E − I R of the cells between', [
            stated,
            ...inside,
          ])
        : undefined,
      amperes:
        known && amperes !== undefined && Number.isFinite(amperes)
          ? figure(
              0 - amperes,
              part.kind === 'battery'
                ? 'Kirchhoff’s first law, I(tap) = I(cells below) − I(cells above)'
                : 'Ohm’s law, I(tap) = (E − V) / R(tap)',
              part.kind === 'battery'
                ? sections.flatMap(({ element, amperes: each }) =>
                    element?.branch.from === end.id || element?.branch.to === end.id
                      ? [cells(element, each)]
                      : [],
                  )
                : [stated, ...inside],
            )
          : undefined,
    };
  });
  let most: (typeof sections)[number] | undefined;
  for (const section of sections) {
    if (!Number.isFinite(section.amperes)) continue;
    const { element } = section;
    if (!element || !isKnown(element.branch.fromJunction, element.branch.toJunction)) continue;
    if (!most || Math.abs(section.amperes) > Math.abs(most.amperes)) most = section;
  }
  const drain =
    part.kind === 'battery'
      ? most?.element &&
        figure(most.amperes, 'the most that any of its cells carries', [
          cells(most.element, most.amperes),
        ])
      : takenTogether(taps);
  return { supply: part.name, taps, drain, hours: hoursOf(part, drain) };
}

/** What an eliminator gives: its taps hang side by side on one rectifier. */
function takenTogether(taps: readonly TapAtWork[]): Figure | undefined {
  const giving = taps.filter(({ amperes }) => (amperes?.value ?? 0) > 0);
  if (taps.some(({ amperes }) => amperes === undefined)) return undefined;
  return figure(
    giving.reduce((sum, { amperes }) => sum + (amperes?.value ?? 0), 0),
    'Kirchhoff’s first law: all its taps together',
    giving.map(({ tap, amperes }) => fact(tap, amperes?.value ?? 0, 'current')),
  );
}

/** The ohms that the text gives a supply or its tap; nothing where usual ones were taken. */
function resistanceOf({ values }: Part, tap: SupplyTap): readonly Fact[] {
  if (tap.resistance !== undefined)
    return [fact(`resistance of ${tap.end}`, tap.resistance, 'resistance', tap.place)];
  const { resistance } = values;
  return resistance
    ? [fact('its resistance', resistance.value, 'resistance', resistance.place)]
    : [];
}

function hoursOf(part: Part, drain: Figure | undefined): Figure | undefined {
  const capacity = part.values.capacity;
  if (!capacity || !drain || drain.value <= NO_DRAIN || !(capacity.value > 0)) return undefined;
  const hours = capacity.value / SECONDS_OF_HOUR / drain.value;
  return figure(
    hours,
    'capacity / drain',
    [
      fact('capacity', capacity.value, 'charge', capacity.place),
      fact('drain', drain.value, 'current', part.place),
    ],
    'common practice; at a small drain and with rests a cell gives more, at a large one less',
  );
}
