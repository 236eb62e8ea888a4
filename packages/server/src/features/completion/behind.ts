import type { Circuit, Part } from '@setwright/circuit';
import { nameOfFile, type Pattern } from '@setwright/language';
import { CompletionItemKind } from 'vscode-languageserver-protocol';
import type { BlockKind } from '../../words/statements.ts';
import type { Entry } from './entry.ts';
import { partsThat, taps, terminals } from './targets.ts';

/** Words behind which a terminal is named. */
const wantsTerminal: ReadonlySet<string> = new Set(['from', 'to', 'across', 'breaks', 'makes']);

/** Words of a suppose that act on a part or terminal. */
const actsOnPart: ReadonlySet<string> = new Set([
  'open',
  'short',
  'leaky',
  'weak',
  'gas',
  'change',
  'set',
  'remove',
  'reverse',
  'swap',
  'join',
  'damped',
  'plug',
  'intermittent',
  'microphonic',
]);

/** What a line may name. */
export interface Nameable {
  readonly circuit: Circuit | undefined;
  readonly patterns: ReadonlyMap<string, Pattern>;
}

/**
 * What may stand behind the word that leads a detail, or behind a comma that goes on with it;
 * undefined where no such word comes before.
 *
 * @param words the statement up to the cursor
 * @param owner the name of what the block belongs to
 */
export function detailsBehind(
  words: readonly string[],
  block: BlockKind,
  { circuit, patterns }: Nameable,
  prefix: string,
  owner: string | undefined,
): readonly Entry[] | undefined {
  const head = words[0] ?? '';
  const last = words.at(-1);
  const lead = last === ',' ? leadOf(words) : last;
  if (lead === undefined) return undefined;
  const only = enumerated(head, lead, block);
  if (only) return only;
  if (lead === 'like' && !circuit) return patternEntries(patterns, head);
  if (!circuit) return wantsTerminal.has(lead) ? [] : undefined;
  const parts = (suits: (part: Part) => boolean) => partsThat(circuit, suits);
  const siblings = (): readonly Entry[] =>
    partsThat(
      circuit,
      (part) => part.owner === owner,
      ({ name }) => name.slice((owner ?? '').length + 1),
    );
  switch (lead) {
    case 'beside':
    case 'over':
    case 'inside':
    case 'coupling':
      return siblings();
    case 'with':
      return head === 'coupling' ? siblings() : terminals(circuit, prefix);
    case 'into':
      return parts(({ kind }) => kind === 'jack');
    case 'around':
      return parts(({ kind }) => kind !== 'post' && kind !== 'bus' && kind !== 'shield');
    case 'through':
      return parts(({ kind, ends }) => ends.length >= 2 && kind !== 'tube');
    case 'like':
      return [...parts(({ kind }) => kind === head), ...patternEntries(patterns, head)];
    case 'drives':
      return [
        ...circuit.gangs.map(({ name }) => ({
          label: name,
          kind: CompletionItemKind.Variable,
          detail: 'gang',
        })),
        ...parts(isTurned),
      ];
    case 'set':
      return head === 'selector'
        ? positionsOf(circuit, words[1])
        : settings(head, block, circuit, prefix);
    case 'earthed':
      return taps(circuit, owner);
    case 'actual':
      return taps(circuit);
    case 'click':
      return parts(({ kind }) => kind === 'tube');
    case 'dial':
      return block === 'bench' ? dialsOf(circuit) : undefined;
    case 'wire':
    case 'reading':
      return terminals(circuit, prefix);
    default:
      if (head === 'gang' && words.length > 1 && (last === ',' || words.length === 2))
        return parts(({ kind, words: said }) => kind === 'condenser' && said.has('variable'));
      if (words.length === 1 && block === 'suppose' && actsOnPart.has(lead))
        return terminals(circuit, prefix);
      if (!wantsTerminal.has(lead)) return undefined;
      // Between two numbers `to` leads no terminal.
      if (lead === 'to' && isInRange(words)) return [];
      return terminals(circuit, prefix);
  }
}

/** Patterns of a kind, by the files that they stand in. */
function patternEntries(patterns: ReadonlyMap<string, Pattern>, head: string): readonly Entry[] {
  return [...patterns.values()].flatMap(({ name, kind, title, place }) =>
    kind === head
      ? [
          {
            label: name,
            kind: CompletionItemKind.Variable,
            detail: [title, `pattern in ${nameOfFile(place.file)}`].filter(Boolean).join(', '),
          },
        ]
      : [],
  );
}

/** The word that leads the list that a comma goes on with. */
function leadOf(words: readonly string[]): string | undefined {
  const leads = ['from', 'to', 'around', 'drives', 'into'];
  return words.findLast((word) => leads.includes(word)) ?? words[0];
}

function isInRange(words: readonly string[]): boolean {
  const isNumber = (word: string | undefined): boolean => /^[-+\u2212]?[\d.]/.test(word ?? '');
  const before = words.at(-2);
  const tapped = words.includes('tap') || words.includes('taps');
  return !tapped && (isNumber(before) || isNumber(words.at(-3)));
}

const isTurned = ({ kind, words }: Part): boolean =>
  (kind === 'condenser' && words.has('variable')) ||
  kind === 'rheostat' ||
  kind === 'potentiometer' ||
  kind === 'winding' ||
  kind === 'variometer' ||
  kind === 'selector';

function settings(
  head: string,
  block: BlockKind,
  circuit: Circuit,
  prefix: string,
): readonly Entry[] {
  if (block === 'suppose' && head === 'set') return terminals(circuit, prefix);
  return head === 'rheostat' ? words(['off']) : [];
}

function positionsOf(circuit: Circuit, name: string | undefined): readonly Entry[] {
  return words(circuit.partNamed.get(name ?? '')?.positions ?? []);
}

function dialsOf(circuit: Circuit): readonly Entry[] {
  return circuit.dials.map(({ name, drives }) => ({
    label: name,
    kind: CompletionItemKind.Variable,
    detail: `dial of ${drives.join(', ')}`,
  }));
}

/** Words of which one stands behind another. */
function enumerated(head: string, lead: string, block: BlockKind): readonly Entry[] | undefined {
  switch (lead) {
    case 'law':
      return words(['capacity', 'wavelength', 'frequency']);
    case 'found':
      return words(['open', 'short']);
    case 'at':
      return head === 'winding' ? words(['start', 'finish', 'centre']) : undefined;
    case 'rotor':
    case 'stator':
    case 'arm':
    case 'mineral':
    case 'whisker':
    case 'tip':
    case 'sleeve':
    case 'positive':
    case 'negative':
    case 'start':
    case 'finish':
    case 'frame':
      return words(['to']);
    case 'centre':
      return words(['to']);
    case 'return':
      return block === 'type' ? words(['A+', 'A-']) : undefined;
    case 'capacitance':
    case 'limit':
      return words(['grid', 'plate', 'screen', 'filament']);
    case 'tubes':
      return words(['out', 'in']);
    default:
      return undefined;
  }
}

function words(all: readonly string[]): readonly Entry[] {
  return all.map((label) => ({ label, kind: CompletionItemKind.EnumMember }));
}
