import type { Finding } from '@setwright/circuit';
import type { Telling } from './check-run.ts';
import type { FileExamined, PartsAs } from './examine.ts';
import { rangeOf } from './place-lines.ts';
import { streamedList } from './streamed-json.ts';

/** For other programs. Ranges are those of the Language Server Protocol: from 0, UTF-16. */
export function jsonTelling(partsAs: PartsAs): Telling {
  const list = streamedList({ version: 1, parts: partsAs }, 'files', '');
  return {
    head: list.head,
    file: (file) => list.items([fileOf(file)]),
    end: ({ troubles, files, tally }) =>
      `${list.end({
        unreadable: troubles.map(({ path, cause, cure }) => ({ path, cause, cure })),
        summary: { files, ...tally },
      })}\n`,
  };
}

function fileOf(file: FileExamined) {
  return {
    path: file.path,
    findings: file.findings.map((finding) => findingOf(file, finding)),
    receivers: file.sets.map(({ title, supply, waiting, unreadLines, notRun, waived }) => ({
      title,
      supply,
      waiting,
      unreadLines,
      notRun,
      waived: waived.map(({ finding, waiver }) => ({
        ...findingOf(file, finding),
        reason: waiver.reason,
      })),
    })),
  };
}

function findingOf(file: FileExamined, finding: Finding) {
  const { check, severity, message, why, cure, place, related, parts, fixes } = finding;
  return {
    check,
    severity,
    message,
    why,
    cure,
    range: rangeOf(file, place),
    related: related.map((other) => ({
      path: other.place.file,
      range: rangeOf(file, other.place),
      message: other.message,
    })),
    parts,
    fixes: fixes.map(({ title, edits }) => ({
      title,
      edits: edits.map((edit) => ({
        path: edit.place.file,
        range: rangeOf(file, edit.place),
        newText: edit.text,
      })),
    })),
  };
}
