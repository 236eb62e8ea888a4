import type { Circuit, Place } from '@setwright/circuit';
import { type Item, itemsOf, type ReadFile, type Reading } from '@setwright/language';
import {
  type DialReadings,
  dialColumns,
  responseOf,
  type SetResponse,
  type SetValues,
  type UnitStyle,
  valuesOf,
} from '@setwright/report';
import type { Position, Range } from 'vscode-languageserver-protocol';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { type Block, blocksOf } from './blocks.ts';
import { type Names, namesOf } from './names.ts';
import { once } from './once.ts';
import { readSafely } from './read-safely.ts';

/**
 * One version of a document with everything that is asked of it, each made when it is first asked
 * for and then shared by all features. It never changes.
 */
export interface Snapshot {
  readonly uri: string;
  readonly version: number;
  readonly text: string;
  /** Gives the files that the text uses. */
  readonly reading: Reading;
  readonly file: ReadFile;
  /** Words, signs and comments in order. */
  readonly items: readonly Item[];
  /** The statements that stand outside any block, each with its own. */
  readonly blocks: readonly Block[];
  /** Where every part, tap, stage, gang, dial and tube type is declared and named. */
  readonly names: Names;
  /** True while lines of it cannot be read. */
  readonly isBroken: boolean;
  readonly position: (offset: number) => Position;
  readonly offset: (position: Position) => number;
  readonly range: (place: Pick<Place, 'start' | 'end'>) => Range;
  /** The numbers of a receiver with no signal in it. */
  readonly values: (receiver: number, style: UnitStyle) => SetValues | undefined;
  /** The same and what its stages make of a signal, unless it is too large. Takes longer. */
  readonly allValues: (receiver: number, style: UnitStyle) => SetValues | undefined;
  /** Gain, selectivity and stability; undefined for a set too large for it. Takes its time. */
  readonly response: (receiver: number) => SetResponse | undefined;
  readonly dials: (receiver: number) => Omit<DialReadings, 'lines'> | undefined;
}

/** Following a signal through more tubes than this takes long; hardly a set of the time had more. */
const MOST_TUBES = 16;

/**
 * A version of a document. Nothing is read until something is asked for.
 *
 * @param reading gives the files that it uses; without it none is read
 */
export function snapshotOf(
  uri: string,
  version: number,
  text: string,
  reading: Reading = {},
): Snapshot {
  const document = TextDocument.create(uri, 'setwright', version, text);
  const file = once(() => readSafely(text, uri, reading));
  const items = once(() => itemsOf(text));
  const blocks = once(() => blocksOf(file(), items()));
  const names = once(() => namesOf(file(), items(), blocks()));
  const perReceiver = <T>(make: (circuit: Circuit) => T) => {
    const made = new Map<number, T>();
    return (receiver: number): T | undefined => {
      const circuit = file().circuits[receiver];
      if (!circuit) return undefined;
      if (!made.has(receiver)) made.set(receiver, make(circuit));
      return made.get(receiver);
    };
  };
  const valuesIn = (withGains: (circuit: Circuit) => boolean) => {
    const make = (style: UnitStyle) =>
      perReceiver((circuit) => valuesOf(circuit, style, withGains(circuit)));
    const styles = { period: make('period'), si: make('si') };
    return (receiver: number, style: UnitStyle) => styles[style](receiver);
  };
  return {
    uri,
    version,
    text,
    reading,
    get file() {
      return file();
    },
    get items() {
      return items();
    },
    get blocks() {
      return blocks();
    },
    get names() {
      return names();
    },
    get isBroken() {
      return file().read.unreadable.length > 0 || file().circuits.some(isBroken);
    },
    position: (offset) => document.positionAt(offset),
    offset: (position) => document.offsetAt(position),
    range: ({ start, end }) => ({
      start: document.positionAt(start),
      end: document.positionAt(end),
    }),
    values: valuesIn(() => false),
    allValues: valuesIn(hasFewTubes),
    response: perReceiver((circuit) => (hasFewTubes(circuit) ? responseOf(circuit) : undefined)),
    dials: perReceiver(dialColumns),
  };
}

/** Whether a signal can be followed through a set in a bearable time. */
function hasFewTubes({ parts }: Circuit): boolean {
  return parts.filter(({ kind }) => kind === 'tube').length <= MOST_TUBES;
}

const isBroken = ({ unread }: Circuit): boolean => unread.length > 0;
