import type { Circuit, End, Part } from '@setwright/circuit';
import { type Canvas, drawStack, type Terminal } from './canvas.ts';
import { addMark, endOf, labelAt, nameAndValue, type Paper, place, wire } from './cell.ts';
import { flatPart, uprightPart } from './cells/upright.ts';
import { naturally } from './natural-order.ts';
import { valueText } from './part-words.ts';
import { isFilamentEnd, isSupply, type Rails } from './rails.ts';

interface Regulator {
  readonly part: Part;
  readonly a: number;
  readonly b: number;
}

interface Group {
  readonly plus: number;
  readonly minus: number;
  readonly tubes: Part[];
}

/** The filament circuit with the lines it runs between. */
interface Ladder {
  readonly upper: number;
  readonly lower: number;
  readonly upperSupply: number;
  readonly lowerSupply: number;
  readonly upperTail: Regulator | undefined;
  readonly lowerTail: Regulator | undefined;
}

const step = 90;

/**
 * The filament circuit as a ladder: the positive line, what regulates on that side, the
 * filaments, what regulates on the other side, the negative line. Returns the lower edge.
 */
export function drawStrip(
  circuit: Circuit,
  rails: Rails,
  paper: Paper,
  canvas: Canvas,
  left: number,
  top: number,
  right: (width: number) => number,
  terminals: ReadonlyMap<number, readonly Terminal[]>,
  tubeAt: ReadonlyMap<string, number>,
): { bottom: number; right: number; stacked: Set<number> } {
  const parts = [...circuit.parts].sort((a, b) => naturally(a.name, b.name));
  const regulators: Regulator[] = parts
    .filter(({ name, kind }) => rails.stripParts.has(name) && kind !== 'potentiometer')
    .flatMap((part) => {
      const [a, b] = [part.ends[0]?.junction, part.ends[1]?.junction];
      return a === undefined || b === undefined ? [] : [{ part, a, b }];
    });
  const tubes = parts.filter(
    ({ kind, ends }) => kind === 'tube' && ends.some((e) => isFilamentEnd(e.name)),
  );
  const used = new Set<string>();
  const ladder = findLadder(parts, tubes, regulators, rails);
  const stacked = new Set<number>();
  if (tubes.length === 0 && rails.stripParts.size === 0) {
    return { bottom: top, right: left, stacked };
  }
  if (ladder.upperTail) used.add(ladder.upperTail.part.name);
  if (ladder.lowerTail) used.add(ladder.lowerTail.part.name);

  const groups = groupTubes(tubes);
  const between = (a: number, b: number): Regulator | undefined =>
    regulators.find(
      ({ part, ...its }) =>
        !used.has(part.name) && ((its.a === a && its.b === b) || (its.a === b && its.b === a)),
    );
  const plans = groups.map((group) => {
    const above = group.plus === ladder.upper ? undefined : between(group.plus, ladder.upper);
    if (above) used.add(above.part.name);
    const below = group.minus === ladder.lower ? undefined : between(group.minus, ladder.lower);
    if (below) used.add(below.part.name);
    return { ...group, above, below };
  });
  const upperSlot = plans.some(({ above }) => above) ? 80 : 20;
  const lowerSlot = plans.some(({ below }) => below) ? 80 : 20;
  const upperY = top;
  const filamentY = upperY + upperSlot + 40;
  const lowerY = filamentY + 40 + lowerSlot;
  const size = (net: number): number => circuit.junctions[net]?.terminals.length ?? 0;

  const spots = columnsUnderTubes(plans, tubeAt, left + 40);
  let x = left + 40;
  const touched = { upper: [] as number[], lower: [] as number[] };
  for (const plan of plans) {
    const columns = plan.tubes.map(({ name }) => spots.get(name) ?? x);
    for (const [index, tube] of plan.tubes.entries()) {
      const at = columns[index] ?? x;
      place(
        canvas,
        tube.name,
        'filament',
        { x: at, y: filamentY },
        {
          plus: endOf(tube, 'filament+'),
          minus: endOf(tube, 'filament-'),
        },
      );
      canvas.labels.push(labelAt(tube.name, 'name', at + 19, filamentY - 7, 'start', tube.name));
    }
    side(plan.plus, columns, -1, plan.above, ladder.upper, upperY, touched.upper, plan.tubes);
    side(plan.minus, columns, 1, plan.below, ladder.lower, lowerY, touched.lower, plan.tubes);
    x = Math.max(x, ...columns.map((at) => at + step));
  }

  for (const part of parts) {
    if (part.kind !== 'potentiometer' || !rails.stripParts.has(part.name)) continue;
    drawPotentiometer(part, x);
    x += step + 20;
  }
  for (const regulator of regulators) {
    if (used.has(regulator.part.name)) continue;
    const { a, b, part } = regulator;
    const joins = [a, b].includes(ladder.upper) && [a, b].includes(ladder.lower);
    if (joins || size(a) <= 1 || size(b) <= 1) continue;
    used.add(part.name);
    flatPart(canvas, part, x + 30, filamentY, part.ends[0], part.ends[1]);
    wire(canvas, a, x + 20, filamentY, x + 30, filamentY);
    wire(canvas, b, x + 70, filamentY, x + 80, filamentY);
    addMark(paper, canvas, a, { x: x + 20, y: filamentY }, 'bar-left');
    addMark(paper, canvas, b, { x: x + 80, y: filamentY }, 'bar-right');
    x += 170;
  }
  for (const { part, a, b } of regulators) {
    if (used.has(part.name)) continue;
    used.add(part.name);
    uprightPart(canvas, part, x, filamentY - 20, part.ends[0], part.ends[1]);
    const [p, q] = [part.ends[0]?.junction, part.ends[1]?.junction];
    if (p !== undefined && size(a) > 1) {
      wire(canvas, a, x, filamentY - 20, x, filamentY - 30);
      addMark(paper, canvas, a, { x, y: filamentY - 30 }, 'bar-up');
    }
    if (q !== undefined && size(b) > 1) {
      wire(canvas, b, x, filamentY + 20, x, filamentY + 30);
      addMark(paper, canvas, b, { x, y: filamentY + 30 }, 'bar-down');
    }
    x += step + 20;
  }

  const edge = right(x + 110);
  line(ladder.upper, ladder.upperSupply, ladder.upperTail, upperY, touched.upper);
  const bottom = line(ladder.lower, ladder.lowerSupply, ladder.lowerTail, lowerY, touched.lower);
  return { bottom: bottom + 30, right: edge, stacked };

  /** One side of a group of filaments: to its line, through what regulates it, or to a symbol. */
  function side(
    net: number,
    columns: readonly number[],
    sign: 1 | -1,
    regulator: Regulator | undefined,
    bus: number,
    busY: number,
    met: number[],
    tubesOf: readonly Part[],
  ): void {
    const pinY = filamentY + sign * 20;
    if (net < 0 || size(net) <= 1) return;
    if (net === bus) {
      for (const at of columns) {
        wire(canvas, net, at, pinY, at, busY);
        met.push(at);
      }
      return;
    }
    const nodeY = filamentY + sign * 40;
    const [first, last] = [Math.min(...columns), Math.max(...columns)];
    for (const at of columns) wire(canvas, net, at, pinY, at, nodeY);
    if (first !== last) wire(canvas, net, first, nodeY, last, nodeY);
    if (!regulator) {
      addMark(paper, canvas, net, { x: first, y: nodeY }, sign < 0 ? 'bar-up' : 'bar-down');
      return;
    }
    const middle = first;
    const near = regulator.part.ends.find((end) => end.junction === net);
    const far = regulator.part.ends.find((end) => end.junction === bus);
    if (sign < 0) {
      wire(canvas, bus, middle, busY, middle, busY + 20);
      uprightPart(canvas, regulator.part, middle, busY + 20, far, near);
      wire(canvas, net, middle, busY + 60, middle, nodeY);
    } else {
      wire(canvas, net, middle, nodeY, middle, nodeY + 20);
      uprightPart(canvas, regulator.part, middle, nodeY + 20, near, far);
      wire(canvas, bus, middle, nodeY + 60, middle, busY);
    }
    met.push(middle);
    if (isNamedElsewhere(net, regulator.part, tubesOf)) {
      const y = filamentY + sign * 30;
      wire(canvas, net, first, y, first - 12, y);
      addMark(paper, canvas, net, { x: first - 12, y }, 'bar-left');
    }
  }

  /** Whether more is on a junction than a group's own filaments and what regulates them. */
  function isNamedElsewhere(net: number, regulator: Part, own: readonly Part[]): boolean {
    return (circuit.junctions[net]?.terminals ?? []).some((id) => {
      const part = circuit.partOfEnd.get(id);
      if (!part || part === regulator) return false;
      const end = part.ends.find((one) => one.id === id);
      return !(own.includes(part) && end && isFilamentEnd(end.name));
    });
  }

  function drawPotentiometer(part: Part, at: number): void {
    const [start, finish, arm] = ['start', 'finish', 'arm'].map((name) => endOf(part, name));
    const isUp = (end: End | undefined): boolean => end?.junction === ladder.upper;
    const [upper, lower] = isUp(start) ? [start, finish] : [finish, start];
    const y = filamentY;
    place(canvas, part.name, 'potentiometer', { x: at, y }, { a: upper, b: lower, arm });
    nameAndValue(canvas, part.name, part.name, valueText(part), at + 12, y + 22, 'start');
    for (const [end, sign, bus, busY, met] of [
      [upper, -1, ladder.upper, upperY, touched.upper],
      [lower, 1, ladder.lower, lowerY, touched.lower],
    ] as const) {
      if (!end || size(end.junction) <= 1) continue;
      if (end.junction === bus) {
        wire(canvas, bus, at, y + sign * 20, at, busY);
        met.push(at);
      } else {
        // Below, the words stand beside the lead.
        const tip = y + (sign < 0 ? -30 : 54);
        wire(canvas, end.junction, at, y + sign * 20, at, tip);
        const spot = { x: at, y: tip };
        addMark(paper, canvas, end.junction, spot, sign < 0 ? 'bar-up' : 'bar-down');
      }
    }
    if (arm && size(arm.junction) > 1) {
      wire(canvas, arm.junction, at + 20, y, at + 28, y);
      addMark(paper, canvas, arm.junction, { x: at + 28, y }, 'bar-right');
    }
  }

  /** A line of the ladder out to its terminals at the right edge. Returns the lower edge. */
  function line(
    net: number,
    supply: number,
    tail: Regulator | undefined,
    y: number,
    met: readonly number[],
  ): number {
    if (net < 0) return y;
    const start = Math.min(...met, edge - 100);
    if (tail) {
      const near = tail.part.ends.find((end) => end.junction === net);
      const far = tail.part.ends.find((end) => end.junction === supply);
      const at = edge - 80;
      wire(canvas, net, start, y, at, y);
      flatPart(canvas, tail.part, at, y, near, far);
      wire(canvas, supply, at + 40, y, edge, y);
      wire(canvas, net, start - 12, y, start, y);
      addMark(paper, canvas, net, { x: start - 12, y }, 'bar-left');
    } else if (met.length > 0) wire(canvas, net, start, y, edge, y);
    if (supply !== net && !tail) return y;
    stacked.add(supply);
    return drawStack(paper, canvas, supply, terminals.get(supply) ?? [], edge, y);
  }
}

