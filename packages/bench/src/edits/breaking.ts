import { isSupply, type Part } from '@setwright/circuit';
import { SET_AGAINST_GROUND, USUAL_AERIAL } from './usual-faults.ts';
import {
  brokenOff,
  detach,
  junctionOf,
  replace,
  type Workbench,
  writtenValue,
} from './workbench.ts';

/** `open P`: nothing passes through it any more; of a supply, its leads are off; one end: it is off. */
export function open(bench: Workbench, target: string): void {
  const part = bench.parts.get(target);
  if (!part) {
    if (junctionOf(bench, target) === undefined) bench.refused.push(`there is no ${target}`);
    else detach(bench, target);
    return;
  }
  if (part.kind === 'coil' || part.kind === 'transformer') {
    for (const winding of windingsOf(bench, target)) replace(bench, brokenOff(winding));
    return;
  }
  if (isSupply(part)) {
    for (const { id } of part.ends.slice(1)) detach(bench, id);
    return;
  }
  if (part.kind === 'post') {
    leadOff(bench, part);
    return;
  }
  if (part.ends.length < 2 && part.contacts.length === 0) {
    bench.refused.push(`nothing passes through ${target} that could break`);
    return;
  }
  replace(bench, brokenOff(part));
}

/**
 * A lead off its post. Without ground a set hangs on what its batteries and cords have against it:
 * that lies in series with every aerial.
 */
function leadOff(bench: Workbench, part: Part): void {
  if (!part.words.has('ground')) {
    for (const { id } of part.ends) detach(bench, id);
    return;
  }
  for (const aerial of bench.parts.values()) {
    if (aerial.kind !== 'post' || !aerial.words.has('aerial')) continue;
    const farads = aerial.values.capacitance?.value ?? USUAL_AERIAL;
    const value = 1 / (1 / farads + 1 / SET_AGAINST_GROUND);
    const capacitance = writtenValue({ value, dimension: 'capacitance' }, aerial);
    replace(bench, { ...aerial, values: { ...aerial.values, capacitance } });
  }
}

/** `remove P`: a tube out of its socket, any other part out of the set. */
export function remove(bench: Workbench, target: string): void {
  const part = bench.parts.get(target);
  if (!part) bench.refused.push(`there is no part ${target}`);
  else if (part.kind === 'tube') bench.removed.add(target);
  else open(bench, target);
}

/** The windings of a coil or transformer, in the order of the text. */
export function windingsOf(bench: Workbench, owner: string): readonly Part[] {
  return [...bench.parts.values()].filter(
    (part) => part.kind === 'winding' && part.owner === owner,
  );
}
