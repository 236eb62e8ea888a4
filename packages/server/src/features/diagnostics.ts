import { allChecks } from '@setwright/checks';
import type { Finding, Severity } from '@setwright/circuit';
import {
  type Diagnostic,
  type DiagnosticRelatedInformation,
  DiagnosticSeverity,
  DiagnosticTag,
  type Range,
} from 'vscode-languageserver-protocol';
import type { Settings } from '../settings.ts';
import { locationOf } from '../text/library.ts';
import type { Snapshot } from '../text/snapshot.ts';
import { checkPageUri } from '../texts.ts';

const severities: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
};

/** Checks that find words which do nothing: editors show those faintly. */
const findsUseless: ReadonlySet<string> = new Set(['joined-twice', 'unused-post', 'unused-use']);

const known: ReadonlySet<string> = new Set(allChecks.map(({ id }) => id));

/** Findings that the user wants to be told of, with the severity that the settings give them. */
export function wantedFindings(
  findings: readonly Finding[],
  { checks }: Settings,
): readonly Finding[] {
  return findings.flatMap((finding) => {
    const set = checks.get(finding.check);
    if (set === 'off') return [];
    return [set === undefined ? finding : { ...finding, severity: set }];
  });
}

/** Findings as an editor shows them, in the same words as on the command line. */
export function diagnosticsOf(
  snapshot: Snapshot,
  findings: readonly Finding[],
  settings: Settings,
): readonly Diagnostic[] {
  return wantedFindings(findings, settings).map((finding) => {
    const { check, severity, message, why, cure } = finding;
    const related = relatedOf(snapshot, finding);
    return {
      range: visibleRange(snapshot, finding),
      severity: severities[severity],
      code: check,
      source: 'setwright',
      message: [message, why, cure].filter((each) => each !== '').join('\n'),
      data: { check },
      ...(known.has(check) ? { codeDescription: { href: checkPageUri(check) } } : {}),
      ...(findsUseless.has(check) ? { tags: [DiagnosticTag.Unnecessary] } : {}),
      ...(related.length > 0 ? { relatedInformation: [...related] } : {}),
    };
  });
}

function relatedOf(
  snapshot: Snapshot,
  { related }: Finding,
): readonly DiagnosticRelatedInformation[] {
  return related.flatMap(({ place, message }) => {
    const location = locationOf(snapshot, place);
    return location ? [{ location, message }] : [];
  });
}

const startOfFile: Range = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };

/** Where a finding stands; a place without width is widened to a letter so that it shows. */
function visibleRange(snapshot: Snapshot, { place }: Finding): Range {
  if (place.file !== snapshot.uri) return startOfFile;
  if (place.end > place.start) return snapshot.range(place);
  const { text } = snapshot;
  const isLetter = (at: number) => /\S/.test(text[at] ?? '');
  const start = isLetter(place.start) || !isLetter(place.start - 1) ? place.start : place.start - 1;
  return snapshot.range({ start, end: Math.min(text.length, start + 1) });
}
