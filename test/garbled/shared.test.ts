import { describeGarblingOf } from './garbling.ts';

const coils = `coil ANT1 "antenna coupler" {
  form 3 in
  winding aerial 10 turns of 24 DCC
  winding grid 46 turns of 24 DCC beside aerial spaced 1/4 in
}
`;

const set = `// A set with patterns of its own and of another file.
use "parts/coils.receiver"

tube type 77-Q "as measured" {
  filament 5 V .25 A
  amplification 8
}

condenser BYPASS .001 mfd 20 %

transformer AF "first audio" ratio 1 to 3.5 {
  winding primary 14 H 800 ohms
  winding secondary 5200 ohms
}

receiver "Pier Light" {
  tunes 550 kc to 1500 kc
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+45 45 V
  }
  battery C dry {
    tap C+
    tap C-4.5
  }
  post ANT aerial
  post GND ground
  wire B- to A- to C+ to GND
  rheostat RH1 20 ohms from A- set 4 ohms
  detector stage DET {
    coil L1 like ANT1 {
      winding aerial from GND to ANT
      winding grid from GND
    }
    condenser C1 variable 14 to 365 mmfd rotor to L1.grid.start stator to L1.grid.finish
    condenser C2 .00025 mfd from L1.grid.finish to V1.grid
    leak R1 2 meg from V1.grid to A+
    tube V1 77-Q {
      filament from RH1 to A+
    }
    condenser C3 like BYPASS from V1.plate to A-
  }
  output stage AF1 {
    transformer T1 like AF {
      winding primary from V1.plate to B+45
      winding secondary from C-4.5 to V2.grid
    }
    tube V2 01-A {
      filament from RH1 to A+
    }
    phones PH1 2000 ohms from V2.plate to B+45
  }
}
`;

describeGarblingOf('a set that uses a file', set, {
  used: (file) => (file === 'parts/coils.receiver' ? { text: coils } : undefined),
});
