import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { readReceivers } from '@setwright/language';
import { it } from 'vitest';
import { operatingPoint } from '../src/index.ts';
it('try', () => {
  const folder = join(import.meta.dirname, '../../../examples');
  const laws = new WeakMap();
  for (const f of readdirSync(folder).filter((x) => x.endsWith('.receiver'))) {
    for (const c of readReceivers(readFileSync(join(folder, f), 'utf8'), f).circuits) {
      const op = operatingPoint(c, undefined, { laws });
      console.log(f, op.converged, op.iterations, JSON.stringify(op.failures));
      for (const t of op.tubes) console.log(' ', t.tube, t.type, 'Vf', t.filamentVolts?.value.toFixed(3), 'If', t.filamentAmperes?.value.toFixed(4), 'Eg', t.bias?.value.toFixed(3), 'free', t.freeGrid?.value.toFixed(2), 'Ep', t.plateVolts?.value.toFixed(2), 'Es', t.screenVolts?.value.toFixed(1), 'Ip mA', ((t.plateCurrent?.value ?? NaN) * 1e3).toFixed(3), 'Is', ((t.screenCurrent?.value ?? NaN) * 1e3).toFixed(3), 'Ig uA', ((t.gridCurrent?.value ?? NaN) * 1e6).toFixed(4), 'gm', ((t.transconductance?.value ?? NaN) * 1e6).toFixed(0), 'rp', t.plateResistance?.value.toFixed(0), 'mu', t.amplification?.value.toFixed(2), t.nearest?.point.plateVolts, t.nearest?.ratio.toFixed(2));
      for (const s of op.supplies) console.log(' ', s.supply, s.taps.map((t) => `${t.tap} ${t.volts?.value.toFixed(2)} V ${((t.amperes?.value ?? NaN) * 1e3).toFixed(3)} mA`).join('; '), 'hours', s.hours?.value.toFixed(0));
      console.log('  ', JSON.stringify(op.controls), JSON.stringify(op.taken));
    }
    const c = readReceivers(readFileSync(join(folder, f), 'utf8'), f).circuits[0]!;
    const b: number[] = [];
    for (let i = 0; i < 200; i++) { const t0 = performance.now(); operatingPoint(c, undefined, { laws }); b.push(performance.now() - t0); }
    b.sort((x, y) => x - y);
    console.log('   ms', b[0]!.toFixed(3), b[100]!.toFixed(3));
  }
});
import { bigSet } from '../../../test/support/big-set.ts';
it('big', () => {
  const laws = new WeakMap();
  for (const n of [100, 300, 1000, 3000]) {
    const c = readReceivers(bigSet(n), 'x').circuits[0]!;
    let best = 1e9; let its = 0;
    for (let i = 0; i < 3; i++) { const t0 = performance.now(); const op = operatingPoint(c, undefined, { laws }); best = Math.min(best, performance.now() - t0); its = op.iterations; }
    console.log(n, best.toFixed(1), its);
  }
});
