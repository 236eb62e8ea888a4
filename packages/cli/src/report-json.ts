import type { Finding } from '@setwright/circuit';
import { printableJson } from '@setwright/report';
import type { CheckRun } from './check-run.ts';
import { type FileExamined, tallyOf } from './examine.ts';
import { rangeOf } from './place-lines.ts';

/** For other programs. Ranges are those of the Language Server Protocol: from 0, UTF-16. */
export function jsonReport({ files, troubles, partsAs }: CheckRun): string {
  const report = {
    version: 1,
    parts: partsAs,
    files: files.map(fileOf),
    unreadable: troubles.map(({ path, cause, cure }) => ({ path, cause, cure })),
    summary: { files: files.length, ...tallyOf(files) },
  };
  return `${printableJson(report)}\n`;
}

function fileOf(file: FileExamined) {
  return {
    path: file.path,
    findings: file.findings.map((finding) => findingOf(file, finding)),
    receivers: file.sets.map(({ title, supply, waiting, unreadLines, waived }) => ({
      title,
      supply,
      waiting,
      unreadLines,
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
