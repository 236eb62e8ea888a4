import type { End, Part } from '@setwright/circuit';
import { type Cell, endOf, type Paper } from '../cell.ts';
import { type CoilPair, loneWindingCell, pairCell } from '../cells/coil.ts';
import { startAndFinish } from '../cells/coil-context.ts';
import { isBetweenPlates, outputChokeCell } from '../cells/output-choke.ts';
import { naturally } from '../natural-order.ts';
import type { Draft } from './draft.ts';
import { addCell, type Planning, roleOf, signalsOf, takeAcross } from './planning.ts';

/** Loops and tapped chokes, and the windings of every coil and transformer. */
export function planCoils(planning: Planning): void {
  const { circuit, coils, parts, used } = planning;
  const owners = new Map<string, Part[]>();
  for (const part of parts) {
    const isTappedChoke = part.kind === 'choke' && part.taps.length > 0;
    if ((part.kind === 'loop' || isTappedChoke) && !used.has(part.name)) {
      used.add(part.name);
      if (isTappedChoke && isBetweenPlates(coils, part)) {
        const across = takeAcross(planning, part);
        addCell(
          planning,
          (paper) =>
            outputChokeCell({ ...coils, paper }, paper.shown(part), across.map(paper.shown)),
          signalsOf(planning, part),
          0.4,
        );
        continue;
      }
      const posts = isTappedChoke ? [] : loopPosts(planning, part);
      const across = takeAcross(planning, part);
      addCell(
        planning,
        (paper) =>
          loneWindingCell(
            { ...coils, paper },
            paper.shown(part),
            across.map(paper.shown),
            false,
            posts,
          ),
        signalsOf(planning, part),
      );
    }
    if (part.kind !== 'winding') continue;
    const list = owners.get(part.owner ?? '');
    if (list) list.push(part);
    else owners.set(part.owner ?? '', [part]);
  }
  for (const [name, windings] of owners) {
    planCoil(planning, circuit.partNamed.get(name), windings);
  }
}

/** Posts of a loop on its cold end, where that is on a rail: they stand in its lead. */
function loopPosts(planning: Planning, loop: Part): string[] {
  const { posts, used } = planning;
  const cold = loop.ends.filter((end) => roleOf(planning, end) === 'low');
  if (cold.length !== 1) return [];
  const found = posts.filter(
    ({ name, words, ends }) =>
      words.has('loop') && !used.has(name) && ends[0]?.junction === cold[0]?.junction,
  );
  for (const { name } of found) used.add(name);
  return found.map(({ name }) => name);
}

/** The two windings that hand the signal on as one cell, every other winding by itself. */
function planCoil(planning: Planning, owner: Part | undefined, windings: readonly Part[]): void {
  const { coils, used } = planning;
  const [primary, secondary] = leadingPair(planning, windings);
  for (const each of windings) used.add(each.name);
  /** Where on the path the coil's first cell stands, which the others follow. */
  let lead = 0;
  const leads = (cell: Cell): void => {
    lead = cell.key;
  };
  // A tickler belongs near the coil that it works on.
  const follows = (cell: Cell): void => {
    cell.key = lead + 0.01;
  };
  let isLed = false;
  if (owner && primary && secondary) {
    const [selector] = selectorsOf(planning, primary, 1);
    const acrossSecondary = takeAcross(planning, secondary);
    // Its studs would stand where what tunes it stands.
    const [secondSelector] = selectorsOf(planning, secondary, acrossSecondary.length > 0 ? 0 : 1);
    const pair = {
      owner,
      primary,
      secondary,
      acrossSecondary,
      acrossPrimary: selector ? [] : takeAcross(planning, primary),
      selector,
      secondSelector,
    };
    const own = [primary, secondary, selector, secondSelector].filter((each) => each !== undefined);
    addCell(
      planning,
      (paper) => pairCell({ ...coils, paper }, shownPair(paper, pair)),
      own.flatMap((part) => signalsOf(planning, part)),
      0.4,
      leads,
    );
    isLed = true;
  }
  for (const each of inOrder(planning, windings)) {
    if (owner && secondary && (each === primary || each === secondary)) continue;
    const across = takeAcross(planning, each);
    const selectors = selectorsOf(planning, each, across.length > 0 ? 1 : 2);
    const draft: Draft = (paper) =>
      loneWindingCell(
        { ...coils, paper },
        paper.shown(each),
        across.map(paper.shown),
        windings.length > 1,
        [],
        selectors.map(paper.shown),
      );
    const nets = [each, ...selectors].flatMap((part) => signalsOf(planning, part));
    if (isLed) addCell(planning, draft, nets, 0, follows);
    else {
      isLed = isFedBack(planning, windings);
      addCell(planning, draft, nets, 0, isLed ? leads : undefined);
    }
  }
}

