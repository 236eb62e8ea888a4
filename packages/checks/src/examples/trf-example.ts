/** What the two-stage fixture may have otherwise. */
export interface TrfChanges {
  /** Lines that feed and bypass the radio plates. */
  readonly feed?: string;
  /** Where the radio plate windings lead. */
  readonly plates?: string;
  /** Where the radio grid windings return, and what is said of that point. */
  readonly returns?: string;
  readonly returnLines?: string;
}

/** Two radio stages and a detector, for the examples of checks. */
export function trfExample({
  feed = 'condenser C6 .5 mfd from B+67 to NEG',
  plates = 'B+67',
  returns = 'NEG',
  returnLines = '',
}: TrfChanges): string {
  return `receiver "Three Beacons" {
  tunes 550 kc to 1500 kc
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+45 45 V
    tap B+67 67.5 V
    resistance 30 ohms
  }
  battery C dry {
    tap C+
    tap C-1.5
  }
  post ANT aerial 250 mmfd
  post GND ground
  bus NEG
  wire B- to A- to C+ to NEG to GND
  rheostat RH1 20 ohms from A+ set 4 ohms
  rheostat RH2 20 ohms from A+ set 4 ohms
  rheostat RH3 20 ohms from A+ set 4 ohms
  ${feed}
  ${returnLines}
  radio stage RF1 {
    coil L1 {
      form 2 3/4 in
      winding aerial 10 turns of 26 DCC from GND to ANT
      winding grid 56 turns of 26 DCC beside aerial from ${returns}
    }
    condenser C1 variable 14 to 365 mmfd rotor to NEG stator to L1.grid.finish
    resistor R1 1500 ohms from L1.grid.finish to V1.grid
    tube V1 01-A {
      filament from NEG to RH1
    }
  }
  radio stage RF2 {
    coil L2 {
      form 2 3/4 in
      winding plate 7 turns of 26 DCC from V1.plate to ${plates}
      winding grid 56 turns of 26 DCC beside plate from ${returns}
    }
    condenser C2 variable 14 to 365 mmfd rotor to NEG stator to L2.grid.finish
    resistor R2 1500 ohms from L2.grid.finish to V2.grid
    tube V2 01-A {
      filament from NEG to RH2
    }
  }
  detector stage DET {
    coil L3 {
      form 2 3/4 in
      winding plate 7 turns of 26 DCC from V2.plate to ${plates}
      winding grid 56 turns of 26 DCC beside plate from NEG
    }
    condenser C3 variable 14 to 365 mmfd rotor to NEG stator to L3.grid.finish
    condenser C4 .00025 mfd from L3.grid.finish to V3.grid
    leak R3 2 meg from V3.grid to A+
    tube V3 01-A {
      filament from NEG to RH3
    }
    condenser C5 .001 mfd from V3.plate to NEG
    phones PH1 2000 ohms from V3.plate to B+45
  }
}
`;
}
