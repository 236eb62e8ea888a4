import { allChecks, checkCircuit } from '@setwright/checks';
import type { Finding, Fix } from '@setwright/circuit';
import { readReceivers } from '@setwright/language';
import { describe, expect, it } from 'vitest';
import { faultySets } from './faulty-sets.ts';

/** Everything that reading and checking say of a text. */
function heard(text: string): readonly Finding[] {
  const { circuits, remarks } = readReceivers(text, 'fixed.receiver');
  return [...remarks, ...circuits.flatMap((c) => checkCircuit(c, allChecks).findings)];
}
describe('x', () => {
  it('dump', () => {
    const out: string[] = [];
    for (const { id, text } of faultySets) {
      const own = heard(text).filter(({ check }) => check === id);
      out.push(`===== ${id}  fixes ${own.map((f) => f.fixes.length).join(',')}`);
      if (own.some((f) => f.fixes.length === 0)) out.push(text);
      for (const f of own) out.push(`  ${f.severity}: ${f.message}\n     CURE ${f.cure}\n     parts ${f.parts.join(' ')} at ${JSON.stringify(text.slice(f.place.start, f.place.end))}`, ...f.fixes.map((x) => `     FIX ${x.title}`));
    }
    require('node:fs').writeFileSync('/tmp/helper-fixes/dump.txt', out.join('\n'));
  });
});
