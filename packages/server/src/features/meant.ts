import { allChecks } from '@setwright/checks';
import type { Circuit, Finding, Part } from '@setwright/circuit';
import { blockFrom } from '../text/blocks.ts';
import type { Edit } from '../text/edits.ts';
import type { Snapshot } from '../text/snapshot.ts';

const ofReading: ReadonlySet<string> = new Set(
  allChecks.flatMap(({ id, group }) => (group === 'Reading the text' ? [id] : [])),
);

/** Whether a finding may be said to be meant: what cannot be read may not. */
export function isWaivable({ check, severity }: Finding): boolean {
  return !(ofReading.has(check) && severity === 'error');
}

/**
 * Writes a `meant` line for a finding where it stands: into the block of the part that it speaks
 * of, which gets one if it has none, else into that of the set. Nothing where neither can be found.
 */
export function meantEdits(snapshot: Snapshot, finding: Finding): readonly Edit[] {
  const { blocks, names, file, text } = snapshot;
  // What stands outside any set is told of with the first.
  const circuit = file.circuits[Math.max(0, names.receiverAt(finding.place.start))];
  if (!circuit) return [];
  const part = partAt(circuit, finding);
  const block = blockFrom(blocks, (part ?? circuit).place.start);
  if (!block) return [];
  const line = `meant ${finding.check} "say here why"`;
  const indent = indentOf(text, block.start);
  const newline = text.includes('\r\n') ? '\r\n' : '\n';
  if (block.open === undefined) {
    if (!part) return [];
    const added = ` {${newline}${indent}  ${line}${newline}${indent}}`;
    return [{ start: block.headEnd, end: block.headEnd, text: added }];
  }
  const after = block.open + 1;
  const isOnOneLine = !/[\r\n]/.test(text.slice(block.open, block.end));
  const added = isOnOneLine ? ` ${line}` : `${newline}${indent}  ${line}`;
  return [{ start: after, end: after, text: added }];
}

/** The part that a finding stands at; of a winding the coil or transformer, which has the block. */
function partAt(circuit: Circuit, { parts, place }: Finding): Part | undefined {
  const named = parts.flatMap((name) => circuit.partNamed.get(name) ?? []);
  const at =
    named.find((part) => part.place.start <= place.start && place.start < part.place.end) ??
    named[0];
  const whole = at?.owner === undefined ? at : (circuit.partNamed.get(at.owner) ?? at);
  return whole?.kind === 'lead' ? undefined : whole;
}

/** The space that a line begins with. */
export function indentOf(text: string, offset: number): string {
  const start =
    Math.max(text.lastIndexOf('\n', offset - 1), text.lastIndexOf('\r', offset - 1)) + 1;
  return /^[ \t]*/.exec(text.slice(start, offset))?.[0] ?? '';
}
