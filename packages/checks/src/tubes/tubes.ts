import { type Circuit, type End, type Part, partsAt, type Stage } from '@setwright/circuit';

export { partsAt };

/** A tube with its electrodes at hand. Ends that the tube has not are undefined. */
export interface TubeAt {
  readonly part: Part;
  readonly grid: End | undefined;
  readonly plate: End | undefined;
  readonly screen: End | undefined;
  readonly cathode: End | undefined;
  readonly filamentMinus: End | undefined;
  readonly filamentPlus: End | undefined;
  /** What its bias is counted from: its cathode when it has one, else its F−. */
  readonly reference: End | undefined;
  /** Roles of the stage it stands in: `radio`, `detector`, `audio` … Empty when it stands in none. */
  readonly roles: readonly string[];
  readonly stage: Stage | undefined;
}

/** Every tube of the set, in order of the text. */
export function tubesOf(circuit: Circuit): TubeAt[] {
  const stages = new Map(circuit.stages.map((stage) => [stage.name, stage]));
  return circuit.parts
    .filter((part) => part.kind === 'tube')
    .map((part) => {
      const end = (name: string) => part.ends.find((candidate) => candidate.name === name);
      const stage = part.stage === undefined ? undefined : stages.get(part.stage);
      const cathode = end('cathode');
      return {
        part,
        grid: end('grid'),
        plate: end('plate'),
        screen: end('screen'),
        cathode,
        filamentMinus: end('filament-'),
        filamentPlus: end('filament+'),
        reference: cathode ?? end('filament-'),
        roles: stage?.roles ?? [],
        stage,
      };
    });
}

/** A grid condenser and the leak that goes with it, where a grid has them. */
export interface GridLeak {
  /** Condenser in series between the grid and what drives it. */
  readonly condenser: Part;
  /** Leak (or resistor of 100 kilohms or more) on the grid; undefined when there is none. */
  readonly leak: Part | undefined;
  /** True when the leak lies across the condenser, not from the grid to a rail. */
  readonly across: boolean;
}

/** What makes a resistance a leak and not a stopper, in ohms; common practice. */
const LEAST_LEAK_OHMS = 100_000;

/** The grid condenser and leak of a tube, found by how its grid is wired. */
export function gridLeakOf(circuit: Circuit, tube: TubeAt): GridLeak | undefined {
  const junction = tube.grid?.junction;
  if (junction === undefined) return undefined;
  const here = partsAt(circuit, junction);
  const condenser = here.find(
    (part) =>
      part.kind === 'condenser' &&
      !part.words.has('variable') &&
      !part.words.has('neutralizing') &&
      !part.words.has('trimmer') &&
      otherJunction(part, junction) !== junction &&
      !isReference(tube, otherJunction(part, junction)),
  );
  if (!condenser) return undefined;
  const leak = here.find(isLeak);
  const across =
    leak !== undefined && otherJunction(leak, junction) === otherJunction(condenser, junction);
  return { condenser, leak, across };
}

function isReference(tube: TubeAt, junction: number | undefined): boolean {
  return (
    junction !== undefined &&
    (tube.reference?.junction === junction ||
      tube.filamentMinus?.junction === junction ||
      tube.filamentPlus?.junction === junction)
  );
}

/** A leak by name, or a resistor as high as one. */
export function isLeak(part: Part): boolean {
  return (
    part.kind === 'leak' ||
    (part.kind === 'resistor' && (part.values.resistance?.value ?? 0) >= LEAST_LEAK_OHMS)
  );
}

/** Whether grid and plate are strapped together, so that the tube is used as a diode. */
export function isDiode(tube: TubeAt): boolean {
  return tube.grid !== undefined && tube.grid.junction === tube.plate?.junction;
}

/** The junction at the other end of a two-ended part. */
export function otherJunction(part: Part, junction: number): number | undefined {
  const [first, second] = part.ends;
  if (first?.junction === junction) return second?.junction;
  return first?.junction;
}
