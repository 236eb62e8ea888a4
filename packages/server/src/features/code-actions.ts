import type { Finding } from '@setwright/circuit';
import { commands } from '@setwright/webview';
import {
  type CodeAction,
  type CodeActionContext,
  CodeActionKind,
  type Range,
} from 'vscode-languageserver-protocol';
import type { Settings } from '../settings.ts';
import { editsOf, workspaceEdit } from '../text/edits.ts';
import type { Snapshot } from '../text/snapshot.ts';
import { diagnosticsOf, wantedFindings } from './diagnostics.ts';
import { fixAllEdits, mayFixAll } from './fix-all.ts';
import { isWaivable, meantEdits } from './meant.ts';

/** What the client asks code actions for. */
export interface ActionRequest {
  readonly range: Range;
  readonly only: CodeActionContext['only'];
  /** Whether the client asks for the edit of an action when it is chosen. */
  readonly resolves: boolean;
}

const fixAllKind = `${CodeActionKind.SourceFixAll}.setwright`;

/** What can be done about the findings at a place, and about all of them. */
export function codeActionsAt(
  snapshot: Snapshot,
  findings: readonly Finding[],
  settings: Settings,
  { range, only, resolves }: ActionRequest,
): CodeAction[] {
  const wants = (kind: string): boolean =>
    only === undefined || only.some((each) => kind === each || kind.startsWith(`${each}.`));
  const actions: CodeAction[] = [];
  if (wants(CodeActionKind.QuickFix)) {
    const start = snapshot.offset(range.start);
    const end = snapshot.offset(range.end);
    for (const finding of wantedFindings(findings, settings)) {
      const { place } = finding;
      if (place.file !== snapshot.uri || place.start > end || place.end < start) continue;
      actions.push(...actionsFor(snapshot, finding, settings));
    }
  }
  // Finding out what can be mended takes its time: only when it is asked for.
  if (wants(fixAllKind) && (only !== undefined || resolves) && mayFixAll(findings)) {
    const action = {
      title: 'Fix all that leaves no choice',
      kind: fixAllKind,
      data: { fixAll: snapshot.uri },
    };
    if (resolves) actions.push(action);
    else actions.push(...fixAllAction(action, snapshot, settings));
  }
  return actions;
}

/** An action with its edit, where there is anything to do. */
export function fixAllAction(
  action: CodeAction,
  snapshot: Snapshot,
  settings: Settings,
): readonly CodeAction[] {
  const edits = fixAllEdits(snapshot, settings);
  return edits.length === 0 ? [] : [{ ...action, edit: workspaceEdit(snapshot, edits) }];
}

function actionsFor(snapshot: Snapshot, finding: Finding, settings: Settings): CodeAction[] {
  const { check, fixes } = finding;
  const diagnostics = [...diagnosticsOf(snapshot, [finding], settings)];
  const kind = CodeActionKind.QuickFix;
  const mending = fixes.flatMap((fix, index): CodeAction[] => {
    const edits = editsOf(snapshot, fix);
    if (!edits) return [];
    const edit = workspaceEdit(snapshot, edits);
    const preferred = index === 0 && fixes.length === 1 ? { isPreferred: true } : {};
    return [{ title: fix.title, kind, diagnostics, edit, ...preferred }];
  });
  const meant = isWaivable(finding) ? meantEdits(snapshot, finding) : [];
  return [
    ...mending,
    ...(meant.length > 0
      ? [
          {
            title: `This is on purpose: meant ${check}`,
            kind,
            diagnostics,
            edit: workspaceEdit(snapshot, meant),
          },
        ]
      : []),
    {
      title: `Explain ${check}`,
      kind,
      diagnostics,
      command: {
        title: `Explain ${check}`,
        command: commands.explain,
        arguments: [check],
      },
    },
  ];
}