/** A pair with the words that a paper shows. */
const shownPair = ({ shown }: Paper, pair: CoilPair): CoilPair => ({
  owner: shown(pair.owner),
  primary: shown(pair.primary),
  secondary: shown(pair.secondary),
  acrossPrimary: pair.acrossPrimary.map(shown),
  acrossSecondary: pair.acrossSecondary.map(shown),
  selector: pair.selector && shown(pair.selector),
  secondSelector: pair.secondSelector && shown(pair.secondSelector),
});

/** So many selectors, no more, whose studs are all on a winding; they are taken. */
function selectorsOf(planning: Planning, winding: Part, most: number): Part[] {
  const { parts, used } = planning;
  const found = parts
    .filter(
      (part) =>
        part.kind === 'selector' &&
        !used.has(part.name) &&
        part.contacts.length > 0 &&
        part.contacts.every(({ from, to }) =>
          winding.ends.some((end) => (end.id === from || end.id === to) && isFree(planning, end)),
        ),
    )
    .slice(0, most);
  for (const { name } of found) used.add(name);
  return found;
}

/** Whether no wire leads to an end: a selector's stud may then be drawn at it. */
const isFree = ({ circuit }: Planning, { junction }: End): boolean =>
  (circuit.junctions[junction]?.terminals.length ?? 0) <= 1;

const isFed = ({ plates }: Planning, winding: Part): boolean =>
  winding.ends.some((end) => plates.has(end.junction));

/** Windings in the order in which the signal reaches them. */
function inOrder(planning: Planning, windings: readonly Part[]): Part[] {
  const { contacted, rank } = planning;
  const reached = (part: Part): number =>
    Math.min(
      ...part.ends.map((end) =>
        roleOf(planning, end) === 'signal' || contacted.has(end.id) ? rank(end.junction) : 1e6,
      ),
    );
  return [...windings].sort((a, b) => reached(a) - reached(b) || naturally(a.name, b.name));
}

/** The winding that hands the signal on and the one that takes it. */
function leadingPair(
  planning: Planning,
  windings: readonly Part[],
): [Part | undefined, Part | undefined] {
  const sorted = inOrder(planning, windings);
  const tuned = sorted.filter((each) => !isFed(planning, each) && isTuned(planning, each));
  const [first, second] = sorted;
  const last = tuned.at(-1);
  // Of two windings the one in a plate lead drives the other; what a condenser tunes is driven.
  if (first && second && sorted.length === 2) {
    const driven = sorted.filter(
      (each) => isFed(planning, each) || each.ends.some((end) => roleOf(planning, end) === 'high'),
    );
    if (isFedBack(planning, sorted)) return [undefined, undefined];
    const turned =
      driven.length === 1 ? driven[0] === second : tuned.length === 1 && last === first;
    if (turned) sorted.reverse();
  } else if (last !== undefined && last === first) {
    // A pick-up winding drives the tuned one.
    const driver = sorted.find((each) => each !== last && !isFed(planning, each));
    if (driver) return [driver, last];
  }
  return [sorted[0], sorted.slice(1).find((each) => !isFed(planning, each))];
}

/** Of two windings, whether one stands in the plate lead of the tube whose grid the other drives. */
function isFedBack(planning: Planning, windings: readonly Part[]): boolean {
  const { parts } = planning;
  if (windings.length !== 2) return false;
  return windings.some((fed, index) => {
    const grid = windings[1 - index];
    const nets = (grid ? startAndFinish(grid) : [])
      .filter((end) => roleOf(planning, end) === 'signal')
      .map((end) => end?.junction);
    nets.push(...(grid ? armsOn(planning, grid) : []));
    return parts.some((tube) => {
      const plate = endOf(tube, 'plate')?.junction;
      const own = endOf(tube, 'grid')?.junction;
      if (tube.kind !== 'tube' || own === undefined) return false;
      if (!startAndFinish(fed).some((end) => end?.junction === plate)) return false;
      return (
        nets.includes(own) ||
        parts.some(
          ({ kind, words, ends }) =>
            (kind === 'condenser' || kind === 'resistor' || kind === 'leak') &&
            !words.has('neutralizing') &&
            ends.some(({ junction }) => junction === own) &&
            ends.some(({ junction }) => junction !== own && nets.includes(junction)),
        )
      );
    });
  });
}

/** The junctions to which selectors lead the taps of a winding. */
function armsOn({ parts }: Planning, winding: Part): number[] {
  const own = new Set(winding.ends.map(({ id }) => id));
  return parts
    .filter(
      ({ kind, contacts }) =>
        kind === 'selector' && contacts.some(({ from, to }) => own.has(from) || own.has(to)),
    )
    .flatMap((selector) => endOf(selector, 'arm')?.junction ?? []);
}

/** Whether a condenser tunes a winding; across a winding on iron it only passes radio by. */
function isTuned({ circuit, parts }: Planning, winding: Part): boolean {
  const owner = circuit.partNamed.get(winding.owner ?? '');
  if (owner?.kind === 'transformer' && !owner.words.has('air')) return false;
  const nets = startAndFinish(winding).map((end) => end?.junction);
  return parts.some(
    ({ kind, ends }) =>
      kind === 'condenser' && ends.every(({ junction }) => nets.includes(junction)),
  );
}
