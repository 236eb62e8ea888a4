import type { Finding } from '@setwright/circuit';

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

/** One fault, one finding: drops those that a more basic finding on the same parts explains. */
export function byPrecedence(findings: readonly Finding[]): Finding[] {
  const spokenFor = new Map<string, number>();
  for (const { check, parts } of findings) {
    const at = rank.get(check);
    if (at === undefined) continue;
    for (const part of parts) spokenFor.set(part, Math.min(at, spokenFor.get(part) ?? at));
  }
  return findings.filter(({ check, parts }) => {
    const at = rank.get(check);
    return at === undefined || !parts.some((part) => (spokenFor.get(part) ?? at) < at);
  });
}
