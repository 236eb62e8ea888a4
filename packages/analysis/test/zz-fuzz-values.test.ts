import { readdirSync, readFileSync } from 'node:fs';
import { readReceivers } from '@setwright/language';
import { it, expect } from 'vitest';
import { tunedCircuits, tunedAt, coilMatrix, tunedDial, dialTable, stationReadings } from '../src/index.ts';
const seen = new Set<string>();
function check(v: unknown, path = '', depth = 0): void {
  if (typeof v === 'number') { if (!Number.isFinite(v)) throw new Error('NaN at ' + path); return; }
  if (v && typeof v === 'object' && depth < 6) for (const [k, x] of Object.entries(v)) { if (k === 'part' || k === 'edge') continue; check(x, path + '.' + k, depth + 1); }
}
it('fuzz', () => {
  let seed = 7; const rnd = () => (seed = (seed * 1103515245 + 12345) % 2147483648) / 2147483648;
  let n = 0; let worst = 0;
  const t0 = performance.now();
  for (const file of readdirSync('examples').filter((f) => f.endsWith('.receiver'))) {
    const text = readFileSync(`examples/${file}`, 'utf8');
    for (let i = 0; i < 40; i++) {
      const lines = text.split('\n').filter(() => rnd() > 0.06);
      const words = lines.map((l) => l.split(' ').map((w) => rnd() < 0.02 ? ['0','-1','1e9','0 in','9999','.0000001', 'V1.grid', 'GND', 'B+67'][Math.floor(rnd() * 9)] : w).join(' '));
      for (const circuit of readReceivers(words.join('\n'), file).circuits) {
        const t1 = performance.now();
        const tuned = tunedCircuits(circuit);
        for (const t of tuned) { check(t); check(tunedAt(t, 1e6)); check(tunedAt(t, 0)); const d = tunedDial(circuit, t); if (d) check(dialTable(d)); }
        stationReadings(circuit, tuned, [1e6]);
        for (const p of circuit.parts) { const m = coilMatrix(circuit, p.name); if (m) check(m); if (m && m.kept < 1) seen.add('kept ' + m.kept); }
        worst = Math.max(worst, performance.now() - t1);
        n++;
      }
    }
  }
  console.log(n, worst, performance.now() - t0, [...seen]);
  expect(n).toBeGreaterThan(100);
});
