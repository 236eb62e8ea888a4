import type { Circuit, Fix, Part } from '@setwright/circuit';
import { writableTap } from '../grids/grid-home.ts';
import { nameOf } from '../words/finding.ts';

/*
 * Fixes as changes to the text. A check sees places and no text, so a new line is put ahead of a
 * statement, where no block and no remark at the end of the line can be in its way.
 */

/** The fix that writes another amount where a part's own line says one; none where it says none. */
export function revalued(part: Part | undefined, slot: string, text: string): readonly Fix[] {
  const value = part?.values[slot];
  if (!part || !value || !isOwn(part, value.place)) return [];
  return [{ title: `Make ${part.name} ${text}`, edits: [{ place: value.place, text }] }];
}

/** An amount that came by `like` stands on another part's line, and would change that one too. */
function isOwn({ place }: Part, { file, start, end }: Part['place']): boolean {
  return file === place.file && start >= place.start && end <= place.end;
}

/** The fix that adds a line ahead of a part's statement, as far in as it stands. */
export function withLine(circuit: Circuit, part: Part, title: string, line: string): Fix {
  const whole = (part.owner === undefined ? undefined : circuit.partNamed.get(part.owner)) ?? part;
  const indent = whole.stage === undefined ? '  ' : '    ';
  const place = { ...whole.place, end: whole.place.start };
  return { title, edits: [{ place, text: `${line}\n${indent}` }] };
}

/** The first name of a letter and a number that no part of the set has. */
function freeName(circuit: Circuit, letter: string): string {
  let number = 1;
  while (circuit.partNamed.has(`${letter}${number}`)) number++;
  return `${letter}${number}`;
}

/** Whether the text can lead a part's end to something by this name. */
export function isWritable(circuit: Circuit, name: string): boolean {
  return circuit.endNamed.has(name) || circuit.partNamed.has(name) || writableTap(circuit, name);
}

/**
 * The fix that adds a part of two ends, ahead of the statement of another.
 *
 * @param what kind and size, such as `condenser` and `.006 mfd`
 */
export function bridged(
  circuit: Circuit,
  near: Part,
  what: { readonly kind: string; readonly letter: string; readonly size: string },
  from: string | undefined,
  to: string | undefined,
): readonly Fix[] {
  if (from === undefined || to === undefined || from === to) return [];
  if (!isWritable(circuit, from) || !isWritable(circuit, to)) return [];
  const name = freeName(circuit, what.letter);
  const line = `${what.kind} ${name} ${what.size} from ${from} to ${to}`;
  return [
    withLine(circuit, near, `Add a ${what.kind} of ${what.size} from ${from} to ${to}`, line),
  ];
}

/** The fix that adds a bypass condenser. */
export function bypassed(
  circuit: Circuit,
  near: Part,
  size: string,
  from: string | undefined,
  to: string | undefined,
): readonly Fix[] {
  return bridged(circuit, near, { kind: 'condenser', letter: 'C', size }, from, to);
}

/** The fix that exchanges the ohms of two parts that stand in each other's place. */
export function valuesExchanged(a: Part, b: Part): readonly Fix[] {
  const [one, other] = [a.values.resistance, b.values.resistance];
  if (!one || !other) return [];
  const edits = [...revalued(a, 'resistance', other.text), ...revalued(b, 'resistance', one.text)];
  if (edits.length < 2) return [];
  return [
    { title: `Exchange ${a.name} and ${b.name}`, edits: edits.flatMap((fix) => [...fix.edits]) },
  ];
}

/**
 * The fix that gives a winding so many turns, or, where its own line tells no turns, an inductance.
 *
 * @param turns undefined where they cannot be reckoned
 */
export function rewound(
  winding: Part | undefined,
  turns: number | undefined,
  inductance?: string,
): readonly Fix[] {
  const said = winding?.winding?.turns ?? winding?.values.turns;
  if (!winding || !said) return inductance ? revalued(winding, 'inductance', inductance) : [];
  if (turns === undefined || !isOwn(winding, said.place)) return [];
  const text = said.text.replace(/^\s*\d+(\.\d+)?/, String(turns));
  if (text === said.text || !text.startsWith(String(turns))) return [];
  return [{ title: `Give ${winding.name} ${turns} turns`, edits: [{ place: said.place, text }] }];
}

/** The fix that puts a fixed condenser into the first lead of a variable one. */
export function inSeries(circuit: Circuit, variable: Part, size: string): readonly Fix[] {
  const name = freeName(circuit, 'C');
  for (const end of variable.ends) {
    const joins = circuit.joins.filter(({ from, to }) => from === end.id || to === end.id);
    const [join] = joins;
    if (!join || joins.length > 1 || join.from !== end.id) continue;
    if (['wire', 'across', 'frame'].includes(join.said) || !isWritable(circuit, join.to)) continue;
    const line = `condenser ${name} ${size} to ${nameOf(circuit, join.to)}`;
    const added = withLine(circuit, variable, '', line);
    return [
      {
        title: `Put ${size} in series with ${variable.name}`,
        edits: [...added.edits, { place: join.place, text: `${name}.start` }],
      },
    ];
  }
  return [];
}
