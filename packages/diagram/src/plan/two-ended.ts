import type { End, Part } from '@setwright/circuit';
import { columnCell, seriesCell, shortedCell, shuntCell } from '../cells/two-ended.ts';
import type { Draft } from './draft.ts';
import {
  addCell,
  addColumn,
  isTwoEnded,
  makesSound,
  type Planning,
  roleOf,
  takePosts,
} from './planning.ts';

/** Parts with two ends, by what their ends are on: in series, hanging, or between rails. */
export function planTwoEnded(planning: Planning): void {
  const { coils, parts, used } = planning;
  const isAlone = (end: End): boolean => roleOf(planning, end) === 'alone';
  for (const part of parts) {
    if (used.has(part.name) || !isTwoEnded(part)) continue;
    const [one, other] = part.ends;
    if (!one || !other || (isAlone(one) && isAlone(other))) continue;
    used.add(part.name);
    const [role, otherRole] = [roleOf(planning, one), roleOf(planning, other)];
    if (role === 'signal' && otherRole === 'signal') {
      if (one.junction !== other.junction) planSeries(planning, part, one, other);
      // Both ends on one junction: shorted by the wiring.
      else {
        const level = coils.level(one.junction);
        addCell(planning, (paper) => shortedCell(paper.shown(part), level), [one.junction]);
      }
    } else if (role === 'signal' || otherRole === 'signal') {
      const [signal, rail] = role === 'signal' ? [one, other] : [other, one];
      const ownPosts = makesSound(part)
        ? {
            signal: takePosts(planning, signal.junction),
            rail: takePosts(planning, rail.junction),
          }
        : { signal: [], rail: [] };
      const up = roleOf(planning, rail) === 'high';
      const level = coils.level(signal.junction);
      const draft: Draft = (paper) =>
        shuntCell(paper, paper.shown(part), signal, rail, level, up, ownPosts, isAlone);
      addCell(planning, draft, [signal.junction]);
    } else {
      const [upper, lower] = upperFirst(planning, one, other);
      addColumn(
        planning,
        (paper) => columnCell(paper, paper.shown(part), upper, lower, isAlone),
        part,
      );
    }
  }
}

/** The ends of a part between rails, the higher in potential first. */
function upperFirst({ rails }: Planning, one: End, other: End): [End, End] {
  return rails.heightOf(other.junction) > rails.heightOf(one.junction)
    ? [other, one]
    : [one, other];
}

function planSeries(planning: Planning, part: Part, one: End, other: End): void {
  const { coils, parts, rank, used } = planning;
  const [from, to] =
    rank(one.junction) <= rank(other.junction)
      ? [one.junction, other.junction]
      : [other.junction, one.junction];
  const twins = parts.filter((each) => {
    if (each === part || used.has(each.name) || !isTwoEnded(each)) return false;
    const [a, b] = each.ends.map((end) => end.junction);
    return (a === from && b === to) || (a === to && b === from);
  });
  for (const twin of twins) used.add(twin.name);
  const group = [part, ...twins];
  const high = coils.level(from);
  const jump = group.length === 1 ? coils.level(to) : high;
  addCell(
    planning,
    (paper) => seriesCell(group.map(paper.shown), from, to, high, jump),
    [from, to],
    0.3,
  );
}
