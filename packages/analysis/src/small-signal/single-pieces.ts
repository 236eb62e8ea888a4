import { type Part, supposedOhms } from '@setwright/circuit';
import type { WindingsTurned } from '../coil-matrix.ts';
import { singleInductor } from '../single-inductors.ts';
import type { NetworkDraft } from './network-draft.ts';
import type { SeriesPiece } from './signal-network.ts';
import {
  AIR_CHOKE_CAPACITY,
  AIR_CHOKE_INDUCTANCE,
  CORD_CAPACITY,
  IRON_CHOKE_CAPACITY,
  IRON_CHOKE_INDUCTANCE,
  USUAL_Q,
} from './usual-signal-values.ts';
import { ohmsByQuality } from './winding-ohms.ts';

/** Takes up chokes, loops, variometers, phones, horns and loudspeakers. */
export function addSingles(
  draft: NetworkDraft,
  quality: number | undefined,
  turned: WindingsTurned = new Map(),
): void {
  const { circuit, settings, conduction, assumed } = draft;
  const { branches } = conduction;
  for (const part of circuit.parts) {
    const single = settings.removed.has(part.name)
      ? undefined
      : singleInductor(part, turned.get(part.name));
    if (!single) continue;
    const own = branches.filter(({ part: of }) => of === part.name);
    if (own.length === 0) continue;
    let henries = single.inductance.value;
    if (henries === undefined) {
      henries = usualHenries(part);
      if (henries > 0) assumed.add(`${Number(henries.toPrecision(2))} H in ${part.name}`);
      else
        for (const why of 'missing' in single.inductance ? single.inductance.missing : [])
          draft.lacks.push({ part: part.name, why: `${why} is not known: counted as nothing` });
    }
    if (part.kind === 'variometer' && single.inductance.value !== undefined)
      for (const each of single.inductance.because.assumed) assumed.add(each);
    const isAir = part.kind === 'loop' || part.kind === 'variometer';
    const q = quality ?? USUAL_Q;
    const isLossKnown = single.resistance.value !== undefined && quality === undefined;
    if (isAir && !isLossKnown) assumed.add(`a Q of ${q} in ${part.name}`);
    const pieces: SeriesPiece[] = own.flatMap((branch) => {
      const from = draft.pointOf(branch.fromJunction);
      const to = draft.pointOf(branch.toJunction);
      if (from === to) return [];
      const told = branch.direct.kind === 'conducts' ? branch.direct.ohms : undefined;
      const ohms = told ?? supposedOhms(circuit, branch).ohms;
      const share = (henries ?? 0) / own.length;
      return {
        from,
        to,
        name: own.length === 1 ? part.name : `${branch.from} ${branch.to}`,
        origin: { part: part.name, from: branch.from, to: branch.to },
        ...(isAir && !isLossKnown
          ? ohmsByQuality(ohms, share, q)
          : { ohms: () => ohms, isSteady: true }),
      };
    });
    // Halves of one winding on iron or a loop are taken without coupling: taps are rare on them.
    const each = henries / Math.max(1, pieces.length);
    draft.series.push({
      pieces,
      henries: pieces.map((_, row) => pieces.map((_piece, column) => (row === column ? each : 0))),
    });
    addOwnCapacity(draft, part);
  }
}

function isAirChoke(part: Part): boolean {
  return part.words.has('air') || (part.values.inductance?.value ?? 1) < 1;
}

function usualHenries(part: Part): number {
  if (part.kind !== 'choke') return 0;
  return isAirChoke(part) ? AIR_CHOKE_INDUCTANCE : IRON_CHOKE_INDUCTANCE;
}

function addOwnCapacity(draft: NetworkDraft, part: Part): void {
  const [first] = part.ends;
  const last = part.ends.find(({ name }) => name === 'finish') ?? part.ends[1];
  if (!first || !last) return;
  const from = draft.pointOf(first.junction);
  const to = draft.pointOf(last.junction);
  const farads = ownFarads(part);
  if (from === to || farads === 0) return;
  draft.assumed.add(`${Math.round(farads * 1e12)} mmfd across ${part.name}`);
  const origin = { part: part.name, from: first.id, to: last.id };
  draft.capacities.push({ from, to, farads, origin, isStray: true });
}

function ownFarads(part: Part): number {
  switch (part.kind) {
    case 'choke':
      return isAirChoke(part) ? AIR_CHOKE_CAPACITY : IRON_CHOKE_CAPACITY;
    case 'phones':
    case 'horn':
    case 'speaker':
      return CORD_CAPACITY;
    default:
      return 0;
  }
}
