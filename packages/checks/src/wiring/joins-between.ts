import type { Circuit, Join } from '@setwright/circuit';

/** A join as it is passed from one terminal to the next. */
export interface JoinPassed {
  readonly join: Join;
  /** The terminal it is left by. */
  readonly to: string;
}

/**
 * The joins that make one junction of two terminals: the shortest chain from the first to the
 * second. Empty when they are the same terminal or not on one junction. Linear in the joins.
 */
export function joinsBetween(circuit: Circuit, from: string, to: string): readonly JoinPassed[] {
  const junction = circuit.endNamed.get(from)?.junction;
  if (from === to || junction === undefined || circuit.endNamed.get(to)?.junction !== junction)
    return [];
  const at = new Map<string, JoinPassed[]>();
  const add = (terminal: string, passed: JoinPassed): void => {
    const here = at.get(terminal);
    if (here) here.push(passed);
    else at.set(terminal, [passed]);
  };
  for (const join of circuit.joins) {
    if (circuit.endNamed.get(join.from)?.junction !== junction) continue;
    add(join.from, { join, to: join.to });
    add(join.to, { join, to: join.from });
  }
  const arrivedBy = new Map<string, { readonly passed: JoinPassed; readonly before: string }>();
  const reached = new Set([from]);
  for (const here of reached) {
    if (here === to) break;
    for (const passed of at.get(here) ?? []) {
      if (reached.has(passed.to)) continue;
      reached.add(passed.to);
      arrivedBy.set(passed.to, { passed, before: here });
    }
  }
  const chain: JoinPassed[] = [];
  for (let step = arrivedBy.get(to); step; step = arrivedBy.get(step.before))
    chain.push(step.passed);
  return chain.reverse();
}
