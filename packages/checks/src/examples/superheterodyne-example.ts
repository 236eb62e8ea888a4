/** What a superheterodyne fixture may have otherwise. */
export interface SuperheterodyneChanges {
  /** Turns of the oscillator's grid winding; 44 are right. */
  readonly oscillatorTurns?: number;
  /** Farads in words across the second intermediate circuit; .001 mfd is right. */
  readonly secondTuning?: string;
  /** Turns of the oscillator's plate winding; 24 are plenty. */
  readonly plateTurns?: number;
  /** How the oscillator's plate winding is joined. */
  readonly plateEnds?: string;
  /** Where the pick-up winding leads from the ground. */
  readonly pickup?: string;
  /** The cold end of the loop. */
  readonly loopEnd?: string;
}

/** A small superheterodyne with one intermediate stage, for the examples of checks. */
export function superheterodyneExample({
  oscillatorTurns = 44,
  secondTuning = '.001 mfd',
  plateTurns = 24,
  plateEnds = 'from V2.plate to B+67',
  pickup = 'to LOOP',
  loopEnd = 'LOOP',
}: SuperheterodyneChanges): string {
  return `receiver "Signal Hill" {
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
  post GND ground
  bus LOOP
  wire B- to A- to GND
  resistor F1 4 ohms from A- to V1.filament-
  resistor F2 4 ohms from A- to V2.filament-
  resistor F3 4 ohms from A- to V3.filament-
  resistor F4 4 ohms from A- to V4.filament-
  mixer stage MIX {
    loop LP1 180 uH 4 ohms from ${loopEnd}
    condenser C1 variable 18 to 500 mmfd rotor to ${loopEnd} stator to LP1.finish
    condenser C3 .00025 mfd from LP1.finish to V1.grid
    leak R1 2 meg from V1.grid to A+
    tube V1 01-A {
      filament to A+
    }
    condenser C9 .5 mfd from B+45 to GND
  }
  oscillator stage OSC {
    coil L1 {
      form 2 1/2 in
      winding grid ${oscillatorTurns} turns of 26 DCC from GND
      winding plate ${plateTurns} turns of 26 DCC beside grid spaced 1/8 in ${plateEnds}
      winding pickup 4 turns of 26 DCC beside plate spaced 1/4 in from GND ${pickup}
    }
    condenser C2 variable 18 to 500 mmfd rotor to L1.grid.start stator to L1.grid.finish
    tube V2 01-A {
      filament to A+
      grid to L1.grid.finish
    }
    condenser C5 .5 mfd from B+67 to GND
  }
  intermediate stage IF1 {
    transformer T1 air {
      winding primary 6 mH 60 ohms from V1.plate to B+45
      winding secondary 12.5 mH 100 ohms from GND to V3.grid
      coupling primary with secondary 25 %
      tuned 45 kc
    }
    condenser C6 .001 mfd across T1.secondary
    tube V3 01-A {
      filament to A+
    }
  }
  detector stage DET {
    transformer T2 air {
      winding primary 6 mH 60 ohms from V3.plate to B+67
      winding secondary 12.5 mH 100 ohms from GND
      coupling primary with secondary 25 %
      tuned 45 kc
    }
    condenser C7 ${secondTuning} across T2.secondary
    condenser C8 .00025 mfd from T2.secondary.finish to V4.grid
    leak R2 2 meg from V4.grid to A+
    tube V4 01-A {
      filament to A+
    }
    condenser C10 .002 mfd from V4.plate to GND
    phones PH1 2000 ohms from V4.plate to B+45
  }
}
`;
}
