import type { Place, TubeType } from '@setwright/circuit';
import {
  isTubeTypeStatement,
  isUseStatement,
  type Statement,
  type UseStatement,
} from './generated/ast.ts';
import { builtInTubeTypes } from './library.ts';
import { type Lowering, placeAt, placeOf, placeOfProperty, remark } from './lower/context.ts';
import type { Pattern } from './lower/known.ts';
import { patternsOf } from './lower/patterns.ts';
import { tubeTypeOf } from './lower/tube-types.ts';
import { type ReadText, readText, tokensOf } from './read.ts';
import { fileBeside, nameOfFile, pathTrouble } from './use-path.ts';

/** The text of a used file, or why it cannot be had. */
export type UsedText =
  | {
      readonly text: string;
      /** What the file is called in truth, where links or other names lead to it as well. */
      readonly same?: string;
    }
  | { readonly cause: string; readonly cure: string }
  /** It has been asked for and is not here yet; nothing is said of it meanwhile. */
  | { readonly awaited: true };

/** What the reading of a text may ask of the world. */
export interface Reading {
  /**
   * The text of a used file; undefined where there is none.
   *
   * @param file its path, relative to what the path of the text is relative to, with `/` between
   *   folders; an address where the text has one
   */
  readonly used?: (file: string) => UsedText | undefined;
  /** Used files that were read before. */
  readonly memory?: UsedMemory;
}

/** Used files that have been read, so that many sets may use one: see `usedMemory`. */
export type UsedMemory = Map<string, Remembered>;

interface Remembered {
  readonly text: string;
  readonly read: ReadText;
  shared: Shared | undefined;
}

/** A memory of used files, for one run of a tool or a whole sitting. Never out of date. */
export function usedMemory(): UsedMemory {
  return new Map();
}

/** Something that a used file gives a name. */
interface Given<T> {
  readonly what: T;
  /** Which `use` of the file brings it first. */
  readonly use: number;
}

/** A `use` of a text. */
export interface Use {
  /** Its line. */
  readonly place: Place;
  /** What stands in its quotation marks. */
  readonly path: string;
  readonly pathPlace: Place;
  /** The file that it means; undefined where the path will not do. */
  readonly file: string | undefined;
  /** Names of the tube types and patterns that it brings. */
  readonly types: readonly string[];
  readonly patterns: readonly string[];
  /** Whether a line above uses the same file. */
  readonly isSecond: boolean;
  /** Whether all that it brings is known. */
  readonly isWhole: boolean;
}

/** What the files that a text uses give it. */
export interface Used {
  readonly uses: readonly Use[];
  readonly types: ReadonlyMap<string, Given<TubeType>>;
  readonly patterns: ReadonlyMap<string, Given<Pattern>>;
  /** Whether a file that may hold more cannot be read. */
  readonly isLost: boolean;
  /** Every file that was asked for, those that used files use as well, each once. */
  readonly files: ReadonlyMap<string, string | undefined>;
}

/** A used file as it has been read. */
interface Shared {
  readonly file: string;
  readonly types: ReadonlyMap<string, TubeType>;
  readonly patterns: ReadonlyMap<string, Pattern>;
  /** The used files of this one. */
  readonly inner: readonly (Shared | undefined)[];
  /** What is wrong in it, at the first place of its text. */
  readonly fault:
    | { readonly message: string; readonly place: Place; readonly isLost: boolean }
    | undefined;
  readonly isLost: boolean;
  /** Files by which it comes back to one that is being read, which leaves something out. */
  readonly circle: readonly string[] | undefined;
}

interface Session {
  readonly used: Reading['used'];
  readonly memory: UsedMemory;
  readonly files: Map<string, string | undefined>;
  /** Those that have been read: each once, by however many ways it is used. */
  readonly done: Map<string, Shared>;
  /** The files that use one another down to this one, by what they are called in truth. */
  readonly down: { readonly name: string; readonly file: string }[];
}

/** Files that use one another deeper than this are nobody's, nor are more than this in all. */
const DEEPEST = 16;
const MOST_FILES = 200;

/** Reads the files that a text uses; what is wrong with them is told at its own lines. */
export function readUses(cx: Lowering, statements: readonly Statement[], reading: Reading): Used {
  const nodes = statements.filter(isUseStatement);
  if (nodes.length === 0) return nothingUsed;
  const session: Session = {
    used: reading.used,
    memory: reading.memory ?? usedMemory(),
    files: new Map(),
    done: new Map(),
    down: [{ name: cx.file, file: cx.file }],
  };
  const { uses, types, patterns, isLost } = takeIn(cx, nodes, session);
  return { uses, types, patterns, isLost, files: session.files };
}

const nothingUsed: Used = {
  uses: [],
  types: new Map(),
  patterns: new Map(),
  isLost: false,
  files: new Map(),
};

