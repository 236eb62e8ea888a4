import { quickChecks } from '@setwright/checks';
import { formatText } from '@setwright/language';
import { plainStyles } from '@setwright/report';
import { toldOf } from './check-run.ts';
import { examine } from './examine.ts';
import { processStreams } from './process-streams.ts';
import { run } from './program.ts';
import { readSource } from './read-source.ts';
import { textTelling } from './report-text.ts';
import { findSources } from './sources.ts';
import type { Streams } from './streams.ts';

const sample = `receiver "Warming up" {
  year 1926
  tunes 550 kc to 1500 kc
  battery A storage { tap A- 0 V tap A+ 6 V capacity 100 Ah }
  battery B dry { tap B- tap B+45 45 V tap B+90 90 V resistance 30 ohms }
  battery C dry { tap C+ tap C-4.5 }
  post ANT "aerial" aerial 250 mmfd
  post GND "ground" ground
  bus NEG "negative filament bus"
  wire B- to A- to C+ to GND
  switch S1 "battery switch" from A- to NEG closed
  rheostat RH1 "rheostat" 10 ohms from NEG set 2 ohms
  detector stage DET {
    coil L1 "coil" {
      form 2 3/4 in
      winding aerial 12 turns of 26 DCC taps 4, 8 from GND
      winding grid 56 turns of 26 DCC beside aerial spaced 1/4 in from GND
    }
    selector S2 from ANT to L1.aerial.tap4, L1.aerial.finish set tap4
    condenser C1 variable 14 to 365 mmfd rotor to L1.grid.start stator to L1.grid.finish
    condenser C2 .00025 mfd 20 % from L1.grid.finish to V1.grid
    leak R1 2 meg from V1.grid to A+
    tube V1 01-A { filament from RH1 to A+ }
    condenser C3 .001 mfd from V1.plate to NEG
  }
  output stage AF {
    transformer T1 ratio 1 to 3.5 {
      winding primary 14 H 800 ohms from V1.plate to B+45
      winding secondary 5200 ohms from C-4.5 to V2.grid
    }
    tube V2 01-A { filament from RH1 to A+ plate to P1.start }
    phones P1 2000 ohms to B+90
  }
  condenser C4 like C3 { meant joined-twice "example" }
  gang G1 C1
  dial D1 0 to 100 drives G1
  bench "first power-up" {
    meter 1000 ohms per volt 2 %
    actual B+45 44 V
    reading V1.plate 42 V on 50 V
    reading T1.primary 830 ohms lifted
  }
  suppose "bypass open" { open C3 }
}
`;

/**
 * Makes ready what every run needs: the parser, the tube library, and the functions themselves,
 * which are compiled at their first call. Writes nothing.
 */
export function warmUp(): void {
  const nowhere = { write: () => {} };
  const streams: Streams = { ...processStreams(), out: nowhere, err: nowhere };
  for (let round = 0; round < 3; round += 1) {
    const files = [
      examine('sample.receiver', sample, 'written'),
      examine('broken.receiver', sample.replace('bus NEG', 'bas NEG'), 'found'),
    ];
    // Every quick check on the sets that it speaks of, so that little is left to compile.
    for (const { fails, passes } of quickChecks)
      for (const text of [fails, passes]) examine('sample.receiver', text, 'written');
    toldOf(textTelling('written', plainStyles), files);
    formatText(sample);
    run(['explain', 'grid'], streams);
    run(['--help'], streams);
    // Any file will do to make ready for reading one.
    for (const source of findSources(process.argv.slice(1, 2), '/').sources) readSource(source);
  }
}
