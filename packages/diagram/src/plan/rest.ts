import type { Part } from '@setwright/circuit';
import type { Cell, Paper } from '../cell.ts';
import { genericCell, looseCell, potentiometerCell, shieldCell } from '../cells/generic.ts';
import { aerialCell, postCell } from '../cells/posts.ts';
import { selectorCell } from '../cells/selector-cell.ts';
import { isSupply } from '../rails.ts';
import type { Draft } from './draft.ts';
import { addCell, addWherever, type Planning, roleOf, signalsOf } from './planning.ts';

/** Parts that no wire and no contact is joined to, for the tray. */
export function planLoose(planning: Planning): void {
  const { holders, parts, tray, used } = planning;
  const owners = new Set(parts.map(({ owner }) => owner));
  for (const part of parts) {
    if (used.has(part.name) || isSupply(part)) continue;
    if (owners.has(part.name)) used.add(part.name);
    else if (
      part.kind !== 'winding' &&
      part.kind !== 'tube' &&
      part.ends.every(
        (end) =>
          roleOf(planning, end) === 'alone' &&
          [undefined, part.name].includes(holders.get(end.id)) &&
          leadsNowhere(part),
      )
    ) {
      used.add(part.name);
      tray.push(looseCell(part));
    }
  }
}

/** Whether none of a part's contacts makes or breaks with an end of another. */
const leadsNowhere = ({ ends, contacts }: Part): boolean =>
  contacts.every(({ from, to }) => [from, to].every((id) => ends.some((end) => end.id === id)));

/** Posts, buses, and every part that has no cell yet. */
export function planRest(planning: Planning): void {
  const { coils, parts, rails, railPosts, used } = planning;
  for (const part of parts) {
    if (used.has(part.name) || isSupply(part)) continue;
    used.add(part.name);
    if (part.kind === 'post' || part.kind === 'bus') {
      const net = part.ends[0]?.junction;
      if (net === undefined) continue;
      if (rails.roleOf(net) !== 'signal') railPosts.push(part);
      else if (part.words.has('aerial')) addCell(planning, () => aerialCell(part), [net]);
      else {
        const level = coils.level(net);
        // A name stands on the wire before what hangs from it, not at the end of a wire of its own.
        const first = part.kind === 'bus' ? 0.05 : 0;
        addCell(
          planning,
          () => postCell(part, level),
          [net],
          0,
          (cell) => {
            cell.key -= first;
          },
        );
      }
      continue;
    }
    addByPorts(planning, part);
  }
}

/** A part on the signal path where it has an end on it, or its cell a way out. */
function addByPorts(planning: Planning, part: Part): void {
  const draft: Draft = (paper) => cellOf(planning, paper.shown(part), paper);
  const signals = signalsOf(planning, part);
  if (signals.length > 0) addCell(planning, draft, signals);
  else addWherever(planning, draft, part);
}

function cellOf(planning: Planning, part: Part, paper: Paper): Cell {
  const { rails } = planning;
  if (part.kind === 'potentiometer') return potentiometerCell(paper, rails, part);
  if (part.kind === 'selector' && part.contacts.length > 0) {
    return selectorCell(planning.circuit, paper, rails, part);
  }
  if (part.kind === 'shield') return shieldCell(paper, part);
  return part.ends.every((end) => roleOf(planning, end) === 'alone')
    ? looseCell(part, holderOf(planning, part))
    : genericCell(paper, rails, part);
}

/** The jack or selector that a part is joined to by its contacts alone. */
function holderOf({ holders }: Planning, part: Part): string | undefined {
  return part.ends
    .map(({ id }) => holders.get(id))
    .find((name) => name !== undefined && name !== part.name);
}