interface TakenIn extends Omit<Used, 'files'> {
  readonly inner: readonly (Shared | undefined)[];
  readonly circle: readonly string[] | undefined;
}

function takeIn(cx: Lowering, nodes: readonly UseStatement[], session: Session): TakenIn {
  const types = new Map<string, Given<TubeType>>();
  const patterns = new Map<string, Given<Pattern>>();
  const uses: Use[] = [];
  const inner: (Shared | undefined)[] = [];
  const given = new Map<string, Shared | undefined>();
  let isLost = false;
  let circle: readonly string[] | undefined;
  for (const [at, node] of nodes.entries()) {
    const pathPlace = inQuotes(cx, node);
    // As it is written: the parser takes a backslash for the beginning of something else.
    const path = cx.text.slice(pathPlace.start, pathPlace.end);
    const found = fileOf(cx, path, pathPlace);
    const isSecond = found !== undefined && given.has(found);
    const shared = isSecond
      ? given.get(found)
      : found === undefined
        ? undefined
        : sharedOf(cx, found, path, pathPlace, session);
    if (found === undefined || shared === undefined || shared.isLost) isLost = true;
    if (found !== undefined) given.set(found, shared);
    inner.push(shared);
    circle ??= shared?.circle;
    if (shared && !isSecond) {
      // In a used file it is told as what is wrong with that.
      if (shared.circle && session.down.length === 1) sayCircle(cx, path, pathPlace, shared.circle);
      sayFault(cx, path, pathPlace, shared);
      merge(cx, types, shared.types, at, pathPlace, 'tube type');
      merge(cx, patterns, shared.patterns, at, pathPlace, 'pattern');
    }
    uses.push({
      place: placeOf(cx, node),
      path,
      pathPlace,
      file: found,
      types: [...(shared?.types.keys() ?? [])],
      patterns: [...(shared?.patterns.keys() ?? [])],
      isSecond,
      isWhole: shared !== undefined && !shared.fault && !shared.circle && !shared.isLost,
    });
  }
  return { uses, types, patterns, isLost, inner, circle };
}

function inQuotes(cx: Lowering, node: UseStatement): Place {
  const { start, end, file } = placeOfProperty(cx, node, 'path');
  return node.path === undefined ? { file, start, end } : { file, start: start + 1, end: end - 1 };
}

/** The file that a path means; what is wrong with the path is told. */
function fileOf(cx: Lowering, path: string, place: Place): string | undefined {
  const trouble = pathTrouble(path);
  if (trouble) {
    const { message, cure, instead } = trouble;
    unusable(cx, place, message, cure, instead);
    return undefined;
  }
  const file = fileBeside(cx.file, path);
  if (file === undefined)
    unusable(
      cx,
      place,
      `Nothing called ${path} lies beside this text.`,
      'Save this text in the folder from which the path is seen.',
    );
  return file;
}

function unusable(cx: Lowering, place: Place, message: string, cure: string, instead?: string) {
  // A place without width would not be seen: the quotation marks are taken with it.
  const shown =
    place.end > place.start ? place : { ...place, start: place.start - 1, end: place.end + 1 };
  remark(
    cx,
    'used-file',
    'error',
    shown,
    {
      message,
      why: 'The tube types and patterns that it may hold are not known to this file.',
      cure,
    },
    {
      fixes:
        instead === undefined
          ? []
          : [{ title: `Change to ${instead}`, edits: [{ place, text: instead }] }],
    },
  );
}

/** A used file as it has been read; undefined where it cannot be, which is told. */
function sharedOf(
  cx: Lowering,
  file: string,
  path: string,
  place: Place,
  session: Session,
): Shared | undefined {
  const known = session.files.has(file);
  if (!known && session.files.size >= MOST_FILES) {
    const cure = 'Put what they hold into fewer files.';
    unusable(cx, place, `Here are more than ${MOST_FILES} files that use one another.`, cure);
    return undefined;
  }
  const answer = session.used?.(file);
  const text = answer && 'text' in answer ? answer.text : undefined;
  session.files.set(file, text);
  if (answer === undefined || text === undefined) {
    if (answer && 'awaited' in answer) return undefined;
    if (answer && 'cause' in answer)
      unusable(cx, place, `${path} cannot be used: ${answer.cause}.`, answer.cure);
    else if (session.used)
      unusable(cx, place, `There is no ${path} here.`, 'Check its name and folder.');
    else unusable(cx, place, `${path} is not read here.`, 'Use a tool that reads files.');
    return undefined;
  }
  const name = ('same' in answer && answer.same) || file;
  const back = session.down.findIndex((each) => each.name === name || each.file === file);
  if (back >= 0)
    return { ...nothingIn(file), circle: session.down.slice(back).map((each) => each.file) };
  if (session.down.length > DEEPEST) {
    const cure = 'Use the files that are wanted by their own names.';
    unusable(cx, place, `${path} is used by way of more than ${DEEPEST} others.`, cure);
    return undefined;
  }
  const done = session.done.get(file);
  if (done) return done;
  session.down.push({ name, file });
  const shared = readShared(file, text, session);
  session.down.pop();
  session.done.set(file, shared);
  return shared;
}

