/** What the neutralized fixture may have otherwise. */
export interface NeutralizedChanges {
  /** The neutralizing condenser's range. */
  readonly range?: string;
  /** How the plate winding is joined. */
  readonly plateEnds?: string;
  /** Where the neutralizing condenser leads. */
  readonly from?: string;
}

/** A small neutralized set, for the examples of checks. */
export function neutralizedExample({
  range = '2 to 15 mmfd',
  plateEnds = 'from V1.plate to B+67',
  from = 'L2.grid.tap7',
}: NeutralizedChanges): string {
  return `receiver "Ferry Slip" {
  tunes 550 kc to 1500 kc
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+45 45 V
    tap B+67 67.5 V
  }
  post ANT aerial 250 mmfd
  post GND ground
  wire B- to A- to GND
  rheostat RH1 20 ohms from A- set 4 ohms
  rheostat RH2 20 ohms from A- set 4 ohms
  radio stage RF1 {
    coil L1 {
      form 3 in
      winding grid 51 turns of 26 DCC from GND
      winding aerial 8 turns of 30 DSC over grid at start from GND to ANT
    }
    condenser C1 variable 15 to 365 mmfd rotor to GND stator to L1.grid.finish
    tube V1 01-A {
      filament from RH1 to A+
      grid to L1.grid.finish
    }
    condenser CN1 neutralizing ${range} from V1.grid to ${from}
  }
  detector stage DET {
    coil L2 {
      form 3 in
      winding grid 51 turns of 26 DCC tap 7 from GND
      winding plate 7 turns of 30 DSC over grid at start ${plateEnds}
    }
    condenser C2 variable 15 to 365 mmfd rotor to GND stator to L2.grid.finish
    condenser C3 .00025 mfd from L2.grid.finish to V2.grid
    leak R1 3 meg from V2.grid to A+
    tube V2 01-A {
      filament from RH2 to A+
    }
    condenser C4 .001 mfd from V2.plate to GND
    condenser C5 .5 mfd from B+67 to GND
    phones PH1 2000 ohms from V2.plate to B+45
  }
}
`;
}
