import {
  type Circuit,
  type End,
  isSupply,
  type Part,
  partsAt,
  terminalName,
} from '@setwright/circuit';

export { partsAt };

export function endOf(part: Part | undefined, name: string): End | undefined {
  return part?.ends.find((end) => end.name === name);
}

/** The end of a two-ended part that is not on a junction. */
export function farEnd({ ends }: Part, junction: number): End | undefined {
  return ends.find((end) => end.junction !== junction);
}

/** A part by its name and its title: `S1 (battery switch)`. */
export function named({ name, title }: Part): string {
  return title === undefined ? name : `${name} (${title})`;
}

/** A terminal as a person calls it. */
export function called(circuit: Circuit, terminal: string): string {
  return terminalName(terminal, circuit.partOfEnd.get(terminal));
}

export const makesSound = ({ kind }: Part): boolean =>
  kind === 'phones' || kind === 'horn' || kind === 'speaker';

/** Whether a part is a winding on iron, or a choke for audio. */
export function isOnIron({ partNamed }: Circuit, part: Part): boolean {
  if (part.kind === 'choke') return (part.values.inductance?.value ?? 1) >= 1;
  const owner = partNamed.get(part.owner ?? '');
  return owner?.kind === 'transformer' && !owner.words.has('air');
}

/** The supplies of a set in the order of the text. */
export const suppliesOf = ({ parts }: Circuit): readonly Part[] => parts.filter(isSupply);

/** A condenser in the lead of a grid, with the leak that goes with it. */
export interface GridLeak {
  readonly condenser: Part;
  readonly leak: Part | undefined;
}

/** From so many ohms on a resistance at a grid is a leak. Common practice. */
const LEAST_LEAK = 1e5;

/** The grid condenser and leak of a tube, found by how its grid is wired. */
export function gridLeakOf(circuit: Circuit, tube: Part): GridLeak | undefined {
  const grid = endOf(tube, 'grid');
  if (!grid) return undefined;
  const own = new Set(
    tube.ends.filter(({ name }) => name !== 'grid').map(({ junction }) => junction),
  );
  const here = partsAt(circuit, grid.junction);
  const condenser = here.find((part) => {
    const isTurned = ['variable', 'trimmer', 'neutralizing'].some((word) => part.words.has(word));
    const far = farEnd(part, grid.junction);
    return part.kind === 'condenser' && !isTurned && far && !own.has(far.junction);
  });
  if (!condenser) return undefined;
  const leak = here.find(
    ({ kind, values }) =>
      kind === 'leak' || (kind === 'resistor' && (values.resistance?.value ?? 0) >= LEAST_LEAK),
  );
  return { condenser, leak };
}

/** Whether a signal that comes through a condenser was radio: a coil or a tuning condenser is there. */
export function comesFromTuned(circuit: Circuit, { condenser }: GridLeak, tube: Part): boolean {
  const grid = endOf(tube, 'grid');
  const far = grid && farEnd(condenser, grid.junction);
  return (
    far !== undefined &&
    partsAt(circuit, far.junction).some(
      (part) =>
        part !== condenser &&
        (part.kind === 'loop' ||
          part.kind === 'variometer' ||
          (part.kind === 'condenser' && part.words.has('variable')) ||
          (part.kind === 'winding' && !isOnIron(circuit, part))),
    )
  );
}

/** Counts as a person writes them. */
const few = [
  'no',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
];

/** "five", "13". */
export const inWords = (count: number): string => few[count] ?? String(count);

/** "five tubes", "one tube", "13 tubes". */
export function countOf(count: number, one: string, many = `${one}s`): string {
  return `${inWords(count)} ${count === 1 ? one : many}`;
}
