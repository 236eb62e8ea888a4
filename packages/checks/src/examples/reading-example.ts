/**
 * A sound one-tube set for the pages of the checks, with some of its words written otherwise.
 * Words that are not in the set are left alone.
 */
export function readingExample(
  ...changes: readonly (readonly [was: string, is: string])[]
): string {
  return changes.reduce((text, [was, is]) => text.replace(was, () => is), whole);
}

const whole = `
receiver "Pier Light" {
  year 1925
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
  wire B- to A- to GND
  resistor R2 "filament resistor" 4 ohms from A-
  coil L1 {
    form 3 in
    winding aerial 10 turns of 24 DCC from GND to ANT
    winding grid 46 turns of 24 DCC beside aerial spaced 1/4 in from GND
  }
  condenser C1 variable 20 to 500 mmfd rotor to L1.grid.start stator to L1.grid.finish
  detector stage DET {
    condenser C2 .00025 mfd from L1.grid.finish to V1.grid
    leak R1 2 meg from V1.grid to A+
    tube V1 01-A {
      filament from R2 to A+
    }
    condenser C3 .001 mfd from V1.plate to GND
    phones PH1 2000 ohms from V1.plate to B+45
  }
}
`.trimStart();
