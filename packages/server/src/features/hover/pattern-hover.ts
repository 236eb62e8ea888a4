import { type Place, partKinds } from '@setwright/circuit';
import { nameOfFile, type ReadFile } from '@setwright/language';
import { plainWords } from '../../text/markdown.ts';
import type { Snapshot } from '../../text/snapshot.ts';
import { joined } from './part-hover.ts';

/** No more lines of a pattern than these are shown. */
const MOST_LINES = 20;

/** What a pattern is, where it stands, and its words. */
export function patternHover(snapshot: Snapshot, name: string): string | undefined {
  const pattern = snapshot.file.patterns.get(name);
  if (!pattern) return undefined;
  const { kind, title, place, said } = pattern;
  const called = title === undefined ? '' : ` \u201c${title}\u201d`;
  const home = place.file === snapshot.uri ? 'this file' : nameOfFile(place.file);
  const text = textOf(snapshot, place);
  const whole = { start: place.start, end: said.node.$cstNode?.end ?? place.end };
  return joined([
    `**${plainWords(name)}**, ${plainWords(`pattern of a ${partKinds[kind].noun}${called}, in ${home}`)}`,
    text === undefined ? '' : shown(text.slice(whole.start, whole.end)),
  ]);
}

function textOf({ uri, text, file }: Snapshot, place: Place): string | undefined {
  if (place.file === uri) return text;
  return file.usedFiles.find((used) => used.file === place.file)?.text;
}

/** Words of the language as they are, between fences that they cannot close. */
function shown(words: string): string {
  const lines = words.split(/\r?\n/);
  const some = lines.length > MOST_LINES ? [...lines.slice(0, MOST_LINES), '\u2026'] : lines;
  const ticks = some.join('\n').match(/`+/g) ?? [];
  const fence = '`'.repeat(Math.max(3, ...ticks.map(({ length }) => length + 1)));
  return [`${fence}setwright`, ...some, fence].join('\n');
}

/** What a used file brings. */
export function useHover({ path, types, patterns }: ReadFile['uses'][number]): string {
  const list = (names: readonly string[]): string => plainWords(names.join(', '));
  return joined([
    `**${plainWords(path)}**`,
    types.length > 0 ? `Tube types: ${list(types)}.` : '',
    patterns.length > 0 ? `Patterns: ${list(patterns)}.` : '',
    types.length + patterns.length === 0 ? 'It brings no tube types and no patterns.' : '',
  ]);
}
