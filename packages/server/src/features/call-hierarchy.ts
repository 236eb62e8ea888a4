import { type Circuit, partKinds } from '@setwright/circuit';
import {
  type CallHierarchyIncomingCall,
  type CallHierarchyItem,
  type CallHierarchyOutgoingCall,
  type Position,
  SymbolKind,
} from 'vscode-languageserver-protocol';
import { blockFrom, blocksAt } from '../text/blocks.ts';
import type { Snapshot } from '../text/snapshot.ts';
import { stageLinks } from './signal.ts';

/** What an item of the hierarchy carries, so that it is found again. */
interface Carried {
  readonly receiver: number;
  readonly name: string;
}

/** The stage that a position stands in or names, or a part outside any stage that has a signal. */
export function signalItemsAt(snapshot: Snapshot, position: Position): CallHierarchyItem[] {
  const offset = snapshot.offset(position);
  const receiver = snapshot.names.receiverAt(offset);
  const circuit = snapshot.file.circuits[receiver];
  if (!circuit) return [];
  const named = snapshot.names.at(offset)?.named;
  const part = named && circuit.partNamed.get(named.name);
  const stage =
    (named?.kind === 'stage' ? named.name : undefined) ??
    part?.stage ??
    circuit.stages.find((each) =>
      blocksAt(snapshot.blocks, offset).some(({ start }) => start === each.place.start),
    )?.name ??
    part?.name;
  const item = stage === undefined ? undefined : itemOf(snapshot, circuit, receiver, stage);
  return item ? [item] : [];
}

/** What feeds a stage. */
export function signalsInto(
  snapshot: Snapshot,
  item: CallHierarchyItem,
): CallHierarchyIncomingCall[] {
  return linkedTo(snapshot, item, 'to', 'from').map((from) => ({
    from,
    fromRanges: [from.selectionRange],
  }));
}

/** What a stage feeds. */
export function signalsOutOf(
  snapshot: Snapshot,
  item: CallHierarchyItem,
): CallHierarchyOutgoingCall[] {
  return linkedTo(snapshot, item, 'from', 'to').map((to) => ({
    to,
    fromRanges: [item.selectionRange],
  }));
}

function linkedTo(
  snapshot: Snapshot,
  item: CallHierarchyItem,
  own: 'from' | 'to',
  other: 'from' | 'to',
): readonly CallHierarchyItem[] {
  const carried = carriedBy(item);
  const circuit = carried && snapshot.file.circuits[carried.receiver];
  if (!carried || !circuit) return [];
  return stageLinks(circuit).flatMap((link) => {
    if (link[own] !== carried.name) return [];
    return itemOf(snapshot, circuit, carried.receiver, link[other]) ?? [];
  });
}

function carriedBy({ data }: CallHierarchyItem): Carried | undefined {
  if (typeof data !== 'object' || data === null) return undefined;
  const { receiver, name } = data as Partial<Carried>;
  return typeof receiver === 'number' && typeof name === 'string' ? { receiver, name } : undefined;
}

function itemOf(
  snapshot: Snapshot,
  circuit: Circuit,
  receiver: number,
  name: string,
): CallHierarchyItem | undefined {
  const stage = circuit.stages.find((each) => each.name === name);
  const part = circuit.partNamed.get(name);
  const found = stage ?? part;
  if (!found) return undefined;
  const block = blockFrom(snapshot.blocks, found.place.start);
  const detail = stage
    ? (stage.title ?? `${stage.roles.join(' ')} stage`)
    : part
      ? (part.title ?? partKinds[part.kind].noun)
      : '';
  const data: Carried = { receiver, name };
  return {
    name,
    kind: stage ? SymbolKind.Namespace : SymbolKind.Object,
    detail,
    uri: snapshot.uri,
    range: snapshot.range(block ?? found.place),
    selectionRange: snapshot.range(found.namePlace),
    data,
  };
}
