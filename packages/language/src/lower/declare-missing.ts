import { type Fix, type PartKindName, type Place, partKinds } from '@setwright/circuit';
import type { AstNode } from 'langium';
import { isElectrodeStatement } from '../generated/ast.ts';
import type { Collected } from './collected.ts';
import { type Lowering, placeOf } from './context.ts';

/** A line or block that a part may be declared by. */
interface Declared {
  readonly kind: PartKindName | 'tap';
  /** Lines as they are written at the left edge. */
  readonly lines: readonly string[];
}

/**
 * Fixes that declare a part which a name asks for and nobody has declared: of the kinds that its
 * letters stand for in the trade, in the stage that speaks of it, with its values left out.
 *
 * @param written the whole name, such as `C9.start`
 * @param place where it is written
 */
export function declareMissing(
  cx: Lowering,
  all: Collected,
  written: string,
  place: Place,
): readonly Fix[] {
  const text = written.replace(/\u2212/g, '-');
  const [name = '', ...ends] = partsOf(text);
  const likely = isTap(name) ? tapOf(all, name) : kindsFor(cx, all, name, ends);
  return likely.flatMap((declared) => {
    const at =
      declared.kind === 'tap' ? endOfBattery(cx, all, name) : beforeMention(cx, all, place);
    if (!at) return [];
    const { start, indent } = at;
    const put = declared.lines.map((line) => `${indent}${line}\n`).join('');
    const noun = declared.kind === 'tap' ? 'tap' : partKinds[declared.kind].noun;
    return [
      {
        title: `Declare ${name} as a ${noun}`.replace(/ a (?=[aeiou])/, ' an '),
        edits: [{ place: { file: cx.file, start, end: start }, text: put }],
        adds: true,
      },
    ];
  });
}

/** The words of a dotted name; the dots of `C-4.5` are no such dots. */
const partsOf = (text: string): readonly string[] => text.split(/\.(?=[A-Za-z_])/);

const isTap = (name: string): boolean => /^[ABC][+-](\d+(\.\d+)?)?$/.test(name);

function tapOf(all: Collected, name: string): readonly Declared[] {
  const battery = all.named.get(name[0] ?? '');
  return battery?.kind === 'battery' ? [{ kind: 'tap', lines: [`tap ${name}`] }] : [];
}

/** What letters stand for on drawings and in lists of parts, likeliest first. Common practice. */
const letters: Readonly<Record<string, readonly PartKindName[]>> = {
  C: ['condenser'],
  R: ['resistor', 'leak'],
  L: ['coil', 'choke'],
  T: ['transformer'],
  V: ['tube'],
  RH: ['rheostat'],
  P: ['potentiometer', 'phones'],
  POT: ['potentiometer'],
  PH: ['phones'],
  S: ['switch', 'selector'],
  SW: ['switch', 'selector'],
  J: ['jack'],
  X: ['crystal'],
  H: ['horn'],
  SP: ['speaker'],
  LS: ['speaker'],
  CH: ['choke'],
  F: ['fuse'],
  BL: ['ballast'],
  LA: ['lamp'],
  ANT: ['post'],
  GND: ['post'],
  NEG: ['bus'],
};

function kindsFor(
  cx: Lowering,
  all: Collected,
  name: string,
  ends: readonly string[],
): readonly Declared[] {
  const stem = /^([A-Za-z]+)\d*[A-Za-z]?$/.exec(name)?.[1]?.toUpperCase() ?? '';
  return (letters[stem] ?? []).flatMap((kind) => {
    const lines = linesFor(kind, name, ends);
    if (!lines) return [];
    const filament = kind === 'tube' ? filamentLike(cx, all) : undefined;
    // A heater is fed otherwise than the filaments of the others.
    const isPlain = filament !== undefined && lines[0] === `tube ${name}`;
    return [{ kind, lines: isPlain ? [`tube ${name} {`, `  ${filament}`, '}'] : lines }];
  });
}

