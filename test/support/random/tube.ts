import { type Draft, type Led, type Line, lineOf, nextName, put } from './draft.ts';
import type { Supplies } from './supplies.ts';

/** What a tube's electrodes go to; a join may also be said by the part at the other end. */
export interface Electrodes {
  readonly grid?: string;
  readonly plate?: string;
  readonly screen?: string;
}

export interface PlacedTube {
  readonly name: string;
  readonly grid: string;
  readonly plate: string;
  readonly line: Line;
}

/** A tube without its filament, which is wired last. */
export function putTube(
  draft: Draft,
  supplies: Supplies,
  type: string,
  electrodes: Electrodes = {},
): PlacedTube {
  const { chance } = draft;
  const name = nextName(draft, 'V');
  const block = Object.entries(electrodes).map(([led, target]) =>
    lineOf('', [[led, target as string]]),
  );
  const line = lineOf(`tube ${name} ${type}`, [], '', name, block);
  draft.here.push(line);
  draft.tubes.push({ name, type, line });
  if (supplies.family.heated) {
    const cathode = `${name}.cathode`;
    if (chance.percent(75)) {
      put(draft, 'resistor', 'R', '1500 ohms', [
        ['from', cathode],
        ['to', supplies.minus],
      ]);
      if (chance.percent(80)) {
        put(draft, 'condenser', 'C', '.25 mfd', [
          ['from', cathode],
          ['to', supplies.minus],
        ]);
      }
    } else block.push(lineOf('', [['cathode', supplies.minus]]));
  }
  return { name, grid: `${name}.grid`, plate: `${name}.plate`, line };
}

/** A variable condenser across two points, its moving plates on the first. */
export function putTuning(draft: Draft, rotor: string, stator: string): string {
  const { chance } = draft;
  const size = chance.one(['14 to 365 mmfd', '20 to 500 mmfd', '15 to 350 mmfd']);
  const law = chance.one(['', '', ' law capacity', ' law wavelength', ' law frequency']);
  const joins: Led[] = [
    ['rotor', rotor],
    ['stator', stator],
  ];
  return put(draft, 'condenser', 'C', `variable ${size}${law}`, joins);
}
