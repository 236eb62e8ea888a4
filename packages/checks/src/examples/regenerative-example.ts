/** What the regenerative fixture may have otherwise. */
export interface RegenerativeChanges {
  /** How the tickler is joined, and what else its line says. */
  readonly tickler?: string;
  /** Turns of the tickler; 16 are plenty. */
  readonly ticklerTurns?: number;
  /** Lines from the tickler's cold end on. */
  readonly behind?: string;
  /** Lines that hang on the plate. */
  readonly atPlate?: string;
  /** What leads the aerial to the coil. */
  readonly aerial?: string;
  /** A stage before the detector. */
  readonly front?: string;
}

/** A one-tube set with a fixed tickler, for the examples of checks. */
export function regenerativeExample({
  tickler = 'from V1.plate to TIC',
  ticklerTurns = 16,
  behind = 'condenser C3 .001 mfd from TIC to NEG\n    phones PH1 2000 ohms from TIC to B+45',
  atPlate = '',
  aerial = 'from GND to ANT',
  front = '',
}: RegenerativeChanges): string {
  return `receiver "Net Loft" {
  tunes 550 kc to 1500 kc
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+45 45 V
  }
  post ANT aerial 250 mmfd
  post GND ground
  bus NEG
  bus TIC
  wire B- to A- to NEG to GND
  rheostat RH1 20 ohms from A+ set 4 ohms
  ${front}
  detector stage DET {
    coil L1 {
      form 2 3/4 in
      winding aerial 10 turns of 26 DCC ${aerial}
      winding grid 58 turns of 26 DCC beside aerial spaced 1/4 in from NEG
      winding tickler ${ticklerTurns} turns of 30 DSC beside grid spaced 1/8 in ${tickler}
    }
    condenser C1 variable 14 to 365 mmfd rotor to NEG stator to L1.grid.finish
    condenser C2 .00025 mfd from L1.grid.finish to V1.grid
    leak R1 2 meg from V1.grid to A+
    tube V1 01-A {
      filament from NEG to RH1
    }
    ${behind}
    ${atPlate}
  }
}
`;
}
