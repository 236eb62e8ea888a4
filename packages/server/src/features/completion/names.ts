import type { Circuit, PartKindName } from '@setwright/circuit';
import { CompletionItemKind } from 'vscode-languageserver-protocol';
import type { Entry } from './entry.ts';

/** Letters that parts of a kind are called by. Common practice. */
const letters: Readonly<Record<string, string>> = {
  coil: 'L',
  transformer: 'T',
  variometer: 'L',
  loop: 'LP',
  tube: 'V',
  condenser: 'C',
  resistor: 'R',
  leak: 'R',
  rheostat: 'RH',
  potentiometer: 'P',
  ballast: 'BL',
  choke: 'CH',
  phones: 'PH',
  horn: 'H',
  speaker: 'SP',
  crystal: 'X',
  switch: 'S',
  selector: 'S',
  lamp: 'LA',
  fuse: 'F',
  shield: 'SH',
  jack: 'J',
  gang: 'G',
  dial: 'D',
} satisfies Partial<Record<PartKindName | 'gang' | 'dial', string>>;

/** The first name of these letters that nothing in the set has: `C7`. */
export function freeName(circuit: Circuit | undefined, letter: string): string {
  for (let number = 1; ; number++) {
    const name = `${letter}${number}`;
    const isTaken =
      circuit?.partNamed.has(name) ||
      circuit?.gangs.some((gang) => gang.name === name) ||
      circuit?.dials.some((dial) => dial.name === name) ||
      circuit?.stages.some((stage) => stage.name === name);
    if (!isTaken) return name;
  }
}

/** What a new part of a kind may be called. */
export function newNames(circuit: Circuit | undefined, word: string): readonly Entry[] {
  const fixed: Readonly<Record<string, readonly string[]>> = {
    battery: ['A', 'B', 'C'],
    post: ['ANT', 'GND', 'LS1', 'LS2'],
    bus: ['NEG'],
  };
  const letter = letters[word];
  const free = letter === undefined ? [] : [freeName(circuit, letter)];
  const names = fixed[word]?.filter((name) => !circuit?.partNamed.has(name)) ?? free;
  return names.map((label) => ({
    label,
    kind: CompletionItemKind.Variable,
    detail: 'a name that is free',
  }));
}