/** The two lines of the ladder: the supply's own, or what a battery switch makes of it. */
function findLadder(
  parts: readonly Part[],
  tubes: readonly Part[],
  regulators: readonly Regulator[],
  rails: Rails,
): Ladder {
  let upperSupply = -1;
  let lowerSupply = -1;
  for (const part of parts) {
    if (!isSupply(part)) continue;
    const taps = part.supplyTaps
      .flatMap((tap) => {
        const end = part.ends.find(({ name }) => name === tap.end);
        return end && rails.stripNets.has(end.junction)
          ? [{ net: end.junction, volts: tap.volts ?? (tap.end.includes('+') ? 1 : 0) }]
          : [];
      })
      .sort((a, b) => a.volts - b.volts);
    const [first, last] = [taps[0], taps.at(-1)];
    if (!first || !last || first.net === last.net) continue;
    lowerSupply = first.net;
    upperSupply = last.net;
    break;
  }
  const weight = (net: number, end: string): number =>
    tubes.filter((tube) => endOf(tube, end)?.junction === net).length +
    regulators.filter(({ a, b }) => a === net || b === net).length;
  const beyond = (supply: number, end: string): Regulator | undefined =>
    regulators.find(({ part, a, b }) => {
      if (!['switch', 'fuse', 'rheostat', 'lead'].includes(part.kind)) return false;
      if (a !== supply && b !== supply) return false;
      const other = a === supply ? b : a;
      return weight(other, end) > weight(supply, end);
    });
  const upperTail = beyond(upperSupply, 'filament+');
  const lowerTail = beyond(lowerSupply, 'filament-');
  const across = (tail: Regulator | undefined, supply: number): number =>
    !tail ? supply : tail.a === supply ? tail.b : tail.a;
  return {
    upperSupply,
    lowerSupply,
    upperTail,
    lowerTail,
    upper: across(upperTail, upperSupply),
    lower: across(lowerTail, lowerSupply),
  };
}

