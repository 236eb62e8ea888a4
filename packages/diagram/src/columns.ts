import type { Circuit } from '@setwright/circuit';
import { cellBox } from './cell.ts';
import { naturally } from './natural-order.ts';
import type { Column } from './plan/planning.ts';
import type { Rails } from './rails.ts';

/** Where a part between rails stands: beside a row, or in the strip of the filament circuit. */
export type Home = number | 'strip';

/**
 * Where each part between rails stands, by its cell: beside its stage where there is room, else
 * wherever the drawing grows least.
 *
 * @param widths how wide each row is without such parts, what stands at its right end included
 * @param strip the same of the strip
 * @param stageRow the row in which a stage's tubes stand
 */
export function houseColumns(
  circuit: Circuit,
  rails: Rails,
  columns: readonly Column[],
  widths: readonly number[],
  strip: number,
  stageRow: ReadonlyMap<string, number>,
): Map<string, Home> {
  const homes = new Map<string, Home>();
  const bands = new Map<Home, number>([...widths.entries(), ['strip', strip] as const]);
  const last = widths.length - 1;
  const sorted = [...columns].sort((a, b) => naturally(a.cell.id, b.cell.id));
  for (const { cell, part } of sorted) {
    const { left, right } = cellBox(cell);
    const width = right - left;
    const stage = circuit.stages.find(({ name }) => name === part.stage);
    const row = stage ? (stageRow.get(stage.name) ?? last) : last;
    const isSupplied = part.ends.some((end) => rails.roleOf(end.junction) === 'high');
    // Between two low rails nothing of the path is concerned.
    const liked: Home[] = isSupplied ? [row, last, 'strip'] : ['strip', row, last];
    const others = [...bands.keys()].filter((home) => !liked.includes(home));
    const choices = [...liked, ...others];
    const widest = Math.max(...bands.values());
    const grown = (home: Home): number => Math.max(widest, (bands.get(home) ?? 0) + width);
    const least = Math.min(...choices.map(grown));
    const home = choices.find((each) => grown(each) <= least) ?? last;
    bands.set(home, (bands.get(home) ?? 0) + width);
    homes.set(cell.id, home);
  }
  return homes;
}
