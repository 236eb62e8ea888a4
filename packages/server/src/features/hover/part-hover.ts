import {
  isSupply,
  type Part,
  partKinds,
  type TracePath,
  terminalName,
  traceDirectCurrent,
} from '@setwright/circuit';
import type { UnitStyle, ValueRow } from '@setwright/report';
import { formatQuantity } from '@setwright/units';
import { plainWords } from '../../text/markdown.ts';
import { endIdOf, type Named, partOf } from '../../text/names.ts';
import { circuitOf, type HoverSource, type KnownValues, valuesFor } from './source.ts';
import { valueList } from './value-list.ts';

const cautions = {
  known: '',
  older: '_Numbers of the text as it last could be read._',
  doubtful: '_Lines of this set cannot be read: its numbers may be far out._',
} as const;

/** What a part is in a sentence, and its numbers. */
export function partHover(source: HoverSource, receiver: number, name: string): string | undefined {
  const circuit = circuitOf(source, receiver);
  const part = circuit?.partNamed.get(name);
  if (!circuit || !part) return undefined;
  const known = valuesFor(source, receiver, hasSignal(part) ? 'allValues' : 'values');
  const told = known ? numbersOf(part, known, source.units) : '';
  return joined([
    `**${plainWords(part.name)}**, ${plainWords(whatItIs(part))}`,
    sentenceOf(part),
    statedOf(part, source.units),
    told,
    told !== '' && known ? cautions[known.are] : '',
  ]);
}

/** Parts of which it is told what they make of a signal. */
const hasSignal = ({ kind }: Part): boolean =>
  kind === 'tube' || kind === 'post' || kind === 'loop' || kind === 'crystal';

/** What a part is in one plain line: `V1, tube 01-A "first amplifier", in stage RF1`. */
export function spokenPart(part: Part): string {
  return `${part.name}, ${whatItIs(part)}`;
}

function whatItIs({ kind, typeName, title, owner, stage }: Part): string {
  const noun = `${partKinds[kind].noun}${typeName === undefined ? '' : ` ${typeName}`}`;
  const whose = owner === undefined ? '' : ` of ${owner}`;
  const called = title === undefined ? '' : ` “${title}”`;
  return `${noun}${whose}${called}${stage === undefined ? '' : `, in stage ${stage}`}`;
}

function sentenceOf(part: Part): string {
  const { kind, tubeType, words } = part;
  const { sentence, atDirectCurrent, atRadioFrequency } = partKinds[kind];
  const own = [...words].filter((word) => word.length > 2).join(', ');
  const said = own === '' ? sentence : sentence.replace(/\.$/, `: ${own}.`);
  if (kind === 'tube' && tubeType)
    return `${plainWords(begun(tubeType.title ?? 'a vacuum tube'))}. At direct current ${plainWords(atDirectCurrent)}.`;
  const isPoint = atDirectCurrent === 'is one point';
  if (isPoint || kind === 'coil' || kind === 'transformer' || isSupply(part))
    return plainWords(said);
  return `${plainWords(said)} At direct current it ${plainWords(atDirectCurrent)}; at radio frequency it ${plainWords(atRadioFrequency)}.`;
}

const begun = (words: string): string => `${words.charAt(0).toUpperCase()}${words.slice(1)}`;

/** What follows from what the text states outright: the step-up of a transformer, a dead part. */
function statedOf({ values, kind, words }: Part, units: UnitStyle): string {
  const out: string[] = [];
  const { ratio, found } = values;
  if (kind === 'transformer' && ratio)
    out.push(
      `- step-up **${formatQuantity(ratio.value, 'ratio')} times**`,
      `  because the ratio of turns is stated: ${plainWords(ratio.text)}`,
    );
  if (found)
    out.push(
      `- found on the bench **${plainWords(formatQuantity(found.value, found.dimension, units))}**`,
    );
  for (const state of ['found open', 'found short'])
    if (words.has(state)) out.push(`- ${state} on the bench`);
  return out.join('\n');
}

