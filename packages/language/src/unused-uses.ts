import type { Circuit, Fix } from '@setwright/circuit';
import { builtInTubeTypes } from './library.ts';
import { type Lowering, placeAt, remark } from './lower/context.ts';
import type { PatternUse } from './lower/known.ts';
import { list } from './lower/references.ts';
import type { Use, Used } from './uses.ts';

/** What the receivers of a file take from outside. */
interface Takes {
  readonly circuits: readonly Circuit[];
  readonly likes: readonly PatternUse[];
}

/**
 * Notes which files are used for nothing, and which tube types of the library give way to those of
 * a used file. A file without receivers hands on what it uses, whatever that is.
 */
export function noteUses(cx: Lowering, used: Used, { circuits, likes }: Takes): void {
  if (used.uses.length === 0) return;
  const typesTaken = new Set(
    circuits.flatMap(({ parts }) => parts.flatMap(({ tubeType }) => tubeType ?? [])),
  );
  const patternsTaken = new Set(likes.map(({ pattern }) => pattern));
  for (const [at, use] of used.uses.entries()) {
    if (use.isSecond) {
      spare(cx, use, `${use.path} is used twice.`, 'Once is enough.');
      continue;
    }
    const types = [...used.types.values()].filter((each) => each.use === at);
    const patterns = [...used.patterns.values()].filter((each) => each.use === at);
    const isTaken =
      types.some(({ what }) => typesTaken.has(what)) ||
      patterns.some(({ what }) => patternsTaken.has(what));
    const anew = types
      .filter(({ what }) => typesTaken.has(what) && builtInTubeTypes().has(what.name))
      .map(({ what }) => what.name);
    if (anew.length > 0) inPlaceOfLibrary(cx, use, anew);
    if (circuits.length > 0 && use.isWhole && !isTaken)
      spare(
        cx,
        use,
        `Nothing of ${use.path} is used in this file.`,
        'No tube of it has a type, and no part is made like a pattern, that stands there.',
      );
  }
}

function inPlaceOfLibrary(cx: Lowering, { path, pathPlace }: Use, names: readonly string[]) {
  remark(cx, 'own-tube-type', 'hint', pathPlace, {
    message: `What ${path} says of the ${list(names)} is used in place of what the library says.`,
    why: 'Numbers and checks of this file go by it.',
    cure: 'Nothing need be done if that is what you want.',
  });
}

function spare(cx: Lowering, use: Use, message: string, why: string) {
  const fixes: Fix[] = [
    { title: 'Take this line out', edits: [{ place: wholeLine(cx, use), text: '' }] },
  ];
  remark(
    cx,
    'unused-use',
    'hint',
    use.place,
    { message, why, cure: 'Take this line out.' },
    { fixes },
  );
}

/** A statement with the line that it stands on alone, else the statement. */
function wholeLine({ text, ...cx }: Lowering, { place }: Use) {
  const before = /[^\n]*$/.exec(text.slice(0, place.start))?.[0] ?? '';
  const after = /^[ \t]*(\r?\n|$)/.exec(text.slice(place.end))?.[0];
  if (before.trim() !== '' || after === undefined) return place;
  return placeAt({ text, ...cx }, place.start - before.length, place.end + after.length);
}
