import type { Circuit, Part } from './model.ts';
import { isOnAir, partsAt } from './parts-at.ts';

/** A condenser that hands audio on has at least this much, in farads. Common practice. */
const LEAST_COUPLING = 1e-9;

/** Parts that a grid's lead may go through on its way to what drives it. */
const LEADS: ReadonlySet<string> = new Set(['resistor', 'potentiometer']);

/**
 * What a part is for in its set: the roles of the stage that holds it; where a tube stands in no
 * stage, as in a set traced wire by wire, what its grid and plate are joined to. A condenser
 * between a grid and a tuned winding detects, an iron-core winding or a coupling condenser on a
 * grid brings audio, an air-core winding radio. Empty where neither tells.
 *
 * @returns `radio`, `detector`, `audio` … as stages are called
 */
export function rolesOf(circuit: Circuit, part: Part): readonly string[] {
  const said = circuit.stages.find(({ name }) => name === part.stage)?.roles ?? [];
  return said.length > 0 || part.kind !== 'tube' ? said : rolesByWiring(circuit, part);
}

function rolesByWiring(circuit: Circuit, tube: Part): readonly string[] {
  const grid = tube.ends.find(({ name }) => name === 'grid')?.junction;
  const plate = tube.ends.find(({ name }) => name === 'plate')?.junction;
  if (grid === undefined || isSupplied(circuit, grid)) return [];
  const near = nearGrid(circuit, tube, grid);
  const has = (junction: number, test: (part: Part) => boolean): boolean =>
    partsAt(circuit, junction).some((part) => part !== tube && test(part));
  const onAir = near.some((junction) => has(junction, (part) => isOnAir(circuit, part)));
  const onIron = near.some((junction) => has(junction, (part) => isOnIron(circuit, part)));
  const condensers = near.flatMap((junction) =>
    partsAt(circuit, junction)
      .filter((part) => part.kind === 'condenser' && !part.words.has('neutralizing'))
      .flatMap((part) => beyond(part, junction).map((at) => ({ part, at }))),
  );
  if (onAir) {
    // A tuned grid makes audio only where nothing of its plate is for radio.
    const isForRadio = plate !== undefined && has(plate, (part) => isOnAir(circuit, part));
    return isForRadio ? (onIron ? ['radio', 'audio'] : ['radio']) : ['detector'];
  }
  const isDetecting = condensers.some(
    ({ at }) => !isSupplied(circuit, at) && has(at, (part) => isOnAir(circuit, part)),
  );
  if (isDetecting && !onIron) return ['detector'];
  const isCoupled = condensers.some(
    ({ part, at }) =>
      (part.values.capacitance?.value ?? LEAST_COUPLING) >= LEAST_COUPLING &&
      partsAt(circuit, at).some(({ kind, ends }) =>
        kind === 'tube'
          ? ends.some(({ name, junction }) => name === 'plate' && junction === at)
          : false,
      ),
  );
  return onIron || isCoupled ? ['audio'] : [];
}

/** The grid's junction and those behind a resistance in its lead. */
function nearGrid(circuit: Circuit, tube: Part, grid: number): readonly number[] {
  const behind = partsAt(circuit, grid)
    .filter((part) => part !== tube && LEADS.has(part.kind))
    .flatMap((part) => beyond(part, grid));
  return [grid, ...behind.filter((junction) => !isSupplied(circuit, junction))];
}

/** Whether half the set is on a junction: a tap, a ground, a filament. */
function isSupplied(circuit: Circuit, junction: number): boolean {
  return (circuit.junctions[junction]?.terminals ?? []).some((id) => {
    const part = circuit.partOfEnd.get(id);
    return (
      part?.kind === 'battery' ||
      part?.kind === 'eliminator' ||
      (part?.kind === 'post' && part.words.has('ground')) ||
      (part?.kind === 'tube' && /\.filament[-+]$/.test(id))
    );
  });
}

function beyond(part: Part, junction: number): readonly number[] {
  return part.ends.flatMap((end) => (end.junction === junction ? [] : [end.junction]));
}

function isOnIron(circuit: Circuit, part: Part): boolean {
  if (part.kind !== 'winding' || part.owner === undefined) return false;
  const owner = circuit.partNamed.get(part.owner);
  return owner?.kind === 'transformer' && !owner.words.has('air');
}
