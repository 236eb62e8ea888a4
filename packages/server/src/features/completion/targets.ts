import { type Circuit, isSupply, type Part, partKinds } from '@setwright/circuit';
import { CompletionItemKind } from 'vscode-languageserver-protocol';
import { spokenPart } from '../hover/part-hover.ts';
import type { Entry } from './entry.ts';

/** With more terminals than this the ends of parts are offered behind a dot only. */
const MOST_ENDS = 500;

/** Terminals that a line may name: of one part behind its dot, else all. */
export function terminals(circuit: Circuit, prefix: string): readonly Entry[] {
  const dot = prefix.lastIndexOf('.');
  const owner = dot < 0 ? undefined : prefix.slice(0, dot);
  if (owner !== undefined && circuit.partNamed.has(owner)) return endsOf(circuit, owner);
  const names = circuit.parts.flatMap((part) => shortNames(part));
  const ends = circuit.parts.flatMap((part) => (isWhole(part) ? [] : endEntries(part)));
  return [...names, ...(ends.length <= MOST_ENDS ? ends : [])];
}

/** Parts that may be named, by what they are. */
export function partsThat(
  circuit: Circuit,
  suits: (part: Part) => boolean,
  calling: (part: Part) => string = ({ name }) => name,
): readonly Entry[] {
  return circuit.parts.flatMap((part) =>
    part.kind !== 'lead' && suits(part)
      ? [{ label: calling(part), kind: CompletionItemKind.Variable, detail: spokenPart(part) }]
      : [],
  );
}

/** Taps of all supplies, or of one. */
export function taps(circuit: Circuit, supply?: string): readonly Entry[] {
  return circuit.parts.flatMap((part) =>
    isSupply(part) && (supply === undefined || part.name === supply) ? tapEntries(part) : [],
  );
}

const isWhole = (part: Part): boolean =>
  isSupply(part) || part.kind === 'post' || part.kind === 'bus' || part.kind === 'lead';

/** A part by its own name, where that means a terminal; of a supply its taps. */
function shortNames(part: Part): readonly Entry[] {
  if (isSupply(part)) return tapEntries(part);
  if (part.kind === 'lead' || part.kind === 'coil' || part.kind === 'transformer') return [];
  const kind =
    part.kind === 'post' || part.kind === 'bus'
      ? CompletionItemKind.Interface
      : CompletionItemKind.Variable;
  return [{ label: part.name, kind, detail: spokenPart(part) }];
}

function tapEntries(part: Part): readonly Entry[] {
  return part.supplyTaps.map(({ end, volts }) => ({
    label: end,
    kind: CompletionItemKind.Constant,
    detail: `tap of ${part.name}${volts === undefined ? '' : `, ${volts} V`}`,
  }));
}

function endEntries(part: Part): readonly Entry[] {
  return part.ends.map(({ name, id, joins }) => ({
    label: id,
    kind: CompletionItemKind.Field,
    detail: `${name} of ${spokenPart(part)}${joins.length === 0 ? ', not joined yet' : ''}`,
  }));
}

/** Ends of a part, and windings of a coil with their ends. */
function endsOf(circuit: Circuit, name: string): readonly Entry[] {
  const part = circuit.partNamed.get(name);
  if (!part) return [];
  const windings = circuit.parts.filter(({ owner }) => owner === name);
  const stamped =
    part.kind === 'transformer' && !part.words.has('air')
      ? letters.map(([letter, meaning]) => ({
          label: `${name}.${letter}`,
          kind: CompletionItemKind.Field,
          detail: `stamped letter: ${meaning}`,
        }))
      : [];
  return [
    ...windings.map((winding) => ({
      label: winding.name,
      kind: CompletionItemKind.Variable,
      detail: partKinds[winding.kind].noun,
    })),
    ...windings.flatMap(endEntries),
    ...(part.kind === 'tube'
      ? [
          {
            label: `${name}.filament`,
            kind: CompletionItemKind.Field,
            detail: 'its negative end',
          },
        ]
      : []),
    ...endEntries(part),
    ...stamped,
  ];
}

const letters = [
  ['P', 'start of the primary'],
  ['B', 'finish of the primary'],
  ['F', 'start of the secondary'],
  ['G', 'finish of the secondary'],
] as const;
