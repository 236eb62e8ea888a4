import type { Circuit } from '@setwright/circuit';
import { nameOfFile, type Reading, readReceivers } from '@setwright/language';
import type { Position, Range, TextEdit, WorkspaceEdit } from 'vscode-languageserver-protocol';
import { type Edit, edited, textEdits, workspaceEdit } from '../text/edits.ts';
import type { Named, Occurrence } from '../text/names.ts';
import type { Snapshot } from '../text/snapshot.ts';
import { isSameUri } from '../text/uris.ts';

/** What may be renamed, or why not. */
export type Renamable =
  | { readonly ok: true; readonly at: Occurrence; readonly words: string }
  | { readonly ok: false; readonly why: string };

/** Whether what stands at a position has a name that can be given anew. */
export function renamableAt(snapshot: Snapshot, position: Position): Renamable {
  const at = snapshot.names.at(snapshot.offset(position));
  if (!at) return { ok: false, why: 'Nothing with a name of its own stands here.' };
  const { named } = at;
  const words = snapshot.text.slice(at.start, at.end);
  if (named.elsewhere) return { ok: true, at, words };
  if (named.kind === 'type' && !named.declared)
    return { ok: false, why: `The ${named.name} is a tube type of the library.` };
  if (named.kind === 'terminal')
    return { ok: false, why: `${words} is a terminal: its name goes with the kind of part.` };
  if (!named.declared) return { ok: false, why: `${words} is declared nowhere that can be read.` };
  return { ok: true, at, words: named.kind === 'receiver' ? words.slice(1, -1) : words };
}

/** Where the name stands that is to be given anew, and what it is now. */
export function renameRange(
  snapshot: Snapshot,
  { at, words }: Extract<Renamable, { ok: true }>,
): { range: Range; placeholder: string } {
  const inside = at.named.kind === 'receiver' ? { start: at.start + 1, end: at.end - 1 } : at;
  return { range: snapshot.range(inside), placeholder: words };
}

/** The edits that give something another name wherever it is named, or why that cannot be. */
export type Renamed =
  | { readonly ok: true; readonly edit: WorkspaceEdit }
  | { readonly ok: false; readonly why: string };

/**
 * Gives what stands at a position another name. The set must mean the same afterwards: a name that
 * is taken, or that cannot be read, is refused.
 *
 * @param others the other texts that may name it, where it stands outside any receiver
 */
export function renameAt(
  snapshot: Snapshot,
  position: Position,
  name: string,
  others: readonly Snapshot[] = [],
): Renamed {
  const renamable = renamableAt(snapshot, position);
  if (!renamable.ok) return renamable;
  const { named } = renamable.at;
  if (isShared(named)) return renameShared(snapshot, named, name, others);
  if (named.kind === 'receiver') return retitled(snapshot, renamable.at, name);
  const taken = snapshot.names.find(named.receiver, named.kind, fullName(named, name));
  if (taken && taken !== named) return { ok: false, why: `There is a ${name} already.` };
  const letter = stampedLetter(snapshot, named);
  if (letter !== undefined)
    return {
      ok: false,
      why: `The letter ${letter} is stamped on the winding ${renamable.words}; write its ends in full first.`,
    };
  const edits = editsFor(snapshot, named, name);
  const after = edited(snapshot.text, edits);
  if (!meansTheSame(snapshot, after)) return { ok: false, why: willNotDo(name) };
  return { ok: true, edit: workspaceEdit(snapshot, edits) };
}

const editsFor = ({ names }: Snapshot, named: Named, text: string): readonly Edit[] =>
  names.of(named).map(({ start, end }): Edit => ({ start, end, text }));

const willNotDo = (name: string): string =>
  `${name} will not do: the text would no longer mean the same.`;

/** Tube types and patterns: other files may use them. */
const isShared = ({ receiver, kind }: Named): boolean =>
  receiver === -1 && (kind === 'part' || kind === 'type');