/** Rows of a part: its own, and those of what it tunes. */
function rowsOf(part: Part, { values }: KnownValues): readonly ValueRow[] {
  const own = values.parts.filter((each) => each.part === part.name).flatMap(({ rows }) => rows);
  if (part.kind === 'coil' || part.kind === 'transformer') {
    const windings = values.parts.filter(({ part: name }) => name.startsWith(`${part.name}.`));
    const first = windings.flatMap(({ rows }) =>
      rows.filter(
        ({ quantity, part: name }) => quantity === 'inductance' && name.startsWith(`${part.name}.`),
      ),
    );
    return [...first, ...own];
  }
  if (part.kind !== 'condenser') return own;
  const tuned = values.parts.flatMap(({ rows }) =>
    rows.filter(({ to, quantity }) => to === part.name && isOfTuning.has(quantity)),
  );
  return [...tuned, ...own];
}

const isOfTuning: ReadonlySet<string> = new Set([
  'lowest-frequency',
  'highest-frequency',
  'longest-wavelength',
  'shortest-wavelength',
]);

function numbersOf(part: Part, known: KnownValues, units: UnitStyle): string {
  const rows = rowsOf(part, known);
  const tuned = rows.find(({ to, quantity }) => to === part.name && isOfTuning.has(quantity));
  const list = valueList(rows, tuned?.part ?? part.name, units);
  return tuned ? `Tunes ${plainWords(tuned.part)}:\n\n${list}` : list;
}

/** A terminal or tap: what meets there, what stands on it, which way direct current goes. */
export function endHover(source: HoverSource, named: Named): string | undefined {
  const circuit = circuitOf(source, named.receiver);
  const part = circuit && partOf(circuit, named);
  const end = circuit?.endNamed.get(endIdOf(circuit, named.name));
  if (!circuit || !part || !end) return undefined;
  const called = (id: string): string => terminalName(id, circuit.partOfEnd.get(id));
  const others = (circuit.junctions[end.junction]?.terminals ?? []).filter((id) => id !== end.id);
  const meets =
    others.length === 0
      ? 'Nothing is joined here.'
      : `Meets ${others.slice(0, 12).map(called).join(', ')}${others.length > 12 ? ' and more' : ''}.`;
  const known = valuesFor(source, named.receiver);
  const rows = known ? rowsOfEnd(part, end.name, known) : [];
  const noun = isSupply(part)
    ? `tap of the ${partKinds[part.kind].noun} ${part.name}`
    : `${end.name} of ${spokenPart(part)}`;
  return joined([
    `**${plainWords(called(end.id))}**, ${plainWords(noun)}`,
    plainWords(meets),
    valueList(rows, isSupply(part) ? end.name : part.name, source.units),
    rows.length > 0 && known ? cautions[known.are] : '',
    traceDirectCurrent(circuit, end.id).slice(0, 2).map(pathLine).join('\n\n'),
  ]);
}

const quantitiesOfEnds: Readonly<Record<string, readonly string[]>> = {
  grid: ['bias', 'grid-current'],
  plate: ['plate-voltage', 'plate-current', 'dissipation'],
  screen: ['screen-voltage', 'screen-current'],
  'filament-': ['filament-voltage', 'filament-current'],
  'filament+': ['filament-voltage', 'filament-current'],
};

function rowsOfEnd(part: Part, end: string, { values }: KnownValues): readonly ValueRow[] {
  const own = values.parts.filter((each) => each.part === part.name).flatMap(({ rows }) => rows);
  if (isSupply(part)) return own.filter((row) => row.part === end);
  if (part.kind !== 'tube') return [];
  const wanted = quantitiesOfEnds[end] ?? [];
  return own.filter(({ quantity }) => wanted.includes(quantity));
}

/** A way of direct current in one line. */
function pathLine({ heading, steps, blocked }: TracePath): string {
  const ways = steps.map(({ part, because }) => `${part} (${because})`);
  const way = ways.length === 0 ? 'straight' : `by ${ways.join(', then ')}`;
  const stop = blocked ? `; there it stops: ${blocked.because}` : '';
  return plainWords(`Direct current, ${heading}: ${way}${stop}.`);
}

/** Pieces of Markdown with room between them. */
export function joined(pieces: readonly string[]): string {
  return pieces.filter((piece) => piece !== '').join('\n\n');
}
