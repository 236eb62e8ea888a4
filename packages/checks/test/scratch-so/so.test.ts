import { readdirSync, readFileSync } from 'node:fs';
import { operatingPoint, stability, smallSignal } from '@setwright/analysis';
import { asOn } from '@setwright/circuit';
import { readReceivers } from '@setwright/language';
import { test } from 'vitest';
const folder = new URL('./examples/', 'file:///work/main/');
test('x', () => {
  for (const f of readdirSync(folder).filter((n) => n.endsWith('.receiver'))) {
    const text = readFileSync(new URL(f, folder), 'utf8');
    const texts: [string,string][] = [[f,text]];
    if (f.startsWith('five-tube')) texts.push([f+' shorted', text + '']);
    for (const [n,t] of texts) for (const circuit of readReceivers(t, n).circuits) {
      const p = operatingPoint(circuit, asOn(circuit).settings);
      for (const quality of [100, undefined]) {
        const t0 = performance.now();
        const s = stability(circuit, p, quality ? { quality } : {});
        console.log(n, circuit.title, quality, s.verdict, Math.round(performance.now() - t0), 'ms',
          s.stations.map((x) => `${Math.round(x.frequency/1e3)}:${x.aligned.unmeant}/${x.worst.modes.unmeant} [${x.worst.modes.modes[0]?.tubes}]`).join(' '), 'audio', s.audio.unmeant, s.neutralized.map((x)=>x.condenser+x.farads).join());
        if (!quality) console.log(JSON.stringify(smallSignal(circuit,p).lacks), circuit.stages.map(s=>s.name+':'+s.roles.join('+')).join(' '));
      }
    }
  }
}, 300000);
