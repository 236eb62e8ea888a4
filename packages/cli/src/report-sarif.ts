import { existsSync } from 'node:fs';
import { dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import { pathToFileURL } from 'node:url';
import { allChecks, type Check, pageOf } from '@setwright/checks';
import type { Finding, Place, Severity } from '@setwright/circuit';
import { libraryFile } from '@setwright/language';
import type { RunSummary, Telling } from './check-run.ts';
import type { FileExamined } from './examine.ts';
import { fingerprint } from './fingerprint.ts';
import { rangeOf } from './place-lines.ts';
import { streamedList } from './streamed-json.ts';
import { endOfLine } from './text-lines.ts';

const levels: Readonly<Record<Severity, string>> = {
  error: 'error',
  warning: 'warning',
  information: 'note',
  hint: 'note',
};

/**
 * SARIF 2.1.0, the format that code hosts take findings in. Paths are relative to the root of the
 * repository that the working folder lies in; fingerprints do not change when lines move. The rules
 * stand behind the results, since a result may speak of something that no check is named for.
 */
export function sarifTelling({
  cwd,
  version,
}: {
  readonly cwd: string;
  readonly version: string;
}): Telling {
  const places = { root: repositoryRoot(cwd), cwd };
  const rules = rulesOfRun();
  const schema =
    'https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json';
  const run = streamedList(
    {
      columnKind: 'utf16CodeUnits',
      originalUriBaseIds: { ROOT: { description: { text: 'The root of the repository.' } } },
    },
    'results',
    '    ',
  );
  return {
    head: `{\n  "$schema": "${schema}",\n  "version": "2.1.0",\n  "runs": [\n    ${run.head}`,
    file: (file) => run.items(resultsOf(file, rules, places)),
    end: ({ troubles }) =>
      `${run.end({
        tool: { driver: { name: 'Setwright', semanticVersion: version, rules: rules.all } },
        invocations: [invocationOf(troubles)],
      })}\n  ]\n}\n`,
  };
}

function invocationOf(troubles: RunSummary['troubles']) {
  return {
    executionSuccessful: troubles.length === 0,
    toolExecutionNotifications: troubles.map(({ path, cause, cure }) => ({
      level: 'error',
      message: { text: `${path}: ${cause}. ${cure}` },
    })),
  };
}

interface Rule {
  readonly id: string;
  readonly [key: string]: unknown;
}

/** The rules of a log, each at its place in the list. */
interface Rules {
  readonly all: readonly Rule[];
  indexOf(id: string): number;
}

/** A rule for each check, and for what else is told while texts are read, as it comes. */
function rulesOfRun(): Rules {
  const all = allChecks.map(ruleOf);
  const indices = new Map(all.map(({ id }, index) => [id, index]));
  return {
    all,
    indexOf: (id) => {
      const known = indices.get(id);
      if (known !== undefined) return known;
      indices.set(id, all.length);
      all.push({ id, shortDescription: { text: id.replaceAll('-', ' ') } });
      return all.length - 1;
    },
  };
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

function resultsOf(file: FileExamined, rules: Rules, places: Places) {
  const seen = new Map<string, number>();
  return file.findings.map((finding) => {
    const { check, severity, message, why, cure, place, related, fixes } = finding;
    return {
      ruleId: check,
      ruleIndex: rules.indexOf(check),
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
