import type { Severity } from '@setwright/circuit';
import { list, naming, plain, say, table, telling, writing } from '../cells.ts';
import type { SheetSection } from '../sheet.ts';
import type { SheetGrounds } from '../sheet-grounds.ts';

const order: readonly Severity[] = ['error', 'warning', 'information', 'hint'];

/** What the checks have found and nobody has settled yet, the worst first. */
export function findingsSection({ findings }: SheetGrounds): SheetSection {
  const sorted = order.flatMap((severity) =>
    findings.filter((finding) => finding.severity === severity),
  );
  return {
    id: 'findings',
    heading: 'Findings still open',
    blocks:
      sorted.length === 0
        ? [say('The checks find nothing.')]
        : table(
            undefined,
            [
              naming('Weight'),
              telling('what is found'),
              telling('why it matters'),
              telling('what to do'),
              telling('check'),
              writing('settled'),
            ],
            sorted.map(({ severity, message, why, cure, check }) => [
              plain(severity),
              plain(message),
              plain(why),
              plain(cure),
              plain(check),
              plain(''),
            ]),
          ),
  };
}

/** What is meant so, whatever a check says, with the reason. */
export function waiversSection({ circuit, waived }: SheetGrounds): SheetSection | undefined {
  const { waivers } = circuit;
  if (waivers.length === 0) return undefined;
  return {
    id: 'meant',
    heading: 'Meant to be so',
    blocks: table(
      undefined,
      [naming('Check'), telling('where'), telling('reason'), telling('what it would say')],
      waivers.map((waiver) => [
        plain(waiver.check),
        plain(waiver.within ?? 'the whole set'),
        plain(waiver.reason),
        plain(
          waived
            .filter((each) => each.waiver === waiver)
            .map(({ finding }) => finding.message)
            .join(' ') || 'nothing, as the set is written',
        ),
      ]),
    ),
  };
}

/** The notes of the text, word by word. */
export function notesSection({ circuit }: SheetGrounds): SheetSection | undefined {
  if (circuit.notes.length === 0) return undefined;
  return {
    id: 'notes',
    heading: 'Notes',
    blocks: [list(circuit.notes.map(({ text }) => text))],
  };
}
