import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { allChecks, checkCircuit } from '@setwright/checks';
import { readReceivers } from '@setwright/language';
import { describe, expect, it } from 'vitest';
import { faultySets } from './faulty-sets.ts';

const folder = join(import.meta.dirname, '../../examples/faulty');
const grave = ['error', 'warning'];

describe('the faulty sets in examples/faulty', () => {
  it('are one for each check, as its file says (npm run faulty writes them)', () => {
    const names = readdirSync(folder)
      .filter((name) => name.endsWith('.receiver'))
      .sort();
    expect(names).toEqual(faultySets.map(({ id }) => `${id}.receiver`).sort());
    for (const { id, text } of faultySets)
      expect(readFileSync(join(folder, `${id}.receiver`), 'utf8')).toBe(text);
  });

  it.each(allChecks.map(({ id }) => id))(
    '%s: its own fault, and at most one more that follows',
    (id) => {
      const text = readFileSync(join(folder, `${id}.receiver`), 'utf8');
      const { circuits, remarks } = readReceivers(text, id);
      const found = circuits.flatMap((circuit) => checkCircuit(circuit, allChecks).findings);
      expect(found.map(({ check }) => check)).toContain(id);
      const others = [...remarks, ...found].filter(
        ({ check, severity }) => check !== id && grave.includes(severity),
      );
      expect(others.length).toBeLessThanOrEqual(1);
    },
  );
});
