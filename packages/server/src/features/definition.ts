import { builtInTubeTypes } from '@setwright/language';
import type { Location, LocationLink, Position } from 'vscode-languageserver-protocol';
import { blockFrom, blocksAt } from '../text/blocks.ts';
import { librarySnapshot, locationOf } from '../text/library.ts';
import { endIdOf, type Named, type Occurrence, partOf } from '../text/names.ts';
import type { Snapshot } from '../text/snapshot.ts';
import { libraryUri } from '../texts.ts';

/** Where what is named at a position is declared, with what of the text names it. */
export function definitionAt(snapshot: Snapshot, position: Position): LocationLink[] {
  const offset = snapshot.offset(position);
  const found = snapshot.names.at(offset);
  if (!found) return usedFileAt(snapshot, offset);
  const targets = declarationsOf(snapshot, found.named);
  return targets.map(({ uri, range, selection }) => ({
    originSelectionRange: snapshot.range(found),
    targetUri: uri,
    targetRange: range,
    targetSelectionRange: selection,
  }));
}

/** The same for clients that know of no links. */
export function definitionLocations(snapshot: Snapshot, position: Position): Location[] {
  return definitionAt(snapshot, position).map(({ targetUri, targetSelectionRange }) => ({
    uri: targetUri,
    range: targetSelectionRange,
  }));
}

interface Declaration {
  readonly uri: string;
  readonly range: Location['range'];
  readonly selection: Location['range'];
}

/** Where something is declared: in the text, or a tube type in the library. */
function declarationsOf(snapshot: Snapshot, named: Named): readonly Declaration[] {
  const { declared, statement } = named;
  if (declared && statement) {
    const { uri } = snapshot;
    return [{ uri, range: snapshot.range(statement), selection: snapshot.range(declared) }];
  }
  if (named.elsewhere) return declarationElsewhere(snapshot, named.elsewhere);
  if (named.kind === 'type') return libraryDeclaration(named.name);
  const circuit = snapshot.file.circuits[named.receiver];
  if (!circuit) return [];
  // A terminal is declared where the text joins it by its own word, else with its part.
  const part = partOf(circuit, named);
  if (!part) return [];
  const end = circuit.endNamed.get(endIdOf(circuit, named.name));
  const blockEnd = blockFrom(snapshot.blocks, part.place.start)?.end ?? part.place.end;
  const own = end?.joins.find((join) => join.start >= part.place.end && join.end <= blockEnd);
  const line = own && blocksAt(snapshot.blocks, own.start).at(-1);
  return [
    {
      uri: snapshot.uri,
      range: snapshot.range(line ?? part.place),
      selection: snapshot.range(own ?? part.namePlace),
    },
  ];
}

function declarationElsewhere(
  snapshot: Snapshot,
  { name, statement }: NonNullable<Named['elsewhere']>,
): readonly Declaration[] {
  const selection = locationOf(snapshot, name);
  const whole = locationOf(snapshot, statement);
  if (!selection || !whole) return [];
  return [{ uri: whole.uri, range: whole.range, selection: selection.range }];
}

/** The file that a `use` names, where one is and can be read. */
function usedFileAt(snapshot: Snapshot, offset: number): LocationLink[] {
  const { uses, usedFiles } = snapshot.file;
  return uses.flatMap(({ file, pathPlace }) => {
    const isHere = pathPlace.start <= offset && offset <= pathPlace.end;
    const used = usedFiles.find((each) => each.file === file);
    if (!isHere || used?.text === undefined) return [];
    const start = { line: 0, character: 0 };
    const beginning = { start, end: start };
    return [
      {
        originSelectionRange: snapshot.range(pathPlace),
        targetUri: used.file,
        targetRange: beginning,
        targetSelectionRange: beginning,
      },
    ];
  });
}

function libraryDeclaration(name: string): readonly Declaration[] {
  if (!builtInTubeTypes().has(name)) return [];
  const library = librarySnapshot();
  const found = library.names.find(-1, 'type', name);
  if (!found?.declared || !found.statement) return [];
  return [
    {
      uri: libraryUri,
      range: library.range(found.statement),
      selection: library.range(found.declared),
    },
  ];
}

/** Every place of the text that names the same thing. */
export function referencesAt(
  snapshot: Snapshot,
  position: Position,
  withDeclaration: boolean,
): Location[] {
  const found = snapshot.names.at(snapshot.offset(position));
  if (!found) return [];
  const places = snapshot.names
    .of(found.named)
    .filter(({ isDeclaration }) => withDeclaration || !isDeclaration)
    .map((place) => ({ uri: snapshot.uri, range: snapshot.range(place) }));
  const inLibrary =
    withDeclaration && found.named.kind === 'type' && !found.named.declared
      ? libraryDeclaration(found.named.name).map(({ uri, selection }) => ({
          uri,
          range: selection,
        }))
      : [];
  return [...inLibrary, ...places];
}

/** Occurrences of what is named at a position. */
export function occurrencesAt(snapshot: Snapshot, position: Position): readonly Occurrence[] {
  const found = snapshot.names.at(snapshot.offset(position));
  return found ? snapshot.names.of(found.named) : [];
}
