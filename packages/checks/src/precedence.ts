import type { Finding, Severity } from '@setwright/circuit';
import { worse } from './words/finding.ts';

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
  'ballast-does-not-suit',
  'series-string-uneven',
  'filament-over-voltage',
  'filament-under-voltage',
  'grid-condenser-without-leak',
  'grid-without-dc-return',
  'plate-without-supply',
  'grid-condenser-bypassed',
  'grid-return-side',
  'grid-biased-positive',
  'bias-out-of-step',
  'tube-over-current',
  'plate-over-voltage',
  'resistor-over-dissipation',
  'rheostat-over-dissipation',
  'transformer-over-current',
  'drain-when-off',
  'battery-drain',
];

const rank = new Map(order.map((id, index) => [id, index]));

/** Findings that say better what another would say of the same part. */
const saidBetter: Readonly<Record<string, readonly string[]>> = {
  'detector-on-amplifier-tap': ['plate-over-voltage'],
  'band-not-covered': ['dials-disagree'],
  // A battery that no grid hangs on is the cause of what its tubes draw.
  'bias-out-of-step': ['c-battery-idle'],
  'tube-over-current': ['c-battery-idle'],
  'c-battery-idle': [
    'isolated-parts',
    'batteries-unjoined',
    'battery-shorted',
    'grid-return-side',
    'grid-biased-positive',
  ],
  'dangling-end': [
    'grid-without-dc-return',
    'grid-condenser-without-leak',
    'plate-without-supply',
    'screen-without-supply',
    'cathode-without-return',
    'filament-open',
    'crystal-without-dc-path',
  ],
};

/**
 * One fault, one finding: drops those that a more basic finding on the same parts explains. A
 * milder finding never silences a graver one: a limit worth knowing is no excuse for a fault.
 */
export function byPrecedence(findings: readonly Finding[]): Finding[] {
  // For every part the lowest rank that has spoken of it, by how grave the finding is.
  const spoken = new Map<string, Map<Severity, number>>();
  const partsOf = new Map<string, Set<string>>();
  for (const { check, parts, severity } of findings) {
    const told = partsOf.get(check) ?? new Set<string>();
    for (const part of parts) told.add(part);
    partsOf.set(check, told);
    const at = rank.get(check);
    if (at === undefined) continue;
    for (const part of parts) {
      const here = spoken.get(part) ?? new Map<Severity, number>();
      here.set(severity, Math.min(at, here.get(severity) ?? at));
      spoken.set(part, here);
    }
  }
  return findings.filter(({ check, parts, severity }) => {
    const isSaidBetter = saidBetter[check]?.some((better) =>
      parts.some((part) => partsOf.get(better)?.has(part)),
    );
    if (isSaidBetter) return false;
    const at = rank.get(check);
    if (at === undefined) return true;
    return !parts.some((part) =>
      [...(spoken.get(part) ?? [])].some(
        ([other, first]) => first < at && worse(other, severity) <= 0,
      ),
    );
  });
}
