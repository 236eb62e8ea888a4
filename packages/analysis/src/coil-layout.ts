import type { Circuit, Part, Value } from '@setwright/circuit';
import type { Winding } from '@setwright/physics';
import { USUAL_GAP, USUAL_PAPER, USUAL_ROTOR } from './usual-values.ts';
import { factOf, type ValueFact } from './value-because.ts';
import { type WindingWire, windingWire } from './winding-wire.ts';

/** A winding by its geometry. All lengths in metres. */
export interface WindingShape {
  readonly part: Part;
  readonly wire: WindingWire;
  /** As the field sees it; its position counts only where `placed`. */
  readonly winding: Winding;
  /** Half of what it takes up along the axis. */
  readonly halfExtent: number;
  /** False where it is not known how it stands to the other windings. */
  readonly placed: boolean;
  /** What its size was made from. */
  readonly facts: readonly ValueFact[];
  readonly assumed: readonly string[];
  /** What its place was made from. */
  readonly placeFacts: readonly ValueFact[];
  readonly placeAssumed: readonly string[];
}

/** The windings of a coil that could be laid out, and what is missing of the others, by name. */
export interface CoilLayout {
  readonly shapes: ReadonlyMap<string, WindingShape>;
  readonly missing: ReadonlyMap<string, readonly string[]>;
}

type Side = 'before' | 'after';

interface Standing {
  readonly shapes: Map<string, WindingShape>;
  /** Sides of windings on which another stands already. */
  readonly taken: Map<string, Set<Side>>;
  /** The windings' ends along the axis. */
  outermost: number;
}

/** The windings of a coil or transformer, in the order of the text. */
export function windingsOf(circuit: Circuit, coil: string): readonly Part[] {
  return circuit.parts.filter((part) => part.kind === 'winding' && part.owner === coil);
}

/**
 * Lays the windings of a coil out on their common axis, each from its start on towards its finish
 * in the same direction. Windings of which no place is said stand beside the one before, an
 * eighth of an inch off; of two beside the same winding the second goes to its other side.
 * Linear in the windings for a chain. Never throws.
 */
export function coilLayout(circuit: Circuit, coil: string): CoilLayout {
  const windings = windingsOf(circuit, coil);
  const form = circuit.partNamed.get(coil)?.values.form;
  const missing = new Map<string, readonly string[]>();
  const wires = new Map<string, WindingWire>();
  for (const part of windings) {
    const wire = windingWire(part);
    const lacks = 'turns' in wire ? [] : [...wire];
    if (!part.winding?.form && !part.winding?.over && !part.winding?.inside)
      lacks.push(`the diameter of the form of ${part.name}`);
    if (lacks.length > 0) missing.set(part.name, lacks);
    else if ('turns' in wire) wires.set(part.name, wire);
  }
  const standing: Standing = { shapes: new Map(), taken: new Map(), outermost: 0 };
  let waiting = windings.filter((part) => wires.has(part.name));
  let previous: WindingShape | undefined;
  while (waiting.length > 0) {
    const left: Part[] = [];
    for (const part of waiting) {
      const anchor = anchorOf(part);
      const shape = anchor === undefined ? undefined : standing.shapes.get(anchor);
      const wire = wires.get(part.name);
      if (!shape || !wire) left.push(part);
      else previous = stand(standing, part, wire, form, shape, true);
    }
    if (left.length === waiting.length) {
      // Nothing hangs on what stands already: the next one that names no neighbour comes first.
      const next =
        left.find((part) => anchorOf(part) === undefined) ??
        left.find((part) => !wires.has(anchorOf(part) ?? '')) ??
        left[0];
      const wire = next && wires.get(next.name);
      if (!next || !wire) break;
      const lost = anchorOf(next);
      const isLost = lost !== undefined && !wires.has(lost);
      if (isLost && !next.winding?.form) {
        missing.set(next.name, [`the diameter of the form of ${next.name}`]);
      } else if (isLost) {
        const shape = shapeOf(next, wire, form, undefined);
        standing.shapes.set(next.name, { ...shape, placed: false });
      } else previous = stand(standing, next, wire, form, previous, false);
      left.splice(left.indexOf(next), 1);
    }
    waiting = left;
  }
  return { shapes: standing.shapes, missing };
}

function anchorOf(part: Part): string | undefined {
  const make = part.winding;
  return make?.over ?? make?.inside ?? make?.beside;
}

