import {
  type Circuit,
  type Finding,
  isFilamentSupply,
  isSupply,
  type Place,
  positionOf,
  type SupplyPath,
  supplyReachingFilament,
  terminalName,
} from '@setwright/circuit';
import { listed, putRight } from '@setwright/report';
import { positionAt, type TextLines } from './text-lines.ts';

/** The first question of all: can B reach a filament? */
export interface SupplyAnswer {
  readonly answer: 'can-reach' | 'cannot-reach' | 'cannot-tell' | 'no-b-supply' | 'no-filament';
  /** In words, without the name of the set. */
  readonly sentence: string;
  /** The way, where there is one. */
  readonly path?: {
    readonly tap: string;
    readonly tube: string;
    readonly terminal: string;
    readonly through: readonly string[];
  };
}

/**
 * Whether plate voltage can get to a filament at any position of any control. Lines that could not
 * be read may hide a wire: with any, a way that is there is told of, but none is ruled out.
 */
export function supplyAnswer(
  circuit: Circuit,
  outside: readonly Finding[],
  lines: TextLines,
): SupplyAnswer {
  const reach = supplyReachingFilament(circuit);
  if (reach.reaches) return reaching(circuit, reach);
  const unread = [
    ...circuit.unread,
    ...outside.flatMap(({ severity, place }) => (severity === 'error' ? place : [])),
  ];
  if (unread.length > 0) {
    const numbers = unread.map((place: Place) => positionAt(lines, place.start).line + 1);
    return {
      answer: 'cannot-tell',
      sentence: `it cannot be told whether B can reach a filament until ${putRight(numbers)}.`,
    };
  }
  if (!circuit.parts.some((part) => isSupply(part) && !isFilamentSupply(part)))
    return { answer: 'no-b-supply', sentence: 'there is no B supply that could reach a filament.' };
  if (!circuit.parts.some((part) => part.kind === 'tube'))
    return { answer: 'no-filament', sentence: 'there is no filament that B could reach.' };
  const [unsure] = reach.through;
  if (unsure) {
    const by = throughParts(circuit, unsure);
    return {
      answer: 'cannot-tell',
      sentence: `${tapName(circuit, unsure)} comes to the filament of ${unsure.tube} through ${listed(by)}, whose resistance the text does not say: it cannot be told whether B can harm a filament until it does.`,
      path: wayOf(circuit, unsure, by),
    };
  }
  if (!reach.exhaustive) {
    return {
      answer: 'cannot-tell',
      sentence:
        'it cannot be told whether B can reach a filament: there are too many positions to try. Try the set in parts.',
    };
  }
  return {
    answer: 'cannot-reach',
    sentence: 'B cannot reach a filament at any position of its switches, jacks or controls.',
  };
}

function reaching(circuit: Circuit, path: SupplyPath): SupplyAnswer {
  const by = throughParts(circuit, path);
  const supply = circuit.partOfEnd.get(path.tap);
  const how = by.length > 0 ? ` through ${listed(by)}` : '; it is wired straight to it';
  const cure =
    supply?.kind === 'eliminator'
      ? `do not switch ${supply.name} on`
      : `do not connect the ${supply?.name ?? 'B'} battery`;
  return {
    answer: 'can-reach',
    sentence: `${tapName(circuit, path)} CAN reach the filament of ${path.tube}${how}: ${cure}.`,
    path: wayOf(circuit, path, by),
  };
}

function wayOf(circuit: Circuit, path: SupplyPath, through: readonly string[]) {
  const { tube, terminal } = path;
  return { tap: tapName(circuit, path), tube, terminal, through };
}

function tapName(circuit: Circuit, { tap }: SupplyPath): string {
  return terminalName(tap, circuit.partOfEnd.get(tap));
}

/** The parts on the way, controls with the position they stand at for it. */
function throughParts(circuit: Circuit, path: SupplyPath): string[] {
  const names = [...new Set(path.steps.map((step) => step.part))];
  return names.map((name) => {
    const part = circuit.partNamed.get(name);
    const position = part?.positions[positionOf(part, path.settings)];
    return part && part.contacts.length > 0 && position ? `${name} (${position})` : name;
  });
}