/** How the filament of another tube of the set is joined: this one is most likely fed alike. */
function filamentLike(cx: Lowering, all: Collected): string | undefined {
  for (const { kind, children } of all.parts) {
    if (kind !== 'tube') continue;
    const line = children.find(
      (inner) => isElectrodeStatement(inner) && inner.keyword === 'filament',
    );
    const { start, end } = placeOf(cx, line);
    if (line && !/[\r\n]/.test(cx.text.slice(start, end))) return cx.text.slice(start, end);
  }
  return undefined;
}

/** How a part is declared that has these ends; undefined for a kind that cannot have them. */
function linesFor(
  kind: PartKindName,
  name: string,
  ends: readonly string[],
): readonly string[] | undefined {
  const [end, more] = ends;
  if (kind === 'coil') {
    // `L5.grid.finish` and `L5.grid` speak of a winding, `L5.finish` of the only one.
    const winding = end === undefined || isOwnEnd('winding', end) ? 'whole' : end;
    const last = winding === 'whole' ? end : more;
    if (last !== undefined && !isOwnEnd('winding', last)) return undefined;
    return [`coil ${name} {`, `  winding ${winding}`, '}'];
  }
  if (kind === 'transformer') {
    if (end === undefined) return undefined;
    const windings = ['primary', 'secondary'];
    if (!windings.includes(end) && !/^[PBFG]$/.test(end)) return undefined;
    return [`transformer ${name} {`, ...windings.map((each) => `  winding ${each}`), '}'];
  }
  if (more !== undefined) return undefined;
  if (kind === 'post' || kind === 'bus') {
    if (end !== undefined) return undefined;
    const words = { ANT: ' aerial', GND: ' ground' }[name.replace(/\d+$/, '').toUpperCase()];
    return [`${kind} ${name}${words ?? ''}`];
  }
  if (kind === 'tube') {
    if (end === undefined || !isTubeEnd(end)) return undefined;
    // A cathode of its own has only a type with a heater; the commonest of the time is taken.
    const type = end === 'cathode' || end === 'K' ? ' 27' : '';
    return [`tube ${name}${type}`];
  }
  if (kind === 'condenser' && (end === 'rotor' || end === 'stator'))
    return [`condenser ${name} variable`];
  if (end === undefined || !isOwnEnd(kind, end)) return undefined;
  return [`${kind} ${name}`];
}

const isOwnEnd = (kind: PartKindName, end: string): boolean => partKinds[kind].ends.includes(end);

const isTubeEnd = (end: string): boolean =>
  /^(grid|plate|cathode|filament|heater|[GPK])$/.test(end) || /^(F|filament)[-+]$/.test(end);

/** Where a line begins that can be put in before it, and how far it is set in. */
interface LineStart {
  readonly start: number;
  readonly indent: string;
}

/** The line of the part or wire that names a place, outside its own block. */
function beforeMention(cx: Lowering, all: Collected, place: Place): LineStart | undefined {
  const nodes: AstNode[] = [
    ...all.parts.flatMap(({ owner, node }) => (owner ? [] : node)),
    ...all.wires.map(({ node }) => node),
  ];
  const node = nodes.find((each) => {
    const { start, end } = placeOf(cx, each);
    return start <= place.start && place.end <= end;
  });
  return node && lineStart(cx, placeOf(cx, node).start);
}

/** The last line of a battery's block, before the brace that closes it. */
function endOfBattery(cx: Lowering, all: Collected, name: string): LineStart | undefined {
  const battery = all.named.get(name[0] ?? '');
  const last = battery?.children.at(-1);
  const line = last && lineStart(cx, placeOf(cx, last).start);
  if (!line) return undefined;
  const end = cx.text.indexOf('\n', line.start);
  return end < 0 ? undefined : { start: end + 1, indent: line.indent };
}

/** The beginning of the line that a statement leads; undefined where others stand before it. */
function lineStart({ text }: Lowering, start: number): LineStart | undefined {
  const indent = /[^\n]*$/.exec(text.slice(0, start))?.[0] ?? '';
  return indent.trim() === '' ? { start: start - indent.length, indent } : undefined;
}