/** Puts a winding in its place by the one it is told from, or after the one before. */
function stand(
  standing: Standing,
  part: Part,
  wire: WindingWire,
  form: Value | undefined,
  anchor: WindingShape | undefined,
  said: boolean,
): WindingShape {
  const shape = shapeOf(part, wire, form, said ? anchor : undefined);
  const { position, facts, assumed } = anchor
    ? placeBy(standing, shape, anchor, said)
    : { position: shape.halfExtent, facts: [], assumed: [] };
  const placed: WindingShape = {
    ...shape,
    winding: { ...shape.winding, position },
    placed: anchor?.placed ?? true,
    placeFacts: facts,
    placeAssumed: assumed,
  };
  standing.shapes.set(part.name, placed);
  standing.outermost = Math.max(standing.outermost, position + shape.halfExtent);
  return placed;
}

function placeBy(standing: Standing, shape: WindingShape, anchor: WindingShape, said: boolean) {
  const make = shape.part.winding;
  const facts: ValueFact[] = [];
  const assumed: string[] = [];
  const at = anchor.winding.position;
  if (said && (make?.over || make?.inside)) {
    const slack = anchor.halfExtent - shape.halfExtent;
    if (make.at === 'start') return { position: at - slack, facts, assumed };
    if (make.at === 'finish') return { position: at + slack, facts, assumed };
    if (make.at !== 'centre') {
      const lies = make.over ? 'lies over' : 'stands in';
      assumed.push(`${shape.part.name} ${lies} the middle of ${anchor.part.name}`);
    }
    return { position: at, facts, assumed };
  }
  const gap = make?.spaced?.value ?? USUAL_GAP;
  if (make?.spaced) facts.push(factOf(make.spaced, `space beside ${shape.part.name}`));
  else
    assumed.push(
      said
        ? `a space of 1/8 in between ${anchor.part.name} and ${shape.part.name}`
        : `${shape.part.name} stands beside ${anchor.part.name}, a space of 1/8 in between them`,
    );
  const taken = sidesOf(standing, anchor.part.name);
  const away = anchor.halfExtent + gap + shape.halfExtent;
  if (!taken.has('after')) {
    taken.add('after');
    sidesOf(standing, shape.part.name).add('before');
    return { position: at + away, facts, assumed };
  }
  if (!taken.has('before')) {
    taken.add('before');
    sidesOf(standing, shape.part.name).add('after');
    assumed.push(`${shape.part.name} stands on the side of ${anchor.part.name} that is free`);
    return { position: at - away, facts, assumed };
  }
  assumed.push(`${shape.part.name} stands beyond the others, both sides being taken`);
  return { position: standing.outermost + gap + shape.halfExtent, facts, assumed };
}

function sidesOf(standing: Standing, name: string): Set<Side> {
  const sides = standing.taken.get(name) ?? new Set<Side>();
  standing.taken.set(name, sides);
  return sides;
}

/** Radius, length and depth of a winding; over or inside its anchor where it is told so. */
function shapeOf(
  part: Part,
  wire: WindingWire,
  coilForm: Value | undefined,
  anchor: WindingShape | undefined,
): WindingShape {
  const make = part.winding;
  const facts: ValueFact[] = [...wire.facts];
  const assumed: string[] = [...wire.assumed];
  const depth = wire.layers === 1 ? 0 : wire.layers * wire.covered;
  const own = make?.form !== coilForm ? make?.form : undefined;
  let inner = (make?.form?.value ?? 0) / 2;
  if (anchor && make?.over) {
    const under = anchor.winding.radius + (anchor.winding.depth || anchor.wire.covered) / 2;
    const paper = make.paper?.value ?? USUAL_PAPER;
    if (make.paper) facts.push(factOf(make.paper, `paper under ${part.name}`));
    if (own && own.value / 2 > under) {
      inner = own.value / 2;
      facts.push(factOf(own, `form of ${part.name}`));
    } else {
      inner = under + paper;
      facts.push(...anchor.facts);
      if (!make.paper) assumed.push(`10 mil of paper under ${part.name}`);
    }
  } else if (anchor && make?.inside && !own) {
    inner =
      USUAL_ROTOR * (anchor.winding.radius - (anchor.winding.depth || anchor.wire.covered) / 2);
    facts.push(...anchor.facts);
    assumed.push(`${part.name} on a form of 3/4 the size of the one around it (not said)`);
  } else if (make?.form) facts.push(factOf(make.form, `form of ${part.name}`));
  const perLayer = wire.turns / wire.layers;
  const winding: Winding = {
    turns: wire.turns,
    radius: inner + (depth || wire.covered) / 2,
    length: perLayer * wire.pitch,
    position: 0,
    reversed: make?.reversed ?? false,
    ...(depth > 0 ? { depth } : {}),
  };
  const halfExtent = (Math.max(0, perLayer - 1) * wire.pitch + wire.covered) / 2;
  return {
    part,
    wire,
    winding,
    halfExtent,
    placed: true,
    facts,
    assumed,
    placeFacts: [],
    placeAssumed: [],
  };
}
