import type { Severity } from '@setwright/circuit';
import type { UnitStyle } from '@setwright/report';
import { type HintKind, hintKinds } from '@setwright/webview';

/** What the user has set, under `setwright`. */
export interface Settings {
  /** By the id of a check: how grave its findings are, or that they are not told. */
  readonly checks: ReadonlyMap<string, Severity | 'off'>;
  readonly hints: ReadonlySet<HintKind>;
  readonly units: UnitStyle;
}

export const usualSettings: Settings = {
  checks: new Map(),
  hints: new Set(hintKinds),
  units: 'period',
};

const severities = ['error', 'warning', 'information', 'hint', 'off'] as const;

/** Settings as a client sends them; what is not understood stays as usual. */
export function settingsFrom(sent: unknown): Settings {
  if (!isFields(sent)) return usualSettings;
  const checks = new Map<string, Severity | 'off'>();
  if (isFields(sent.checks))
    for (const [id, wanted] of Object.entries(sent.checks)) {
      const severity = severities.find((each) => each === wanted);
      if (severity) checks.set(id, severity);
    }
  const { hints } = sent;
  return {
    checks,
    hints: new Set(hintKinds.filter((kind) => !(isFields(hints) && hints[kind] === false))),
    units: sent.units === 'si' ? 'si' : 'period',
  };
}

function isFields(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
