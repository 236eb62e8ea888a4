import type { TubeType } from '@setwright/circuit';
import { isTubeTypeStatement } from './generated/ast.ts';
import libraryText from './library/tubes.receiver';
import type { Lowering } from './lower/context.ts';
import { tubeTypeOf } from './lower/tube-types.ts';
import { readText } from './read.ts';

/** The name under which the built-in library goes in places and links. */
export const libraryFile = 'library:tubes.receiver';

/** The text of the built-in tube library, written in the receiver language itself. */
export const tubeLibraryText: string = libraryText;

let types: ReadonlyMap<string, TubeType> | undefined;

/** The built-in tube types by name; read once, at the first use. */
export function builtInTubeTypes(): ReadonlyMap<string, TubeType> {
  if (!types) {
    const cx: Lowering = { file: libraryFile, text: libraryText, remarks: [], unread: [] };
    const { document } = readText(libraryText);
    types = new Map(
      document.statements
        .filter(isTubeTypeStatement)
        .map((node) => [node.name ?? '', tubeTypeOf(cx, node, true)]),
    );
  }
  return types;
}
