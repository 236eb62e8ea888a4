import {
  type Branch,
  type Conduction,
  type JoinedBranch,
  type Step,
  stepFrom,
} from '@setwright/circuit';

/** The way of fewest ohms to a junction. */
export interface Way {
  readonly ohms: number;
  /** Volts of the junction above where the way began, by the supplies on it. */
  readonly volts: number;
  /** From the beginning to the junction. */
  readonly steps: () => readonly Step[];
}

export interface Nearest {
  at(junction: number): Way | undefined;
}

/**
 * The ways of fewest ohms from some junctions to all others within reach. Supplies on the way
 * count with their volts. n log n in what is reached.
 *
 * @param ohmsOf ohms of a branch in the way; undefined for one that no way leads through.
 * @param most ohms beyond which no way is followed.
 */
export function leastOhms(
  conduction: Conduction,
  from: readonly number[],
  ohmsOf: (branch: Branch) => number | undefined,
  most: number,
): Nearest {
  const best = new Map<number, { ohms: number; volts: number; by: JoinedBranch | undefined }>();
  const settled = new Set<number>();
  const queue: { readonly junction: number; readonly ohms: number }[] = [];
  for (const junction of from) {
    best.set(junction, { ohms: 0, volts: 0, by: undefined });
    push(queue, { junction, ohms: 0 });
  }
  for (let next = pop(queue); next; next = pop(queue)) {
    const { junction } = next;
    const here = best.get(junction);
    if (!here || settled.has(junction)) continue;
    settled.add(junction);
    for (const branch of conduction.at[junction] ?? []) {
      const passed = ohmsOf(branch);
      if (passed === undefined || !(passed >= 0)) continue;
      const ohms = here.ohms + passed;
      const step = stepFrom(branch, junction);
      if (ohms > most || ohms >= (best.get(step.junction)?.ohms ?? Number.POSITIVE_INFINITY))
        continue;
      const gained = step.direct.kind === 'source' ? (step.direct.volts ?? 0) : 0;
      best.set(step.junction, { ohms, volts: here.volts + gained, by: branch });
      push(queue, { junction: step.junction, ohms });
    }
  }
  return {
    at(junction) {
      const found = best.get(junction);
      if (!found) return undefined;
      const { ohms, volts } = found;
      return { ohms, volts, steps: () => stepsTo(junction) };
    },
  };

  function stepsTo(goal: number): readonly Step[] {
    const steps: Step[] = [];
    let here = goal;
    for (let by = best.get(here)?.by; by; by = best.get(here)?.by) {
      const before = by.fromJunction === here ? by.toJunction : by.fromJunction;
      steps.push(stepFrom(by, before));
      here = before;
    }
    return steps.reverse();
  }
}

interface Waiting {
  readonly junction: number;
  readonly ohms: number;
}

/** Puts one in a binary heap, least ohms first. */
function push(heap: Waiting[], entry: Waiting): void {
  let at = heap.push(entry) - 1;
  while (at > 0) {
    const above = (at - 1) >> 1;
    const parent = heap[above] as Waiting;
    if (parent.ohms <= entry.ohms) break;
    heap[at] = parent;
    at = above;
  }
  heap[at] = entry;
}

function pop(heap: Waiting[]): Waiting | undefined {
  const first = heap[0];
  const last = heap.pop();
  if (first === undefined || last === undefined || heap.length === 0) return first;
  let at = 0;
  for (;;) {
    let below = 2 * at + 1;
    const left = heap[below];
    if (left === undefined) break;
    const right = heap[below + 1];
    if (right !== undefined && right.ohms < left.ohms) below++;
    const child = heap[below] as Waiting;
    if (child.ohms >= last.ohms) break;
    heap[at] = child;
    at = below;
  }
  heap[at] = last;
  return first;
}