/**
 * Where each filament stands: below its tube, unless tubes that share a rheostat would then stand
 * among others, when the filaments are set side by side group by group.
 */
function columnsUnderTubes(
  groups: readonly Group[],
  tubeAt: ReadonlyMap<string, number>,
  left: number,
): Map<string, number> {
  const place = ({ name }: Part): number => tubeAt.get(name) ?? Number.POSITIVE_INFINITY;
  const spots = new Map<string, number>();
  const ordered = groups.map((group) => [...group.tubes].sort((a, b) => place(a) - place(b)));
  ordered.sort((a, b) => (a[0] ? place(a[0]) : 0) - (b[0] ? place(b[0]) : 0));
  const apart = ordered.every((tubes, index) => {
    const [last, next] = [tubes.at(-1), ordered[index + 1]?.[0]];
    return !last || !next || place(last) <= place(next);
  });
  let x = left;
  for (const tube of ordered.flat()) {
    if (apart && place(tube) > x && Number.isFinite(place(tube))) x = place(tube);
    spots.set(tube.name, x);
    x += step;
  }
  return spots;
}

/** Tubes whose filaments stand side by side between the same two junctions. */
function groupTubes(tubes: readonly Part[]): Group[] {
  const groups: Group[] = [];
  for (const tube of tubes) {
    const plus = endOf(tube, 'filament+')?.junction ?? -1;
    const minus = endOf(tube, 'filament-')?.junction ?? -1;
    const group = groups.find((each) => each.plus === plus && each.minus === minus);
    if (group) group.tubes.push(tube);
    else groups.push({ plus, minus, tubes: [tube] });
  }
  return groups;
}
