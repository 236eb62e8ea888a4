import { partKinds } from '@setwright/circuit';
import {
  type DocumentSymbol,
  SymbolKind,
  type WorkspaceSymbol,
} from 'vscode-languageserver-protocol';
import type { Block } from '../text/blocks.ts';
import type { Snapshot } from '../text/snapshot.ts';

/** What stands in a text: receivers, their stages, parts, windings and taps, benches, supposes. */
export function documentSymbols(snapshot: Snapshot): DocumentSymbol[] {
  const named = namesByStart(snapshot);
  const inside = (blocks: readonly Block[]): DocumentSymbol[] =>
    blocks.flatMap((block) => {
      const own = symbolOf(snapshot, block, named.get(block.start));
      const children = inside(block.blocks);
      return own ? [{ ...own, ...(children.length > 0 ? { children } : {}) }] : children;
    });
  return inside(snapshot.blocks);
}

/** What a statement declares: a name, what it is in words, and where the name stands. */
interface Declared {
  readonly name: string;
  readonly detail: string;
  readonly kind: SymbolKind;
  readonly place: { readonly start: number; readonly end: number };
}

/** Declarations by where their statement begins. */
function namesByStart({ file }: Snapshot): ReadonlyMap<number, Declared> {
  const found = new Map<number, Declared>();
  for (const circuit of file.circuits) {
    found.set(circuit.place.start, {
      name: circuit.title || 'receiver without a title',
      detail: 'receiver',
      kind: SymbolKind.Module,
      place: circuit.namePlace,
    });
    for (const { name, title, roles, place, namePlace } of circuit.stages)
      found.set(place.start, {
        name,
        detail: title ?? `${roles.join(' ')} stage`,
        kind: SymbolKind.Namespace,
        place: namePlace,
      });
    for (const part of circuit.parts) {
      const { noun } = partKinds[part.kind];
      const name = part.owner === undefined ? part.name : part.name.slice(part.owner.length + 1);
      const type = part.typeName === undefined ? '' : ` ${part.typeName}`;
      found.set(part.place.start, {
        name,
        detail: part.title === undefined ? `${noun}${type}` : `${noun}${type}, ${part.title}`,
        kind: kinds[part.kind] ?? SymbolKind.Object,
        place: part.namePlace,
      });
      for (const { end, place, volts } of part.supplyTaps)
        found.set(place.start, {
          name: end,
          detail: volts === undefined ? 'tap' : `tap, ${volts} V`,
          kind: SymbolKind.Constant,
          place,
        });
    }
    for (const { name, members, place } of circuit.gangs)
      found.set(place.start, {
        name,
        detail: `gang of ${members.join(', ')}`,
        kind: SymbolKind.Array,
        place,
      });
    for (const { name, drives, place } of circuit.dials)
      found.set(place.start, {
        name,
        detail: `dial of ${drives.join(', ')}`,
        kind: SymbolKind.Key,
        place,
      });
    for (const { title, place } of circuit.benches)
      found.set(place.start, {
        name: title || 'bench',
        detail: 'bench',
        kind: SymbolKind.Event,
        place,
      });
    for (const { title, place } of circuit.supposes)
      found.set(place.start, {
        name: title || 'suppose',
        detail: 'suppose',
        kind: SymbolKind.Event,
        place,
      });
  }
  for (const { said } of file.ownPatterns)
    for (const part of [said, ...said.windings])
      if (!found.has(part.place.start))
        found.set(part.place.start, {
          name: part.ownName,
          detail: [part.owner ? 'winding' : `pattern of a ${partKinds[part.kind].noun}`, part.title]
            .filter(Boolean)
            .join(', '),
          kind: kinds[part.kind] ?? SymbolKind.Object,
          place: part.namePlace,
        });
  for (const { name, title, place } of file.ownTypes)
    found.set(place.start, {
      name,
      detail: title ?? 'tube type',
      kind: SymbolKind.Class,
      place,
    });
  return found;
}

const kinds: Readonly<Record<string, SymbolKind>> = {
  battery: SymbolKind.Package,
  eliminator: SymbolKind.Package,
  post: SymbolKind.Interface,
  bus: SymbolKind.Interface,
  coil: SymbolKind.Struct,
  transformer: SymbolKind.Struct,
  winding: SymbolKind.Field,
  tube: SymbolKind.Function,
  switch: SymbolKind.Boolean,
  selector: SymbolKind.Enum,
  jack: SymbolKind.Boolean,
};

function symbolOf(
  snapshot: Snapshot,
  block: Block,
  declared: Declared | undefined,
): DocumentSymbol | undefined {
  if (!declared) return undefined;
  const { name, detail, kind, place } = declared;
  const isInside = place.start >= block.start && place.end <= block.headEnd;
  const selection = isInside ? place : { start: block.start, end: block.headEnd };
  return {
    // Editors refuse a name of spaces alone.
    name: name.trim() === '' ? '?' : name,
    detail,
    kind,
    range: snapshot.range(block),
    selectionRange: snapshot.range(selection),
  };
}

/** A symbol of a document with the words that it is found by. */
export interface Findable {
  readonly symbol: WorkspaceSymbol;
  readonly words: string;
}

/** All that may be found in a document: sets, stages, parts, windings, taps. */
export function findableIn(snapshot: Snapshot): readonly Findable[] {
  const found: Findable[] = [];
  const walk = (symbols: readonly DocumentSymbol[], containers: readonly string[]): void => {
    for (const { name, kind, selectionRange, children, detail } of symbols) {
      const full = kind === SymbolKind.Field ? `${containers.at(-1)}.${name}` : name;
      const location = { uri: snapshot.uri, range: selectionRange };
      const within = containers.length > 0 ? { containerName: containers.join(', ') } : {};
      found.push({
        symbol: { name: full, kind, location, ...within },
        words: `${full} ${detail ?? ''}`,
      });
      walk(children ?? [], [...containers, name]);
    }
  };
  walk(documentSymbols(snapshot), []);
  return found;
}

/** No more than these are worth reading through. */
const MOST_SYMBOLS = 500;

/** What has the letters of a query in this order in its name, or in what it is. */
export function workspaceSymbols(all: readonly Findable[], query: string): WorkspaceSymbol[] {
  return all
    .filter(({ words }) => hasLetters(words, query))
    .slice(0, MOST_SYMBOLS)
    .map(({ symbol }) => symbol);
}

/** Whether the letters of a query stand in a text in this order, whatever lies between. */
function hasLetters(text: string, query: string): boolean {
  const letters = text.toLowerCase();
  let at = 0;
  for (const letter of query.toLowerCase().replace(/\s/g, '')) {
    const next = letters.indexOf(letter, at);
    if (next < 0) return false;
    at = next + 1;
  }
  return true;
}