/** Gives a tube type or pattern another name where it stands, and in every file that uses it. */
function renameShared(
  asked: Snapshot,
  named: Named,
  name: string,
  others: readonly Snapshot[],
): Renamed {
  const { kind, elsewhere } = named;
  const home = elsewhere ? others.find(({ uri }) => isSameUri(uri, elsewhere.name.file)) : asked;
  const own = home?.names.find(-1, kind, named.name);
  if (!home || !own?.declared)
    return { ok: false, why: `The file that describes ${named.name} cannot be had.` };
  if (named.name.includes('.'))
    return {
      ok: false,
      why: 'Other parts are made like this one, and go by the names of its windings.',
    };
  const afterHome = edited(home.text, editsFor(home, own, name));
  // What the others use is the text as it will be.
  const readingThen = (reading: Reading): Reading => ({
    used: (file) => (isSameUri(file, home.uri) ? { text: afterHome } : reading.used?.(file)),
  });
  const changes: Record<string, TextEdit[]> = {};
  for (const text of [home, ...others.filter(({ uri }) => uri !== home.uri)]) {
    const here =
      text === home
        ? own
        : text.names.all.find(
            (each) =>
              each.kind === kind &&
              each.name === named.name &&
              isSameUri(each.elsewhere?.name.file ?? '', home.uri),
          );
    if (!here) continue;
    const taken = kind === 'type' ? text.file.types : text.file.patterns;
    if (name !== named.name && taken.has(name))
      return { ok: false, why: `There is a ${name} already in ${nameOfFile(text.uri)}.` };
    const edits = editsFor(text, here, name);
    const reading = readingThen(text.reading);
    if (!meansTheSame(text, edited(text.text, edits), reading))
      return { ok: false, why: willNotDo(name) };
    changes[text.uri] = textEdits(text, edits);
  }
  return { ok: true, edit: { changes } };
}

function retitled(snapshot: Snapshot, at: Occurrence, title: string): Renamed {
  if (/["\r\n]/.test(title)) return { ok: false, why: 'A title stands on one line without ".' };
  const edits = [{ start: at.start + 1, end: at.end - 1, text: title }];
  return { ok: true, edit: workspaceEdit(snapshot, edits) };
}

/** The name with those before it that it hangs on: `L1.grid` for a winding of L1. */
function fullName({ kind, name }: Named, last: string): string {
  const dot = kind === 'part' || kind === 'tap' ? name.indexOf('.') : -1;
  return dot < 0 ? last : `${name.slice(0, dot + 1)}${last}`;
}

/** A letter stamped on a transformer, such as `T1.P`, that goes by the name of this winding. */
function stampedLetter({ names, text }: Snapshot, { kind, name }: Named): string | undefined {
  if (kind !== 'part') return undefined;
  const own = name.slice(name.indexOf('.') + 1);
  const found = names.occurrences.find(
    ({ named, start, end }) =>
      named.kind === 'terminal' &&
      named.name.startsWith(`${name}.`) &&
      /^[PBFG]$/.test(text.slice(start, end)) &&
      !text.slice(0, start).endsWith(`${own}.`),
  );
  return found && text.slice(found.start, found.end);
}

/** Whether a text reads to the same circuits as before, but for one name. */
function meansTheSame(
  snapshot: Snapshot,
  after: string,
  reading: Reading = snapshot.reading,
): boolean {
  const before = snapshot.file;
  const read = readReceivers(after, snapshot.uri, reading);
  if (read.circuits.length !== before.circuits.length) return false;
  if (read.read.unreadable.length !== before.read.unreadable.length) return false;
  if (read.ownTypes.length !== before.ownTypes.length) return false;
  if (read.ownPatterns.length !== before.ownPatterns.length) return false;
  if (read.likes.length !== before.likes.length) return false;
  return read.circuits.every((circuit, index) => {
    const old = before.circuits[index];
    return old !== undefined && shapeOf(circuit) === shapeOf(old);
  });
}

/** What of a circuit does not go by names: which ends meet, by the order of their parts. */
function shapeOf(circuit: Circuit): string {
  const number = new Map<string, string>();
  for (const [at, part] of circuit.parts.entries())
    for (const [end, { id }] of part.ends.entries()) number.set(id, `${at}.${end}`);
  return JSON.stringify([
    circuit.junctions.map(({ terminals }) => terminals.map((id) => number.get(id))),
    circuit.parts.map(({ kind, tubeType, contacts, companions, setting, drawnAt, supplyTaps }) => [
      kind,
      tubeType?.points.length,
      supplyTaps.map(({ volts }) => volts),
      contacts.map(({ from, to, closedAt }) => [number.get(from), number.get(to), closedAt]),
      companions.length,
      setting?.kind,
      drawnAt,
    ]),
    circuit.stages.map(({ parts }) => parts.length),
    circuit.gangs.map(({ members }) => members.length),
    circuit.dials.map(({ drives }) => drives.length),
    circuit.remarks.map(({ check }) => check),
    circuit.unread.length,
    circuit.benches.map(({ entries }) => entries.map(({ kind, at }) => [kind, at !== undefined])),
    circuit.supposes.map(({ edits }) =>
      edits.map(({ verb, target }) => [verb, target !== undefined]),
    ),
  ]);
}
