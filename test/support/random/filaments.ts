import { type Draft, type Line, lineOf, put } from './draft.ts';
import type { Supplies } from './supplies.ts';

/** Filament volts and amperes, enough to choose a resistance by; the library has the sources. */
const filaments: Readonly<Record<string, readonly [volts: number, amperes: number]>> = {
  '01-A': [5, 0.25],
  '00-A': [5, 0.25],
  '12-A': [5, 0.25],
  '71-A': [5, 0.25],
  '40': [5, 0.25],
  '22': [3.3, 0.132],
  '99': [3.3, 0.063],
  '20': [3.3, 0.132],
  '11': [1.1, 0.25],
  '12': [1.1, 0.25],
  '30': [2, 0.06],
  '31': [2, 0.13],
  '32': [2, 0.06],
  '33': [2, 0.26],
};

/** Heats every tube: by rheostats for one or for several, ballasts or fixed resistances. */
export function heatTubes(draft: Draft, supplies: Supplies): void {
  const { chance } = draft;
  const { plus, minus, family } = supplies;
  if (family.heated) {
    for (const { line } of draft.tubes) {
      intoBlock(
        line,
        lineOf('heater', [
          ['from', 'A-'],
          ['to', 'A+'],
        ]),
      );
    }
    return;
  }
  const below = chance.percent(65);
  const waiting = [...draft.tubes];
  const shares = chance.percent(45);
  const cartridges = chance.percent(40);
  while (waiting.length > 0) {
    const first = waiting.shift();
    if (!first) break;
    const group = [first];
    if (shares) {
      while (waiting[0]?.type === first.type && chance.percent(75)) {
        group.push(waiting.shift() as (typeof waiting)[number]);
      }
    }
    const [volts, amperes] = filaments[first.type] ?? [5, 0.25];
    const ohms = (family.filamentVolts - volts) / (amperes * group.length);
    const own = chance.percent(85) ? below : !below;
    const cartridge = cartridges && volts === 5 && amperes === 0.25 && group.length === 1;
    const fixed = chance.percent(30);
    const kind = cartridge ? 'ballast' : fixed ? 'resistor' : 'rheostat';
    const letter = cartridge ? 'K' : fixed ? 'F' : 'RH';
    const size = cartridge
      ? '5 V .25 A'
      : fixed
        ? `${round(ohms)} ohms`
        : `${Math.max(6, Math.ceil(ohms / 10) * 10)} ohms`;
    const after = kind === 'rheostat' && chance.percent(80) ? `set ${round(ohms)} ohms` : '';
    const lead = own ? 'filament-' : 'filament+';
    const toTube = group.length === 1 && chance.percent(40);
    const regulator = put(
      draft,
      kind,
      letter,
      size,
      [['from', own ? minus : plus], ...(toTube ? [['to', `${first.name}.${lead}`] as const] : [])],
      after,
    );
    const near = `${regulator}.finish`;
    for (const { line } of group) {
      const ends = own ? [near, plus] : [minus, near];
      intoBlock(
        line,
        toTube
          ? lineOf('filament', [own ? ['to', plus] : ['from', minus]])
          : lineOf('filament', [
              ['from', ends[0] ?? minus],
              ['to', ends[1] ?? plus],
            ]),
      );
    }
  }
}

const round = (ohms: number): number => Math.max(0.5, Math.round(ohms * 10) / 10);

function intoBlock(line: Line, inner: Line): void {
  line.block ??= [];
  line.block.unshift(inner);
}
