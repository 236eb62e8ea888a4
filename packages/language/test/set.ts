import type { Circuit, End, Finding, Part } from '@setwright/circuit';
import { readReceivers } from '../src/receivers.ts';

/** A receiver with these lines in it; an A battery comes first, so that there are names to join. */
export function textOf(body: string): string {
  return `receiver "Test" {
battery A storage {
  tap A- 0 V
  tap A+ 6 V
}
${body}
}
`;
}

/** The circuit of the first receiver of a text. */
export function circuitOf(text: string): Circuit {
  const circuit = readReceivers(text, 'test.receiver').circuits[0];
  if (!circuit) throw new Error('the text of this test holds no receiver');
  return circuit;
}

/** The circuit of a receiver with these lines in it. */
export const setOf = (body: string): Circuit => circuitOf(textOf(body));

/** The one part of this name. */
export function partOf(circuit: Circuit, name: string): Part {
  const part = circuit.partNamed.get(name);
  if (!part) throw new Error(`there is no part ${name}`);
  return part;
}

function endOf(circuit: Circuit, terminal: string): End {
  const end = circuit.endNamed.get(terminal);
  if (!end) throw new Error(`there is no terminal ${terminal}`);
  return end;
}

/** Whether terminals are joined to one point. */
export function areJoined(circuit: Circuit, ...terminals: string[]): boolean {
  return new Set(terminals.map((terminal) => endOf(circuit, terminal).junction)).size === 1;
}

/** A part's values by slot, in SI. */
export const valuesOf = (part: Part): Record<string, number> =>
  Object.fromEntries(Object.entries(part.values).map(([slot, { value }]) => [slot, value]));

/** Everything found while a text was read. */
export function remarksOf(text: string): readonly Finding[] {
  const file = readReceivers(text, 'test.receiver');
  return [...file.remarks, ...file.circuits.flatMap(({ remarks }) => remarks)];
}

/** What is found in a receiver with these lines: `id @ the words it points at`. */
export function told(body: string): string[] {
  const text = textOf(body);
  return remarksOf(text).map(
    ({ check, place }) => `${check} @ ${text.slice(place.start, place.end)}`,
  );
}

/** The text after a fix of its only finding. */
export function afterFix(text: string, which = 0): string {
  const fix = remarksOf(text)[0]?.fixes[which];
  if (!fix) throw new Error('there is no such fix');
  return [...fix.edits]
    .sort((a, b) => b.place.start - a.place.start)
    .reduce(
      (now, { place, text: put }) => now.slice(0, place.start) + put + now.slice(place.end),
      text,
    );
}
