import { existsSync } from 'node:fs';
import { dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import { pathToFileURL } from 'node:url';
import { allChecks, type Check, pageOf } from '@setwright/checks';
import type { Finding, Place, Severity } from '@setwright/circuit';
import { libraryFile } from '@setwright/language';
import { printableJson } from '@setwright/report';
import type { CheckRun } from './check-run.ts';
import type { FileExamined } from './examine.ts';
import { fingerprint } from './fingerprint.ts';
import { rangeOf } from './place-lines.ts';
import { endOfLine } from './text-lines.ts';

const levels: Readonly<Record<Severity, string>> = {
  error: 'error',
  warning: 'warning',
  information: 'note',
  hint: 'note',
};

/**
 * SARIF 2.1.0, the format that code hosts take findings in. Paths are relative to the root of the
 * repository that the working folder lies in; fingerprints do not change when lines move.
 */
export function sarifReport(
  { files, troubles }: CheckRun,
  { cwd, version }: { readonly cwd: string; readonly version: string },
): string {
  const root = repositoryRoot(cwd);
  const rules = rulesFor(files);
  const places = { root, cwd };
  const log = {
    $schema: 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: { driver: { name: 'Setwright', semanticVersion: version, rules } },
        columnKind: 'utf16CodeUnits',
        originalUriBaseIds: {
          ROOT: { description: { text: 'The root of the repository.' } },
        },
        invocations: [
          {
            executionSuccessful: troubles.length === 0,
            toolExecutionNotifications: troubles.map(({ path, cause, cure }) => ({
              level: 'error',
              message: { text: `${path}: ${cause}. ${cure}` },
            })),
          },
        ],
        results: files.flatMap((file) => resultsOf(file, rules, places)),
      },
    ],
  };
  return `${printableJson(log)}\n`;
}

interface Rule {
  readonly id: string;
  readonly [key: string]: unknown;
}

/** A rule for each check, and for what is told while reading a text. */
function rulesFor(files: readonly FileExamined[]): Rule[] {
  const known = new Set(allChecks.map(({ id }) => id));
  const others = new Set(
    files
      .flatMap(({ findings }) => findings.map(({ check }) => check))
      .filter((id) => !known.has(id)),
  );
  return [
    ...allChecks.map(ruleOf),
    ...[...others]
      .sort()
      .map((id) => ({ id, shortDescription: { text: id.replaceAll('-', ' ') } })),
  ];
}

function ruleOf(check: Check): Rule {
  return {
    id: check.id,
    shortDescription: { text: check.summary },
    fullDescription: { text: check.why },
    help: { text: pageOf(check), markdown: pageOf(check) },
    defaultConfiguration: { level: levels[check.severity] },
    properties: { tags: [check.group] },
  };
}

interface Places {
  readonly root: string;
  readonly cwd: string;
}

function resultsOf(file: FileExamined, rules: readonly Rule[], places: Places) {
  const indexOf = new Map(rules.map(({ id }, index) => [id, index]));
  const seen = new Map<string, number>();
  return file.findings.map((finding) => {
    const { check, severity, message, why, cure, place, related, fixes } = finding;
    return {
      ruleId: check,
      ruleIndex: indexOf.get(check) ?? -1,
      level: levels[severity],
      message: { text: [message, why, cure].filter((words) => words !== '').join(' ') },
      locations: [{ physicalLocation: locationOf(file, place, places) }],
      relatedLocations: related
        .filter((other) => other.place.file !== libraryFile)
        .map((other, index) => ({
          id: index + 1,
          physicalLocation: locationOf(file, other.place, places),
          message: { text: other.message },
        })),
      partialFingerprints: { 'setwright/v1': fingerprintOf(file, finding, seen, places) },
      ...(fixes.length > 0
        ? {
            fixes: fixes.map(({ title, edits }) => ({
              description: { text: title },
              artifactChanges: edits.map((edit) => ({
                artifactLocation: artifactOf(edit.place.file, places),
                replacements: [
                  {
                    deletedRegion: regionOf(file, edit.place),
                    insertedContent: { text: edit.text },
                  },
                ],
              })),
            })),
          }
        : {}),
    };
  });
}

function locationOf(file: FileExamined, place: Place, places: Places) {
  return { artifactLocation: artifactOf(place.file, places), region: regionOf(file, place) };
}

function regionOf(file: FileExamined, place: Place) {
  const { start, end } = rangeOf(file, place);
  return {
    startLine: start.line + 1,
    startColumn: start.character + 1,
    endLine: end.line + 1,
    endColumn: end.character + 1,
  };
}

function artifactOf(path: string, { root, cwd }: Places) {
  const file = resolve(cwd, path);
  const inside = relative(root, file);
  return inside.startsWith('..') || isAbsolute(inside)
    ? { uri: pathToFileURL(file).href }
    : { uri: inside.split(sep).map(encodeURIComponent).join('/'), uriBaseId: 'ROOT' };
}

/** The same for the same finding on the same words, wherever in the file they stand. */
function fingerprintOf(
  file: FileExamined,
  { check, place }: Finding,
  seen: Map<string, number>,
  places: Places,
): string {
  const { line } = rangeOf(file, place).start;
  const { lines } = file;
  const words = lines.text.slice(lines.starts[line], endOfLine(lines, line)).trim();
  const base = [artifactOf(place.file, places).uri, check, words.replace(/\s+/g, ' ')].join('\n');
  const before = seen.get(base) ?? 0;
  seen.set(base, before + 1);
  return `${fingerprint(base)}:${before + 1}`;
}

/** The nearest folder upwards that holds a repository; the working folder where none does. */
function repositoryRoot(cwd: string): string {
  for (let folder = cwd; ; folder = dirname(folder)) {
    if (existsSync(join(folder, '.git'))) return folder;
    if (dirname(folder) === folder) return cwd;
  }
}
