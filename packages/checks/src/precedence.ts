import type { Finding, Severity } from '@setwright/circuit';
import { worse } from './finding.ts';

/**
 * Who speaks first, the most basic first. A finding is dropped when one that stands before it here
 * speaks of one of the same parts. Checks that are not listed neither silence nor are silenced.
 */
const order: readonly string[] = [
  'plate-voltage-on-filament',
  'control-shorts-battery',
  'battery-shorted',
  'batteries-in-parallel',
  'blocks-oppose',
  'battery-reversed',
  'batteries-unjoined',
  'socket-mirrored',
  'screen-and-grid-swapped',
  'plate-voltage-on-grid',
  'filament-open',
  'filament-over-voltage',
  'grid-condenser-without-leak',
  'grid-without-dc-return',
  'plate-without-supply',
  'grid-return-side',
  'grid-biased-positive',
  'bias-out-of-step',
  'tube-over-current',
];

const rank = new Map(order.map((id, index) => [id, index]));

/**
 * One fault, one finding: drops those that a more basic finding on the same parts explains. A
 * milder finding never silences a graver one: a limit worth knowing is no excuse for a fault.
 */
export function byPrecedence(findings: readonly Finding[]): Finding[] {
  // For every part the lowest rank that has spoken of it, by how grave the finding is.
  const spoken = new Map<string, Map<Severity, number>>();
  for (const { check, parts, severity } of findings) {
    const at = rank.get(check);
    if (at === undefined) continue;
    for (const part of parts) {
      const here = spoken.get(part) ?? new Map<Severity, number>();
      here.set(severity, Math.min(at, here.get(severity) ?? at));
      spoken.set(part, here);
    }
  }
  return findings.filter(({ check, parts, severity }) => {
    const at = rank.get(check);
    if (at === undefined) return true;
    return !parts.some((part) =>
      [...(spoken.get(part) ?? [])].some(
        ([other, first]) => first < at && worse(other, severity) <= 0,
      ),
    );
  });
}
