import { emitterOf, type Part } from '@setwright/circuit';
import { USUAL_TUBE_INPUT } from '../usual-values.ts';
import type { NetworkDraft } from './network-draft.ts';
import type { SignalPoint, SignalTube } from './signal-point.ts';

/** Name of the series piece before a tube's grid in a network with its grids opened. */
export function gridPiece(tube: string): string {
  return `${tube}.grid lead`;
}

/** Name of the capacity that can be put from a tube's grid to its plate, in such a network. */
export function feedbackPiece(tube: string): string {
  return `${tube} from grid to plate`;
}

/** Name of the capacity of socket and lead that a resistance before the grid would cut off. */
export function socketPiece(tube: string): string {
  return `socket at ${tube}.grid`;
}

/**
 * Takes up tubes: what their electrodes carry by one another's volts at the operating point, and
 * the capacities between them.
 *
 * @param opened whether a resistance, at first of no ohms, is put before every grid, and a
 * capacity, at first of no farads, from every grid to its plate
 */
export function addTubes(draft: NetworkDraft, point: SignalPoint, opened: boolean): void {
  const { circuit, settings } = draft;
  const working = new Map(point.tubes.map((tube) => [tube.tube, tube]));
  for (const part of circuit.parts) {
    if (part.kind !== 'tube' || settings.removed.has(part.name)) continue;
    const emitter = emitterOf(part);
    if (!emitter) continue;
    const points = new Map<string, number>();
    for (const { name, junction } of part.ends) points.set(name, draft.pointOf(junction));
    const reference = draft.pointOf(emitter.junction);
    for (const name of ['cathode', 'filament', 'reference']) points.set(name, reference);
    const grid = part.ends.find(({ name }) => name === 'grid');
    if (opened && grid) {
      const from = draft.pointOf(grid.junction);
      const to = draft.fresh();
      points.set('grid', to);
      draft.openedGrids.set(part.name, to);
      draft.series.push({
        pieces: [{ from, to, name: gridPiece(part.name), ohms: () => 0 }],
        henries: [[0]],
      });
    }
    const plate = points.get('plate');
    const own = points.get('grid');
    if (opened && plate !== undefined && own !== undefined && plate !== own)
      draft.capacities.push({
        from: own,
        to: plate,
        farads: 0,
        condenser: feedbackPiece(part.name),
        isStray: true,
      });
    const tube = working.get(part.name);
    if (tube) addCurrents(draft, part, points, tube);
    else draft.lacks.push({ part: part.name, why: 'nothing is known of its state of rest' });
    addCapacities(draft, part, points);
  }
}

function addCurrents(
  draft: NetworkDraft,
  part: Part,
  points: ReadonlyMap<string, number>,
  { conductances, transconductance }: SignalTube,
): void {
  const reference = points.get('reference') ?? 0;
  const { electrodes, siemens } = conductances;
  if (transconductance === undefined)
    draft.lacks.push({
      part: part.name,
      why: 'its transconductance is not known: none is counted',
    });
  for (const [row, one] of electrodes.entries()) {
    const to = points.get(one);
    if (one === 'reference' || to === undefined || to === reference) continue;
    for (const [column, other] of electrodes.entries()) {
      const plus = points.get(other);
      const each = siemens[row]?.[column] ?? 0;
      if (other === 'reference' || plus === undefined || each === 0) continue;
      if (!Number.isFinite(each)) continue;
      const origin = { part: part.name, from: `${part.name}.${one}`, to: part.name };
      if (one === other)
        draft.conductances.push({ from: to, to: reference, siemens: each, origin });
      else
        draft.steerings.push({
          from: to,
          to: reference,
          plus,
          minus: reference,
          siemens: each,
          origin,
        });
    }
  }
}

function addCapacities(draft: NetworkDraft, part: Part, points: ReadonlyMap<string, number>): void {
  const told = Object.entries(part.tubeType?.capacitances ?? {});
  if (told.length === 0) draft.assumed.add(`10 mmfd at the grid of ${part.name}`);
  const all = told.length > 0 ? told : [['grid filament', USUAL_TUBE_INPUT] as const];
  for (const [pair, farads] of all) {
    const [one, other] = pair.split(' ').map((name) => points.get(name));
    if (one === undefined || other === undefined || one === other || !(farads > 0)) continue;
    const [first, second] = pair.split(' ');
    const origin = {
      part: part.name,
      from: `${part.name}.${first}`,
      to: `${part.name}.${second}`,
    };
    draft.capacities.push({ from: one, to: other, farads, origin, isStray: true });
  }
}