const nothingIn = (file: string): Shared => ({
  file,
  types: new Map(),
  patterns: new Map(),
  inner: [],
  fault: undefined,
  isLost: false,
  circle: undefined,
});

function readShared(file: string, text: string, session: Session): Shared {
  const before = session.memory.get(file);
  const remembered: Remembered =
    before?.text === text ? before : { text, read: readText(text), shared: undefined };
  session.memory.set(file, remembered);
  const { document, unreadable, partly } = remembered.read;
  const cx: Lowering = { file, text, remarks: [], unread: [], partly };
  const taken = takeIn(cx, document.statements.filter(isUseStatement), session);
  const old = remembered.shared;
  if (old?.inner.every((each, at) => each === taken.inner[at])) return old;
  const types = new Map([...taken.types].map(([name, { what }]) => [name, what]));
  for (const node of document.statements)
    if (isTubeTypeStatement(node)) {
      const type = tubeTypeOf(cx, node, false);
      types.set(type.name, type);
    }
  const patterns = new Map([...taken.patterns].map(([name, { what }]) => [name, what]));
  const known = {
    types: new Map([...builtInTubeTypes(), ...types]),
    patterns,
    isLost: taken.isLost,
  };
  for (const pattern of patternsOf(cx, document.statements, known, partly).patterns)
    patterns.set(pattern.name, pattern);
  const [lost] = unreadable;
  const grave = cx.remarks.find(({ severity }) => severity === 'error');
  const shared: Shared = {
    file,
    types,
    patterns,
    inner: taken.inner,
    fault: lost
      ? { message: lost.message, place: placeAt(cx, lost.start, lost.end), isLost: true }
      : grave && { message: grave.message, place: grave.place, isLost: false },
    isLost: taken.isLost || unreadable.length > 0,
    circle: taken.circle,
  };
  // What is left out to break a circle depends on where the reading began.
  if (!shared.circle) remembered.shared = shared;
  return shared;
}

/** Tells at a `use` what is wrong in the file that it brings. */
function sayFault(cx: Lowering, path: string, place: Place, { fault }: Shared) {
  if (!fault) return;
  remark(
    cx,
    'used-file',
    'warning',
    place,
    {
      message: fault.isLost
        ? `${path} has lines that cannot be read.`
        : `${path} has something wrong in it.`,
      why: 'What it says there of tube types and patterns is not known to this file.',
      cure: 'Open that file and put it right; a check of it tells all.',
    },
    { related: [{ place: fault.place, message: fault.message }] },
  );
}

/** Tells of files that come back to one another. */
function sayCircle(cx: Lowering, path: string, place: Place, circle: readonly string[]) {
  const [first, ...others] = circle.map((file) =>
    file === cx.file ? 'this file' : nameOfFile(file),
  );
  remark(cx, 'used-file', 'error', place, {
    message:
      others.length === 0
        ? `${first === 'this file' ? 'This file' : first} uses itself.`
        : `${path} leads round in a circle: ${[first, ...others, first].join(' uses ')}.`,
    why: 'Which of two descriptions counts would depend on where the reading begins.',
    cure:
      others.length === 0
        ? 'Take this line out.'
        : 'Put what both need into a file of its own, which uses neither.',
  });
}

/** Takes over what a file gives; the first to give a name is the one that counts. */
function merge<T extends TubeType | Pattern>(
  cx: Lowering,
  into: Map<string, Given<T>>,
  from: ReadonlyMap<string, T>,
  use: number,
  place: Place,
  noun: string,
) {
  for (const [name, what] of from) {
    const first = into.get(name);
    if (!first) into.set(name, { what, use });
    else if (first.what !== what && sense(first.what) !== sense(what))
      remark(
        cx,
        'duplicate-name',
        'error',
        place,
        {
          message: `The ${noun} ${name} is described in ${nameOfFile(first.what.place.file)} and again in ${nameOfFile(what.place.file)}, and not alike.`,
          why: 'Only the description of the file that is used first counts.',
          cure: 'Give one of them another name, or use only one of the files.',
        },
        {
          related: [
            { place: first.what.place, message: `the first ${name}, which counts` },
            { place: what.place, message: `the other ${name}` },
          ],
        },
      );
  }
}

/** What a description says, whatever its spaces and comments and wherever it stands. */
function sense(what: TubeType | Pattern): string {
  if (!('said' in what))
    return JSON.stringify(what, (key, value: unknown) => (key === 'place' ? undefined : value));
  const { $cstNode } = what.said.node;
  return tokensOf($cstNode?.text ?? '')
    .map(({ image }) => image)
    .join(' ');
}
