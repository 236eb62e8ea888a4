/** A sound little set: a grid-leak detector and two transformer-coupled audio stages. */
const SOUND = `receiver "Lantern Cove Parlor" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+45 45 V
    tap B+90 90 V
    tap B+135 135 V
    resistance 30 ohms
  }
  battery C dry {
    tap C+
    tap C-4.5
    tap C-9 -9 V
  }
  post ANT aerial
  post GND ground
  wire B- to A- to C+ to GND
  resistor F1 4 ohms from A+ to V1.filament+
  resistor F2 4 ohms from A+ to V2.filament+
  resistor F3 4 ohms from A+ to V3.filament+
  detector stage DET {
    coil L1 {
      winding aerial 20 uH from GND to ANT
      winding grid 240 uH from GND
    }
    condenser C1 variable 14 to 365 mmfd rotor to L1.grid.start stator to L1.grid.finish
    condenser C2 .00025 mfd from L1.grid.finish to V1.grid
    leak R1 2 meg from V1.grid to A+
    tube V1 01-A {
      filament from A-
    }
    condenser C3 .001 mfd from V1.plate to A-
  }
  audio stage AF1 {
    transformer T1 ratio 1 to 3 {
      winding primary 14 H 800 ohms from V1.plate to B+45
      winding secondary 5000 ohms from C-4.5 to V2.grid
    }
    tube V2 01-A {
      filament from A-
    }
  }
  output stage AF2 {
    transformer T2 ratio 1 to 3 {
      winding primary 14 H 800 ohms from V2.plate to B+90
      winding secondary 5000 ohms from C-9 to V3.grid
    }
    tube V3 12-A {
      filament from A-
    }
    horn H1 2000 ohms from V3.plate to B+135
  }
}
`;

/** The sound set with words exchanged, for the examples of checks. */
export function sampleSet(...changes: readonly (readonly [from: string, to: string])[]): string {
  return changes.reduce((text, [from, to]) => text.replace(from, to), SOUND);
}
