import { readdirSync, readFileSync } from 'node:fs';
import { readReceivers } from '@setwright/language';
import { it } from 'vitest';
import type { Check } from '../src/check.ts';
import { checkCircuit } from '../src/run.ts';
const mine = ['grid-without-dc-return','grid-condenser-without-leak','plate-without-supply','grid-return-side','grid-biased-positive','grid-condenser-bypassed','plate-voltage-on-grid','lost-in-some-position','socket-mirrored','crystal-without-dc-path','push-pull-in-step'];
it('scratch', async () => {
  const all: Check[] = [];
  for (const f of readdirSync('packages/checks/src/checks')) {
    try {
      const m = await import('../src/checks/' + f);
      for (const v of Object.values(m)) if (v && typeof v === 'object' && 'find' in v) all.push(v as Check);
    } catch (e) { console.log('cannot load', f, String(e).slice(0, 100)); }
  }
  const my = all.filter((c) => mine.includes(c.id));
  console.log(all.length, my.length);
  const run = (label: string, text: string, checks = my) => {
    const c = readReceivers(text, 't.receiver').circuits[0]!;
    console.log('##', label, ...c.remarks.map((r) => r.message));
    for (const f of checkCircuit(c, checks).findings) if (mine.includes(f.check)) console.log('   ', f.check, f.severity, f.message, '|', f.cure);
  };
  const ex = (n: string) => readFileSync(`examples/${n}.receiver`, 'utf8');
  for (const f of readdirSync('examples').filter((x) => x.endsWith('.receiver'))) run(f, readFileSync('examples/' + f, 'utf8'), all);
  const five = ex('five-tube-trf');
  run('C battery gone, names undefined', five.replace(/ {2}battery C dry \{[^}]*\}\n/, '  post C+\n  post C-4.5\n').replace('to C+ to GND', 'to GND to C+'));
  run('M24 all mirrored V3', five.replace('to V3.grid', 'to V3.plate').replace('V3.grid to A+', 'V3.plate to A+').replace('from V3.plate to NEG', 'from V3.grid to NEG').replace('from V3.plate to B+45', 'from V3.grid to B+45').replace('tube V3 01-A {\n      filament from RH2 to A+', 'tube V3 01-A {\n      filament from A+ to RH2'));
  run('M25 V5', five.replace('from C-4.5 to V5.grid', 'from C-4.5 to V5.plate').replace('plate to LS1', 'grid to LS1'), all);
  run('B- not joined', five.replace('wire B- to A- to C+', 'wire A- to C+'), all);
  run('C+ not joined', five.replace('to A- to C+ to GND', 'to A- to GND'), all);
  run('C reversed', five.replace('tap C-4.5', 'tap C-4.5 4.5 V'), all);
  run('A+ coil', five.replace('winding grid 56 turns of 26 DCC beside aerial spaced 1/4 in from GND', 'winding grid 56 turns of 26 DCC beside aerial spaced 1/4 in from A+'), all);
  run('no ground', five.replace('to C+ to GND', 'to C+'), all);
  run('T1.B open', five.replace('from V3.plate to B+45', 'from V3.plate'), all);
  run('A leads swapped', five.replace('from A- to NEG closed', 'from A+ to NEG closed').replaceAll('to A+\n', 'to A-\n').replace('wire B- to A- to', 'wire B- to'), all);
  run('bare, leak wrong', ex('bare-wiring').replace('wire R1.finish to A+', 'wire R1.finish to NEG'), all);
  run('bare, T2.F open', ex('bare-wiring').replace('wire T2.F to C-4.5', ''), all);
  run('bare mirrored V2', ex('bare-wiring').replace('wire T1.G to V2.grid', 'wire T1.G to V2.plate').replace('wire V2.plate to T2.P', 'wire V2.grid to T2.P'), all);
  run('reflex C3 only', ex('reflex').replace('from C-4.5 to L1.grid.start', 'from C-4.5'), all);
  run('resistance C6 wire', ex('resistance-coupled').replace('condenser C6 "first coupling condenser" .006 mfd 200 V from V2.plate to V3.grid', 'wire V2.plate to V3.grid'), all);
  run('push-pull same half', ex('push-pull').replace('centre to C-40.5 from V4.grid to V5.grid', 'from C-40.5 to V5.grid').replace('tube V4 71-A {', 'tube V4 71-A {\n grid to V5.grid'), all);
  run('two-tube J2 lost', ex('two-tube').replace('jack J1 "detector jack" from CH1.finish to B+45 through T1.primary', 'jack J1 "detector jack" from CH1.finish through T1.primary'), all);
  run('heater leak to A+', ex('heater-tubes').replace('from V3.grid to V3.cathode', 'from V3.grid to A+'), all);
  run('switch drawn off', five.replace('from A- to NEG closed', 'from A- to NEG open'), all);
  run('crystal', ex('crystal').replace('phones PH1 "head telephones" 2000 ohms from TEL1 to TEL2', 'phones PH1 2000 ohms from TEL3 to TEL2\n post TEL3 phones\n condenser C9 .01 mfd from TEL1 to TEL3'), all);
});
