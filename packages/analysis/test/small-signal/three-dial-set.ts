import type { Circuit } from '@setwright/circuit';
import { setFrom } from '../reading-set.ts';

/** What is changed in the set. */
export interface ThreeDialSet {
  /** Ohms before each radio grid; none at all where not given. */
  readonly losser?: number | undefined;
  /** Ohms in the plate lead of the radio tubes. */
  readonly lead?: number;
  /** Whether the bypass from that lead's set side to the filaments is there. */
  readonly bypass?: boolean;
}

/**
 * A set of two radio stages, detector and two audio stages with 01-A tubes: grid coils of about
 * 240 microhenries, primaries of 12 turns beside them.
 */
export function threeDialSet({ losser, lead = 0, bypass = true }: ThreeDialSet): Circuit {
  const stage = (number: number, primary: string, plate: string): string => {
    const coil = `L${number}`;
    const grid =
      losser === undefined
        ? `wire ${coil}.grid.finish to V${number}.grid`
        : `resistor R${number} ${losser} ohms from ${coil}.grid.finish to V${number}.grid`;
    return `
      radio stage RF${number} {
        coil ${coil} {
          form 2 3/4 in
          winding ${primary}
          winding grid 57 turns of 26 DCC beside first spaced 1/4 in from GND
        }
        condenser C${number} variable 14 to 365 mmfd across ${coil}.grid
        ${grid}
        tube V${number} 01-A {
          filament from RH1 to A+
          plate to ${plate}
        }
      }`;
  };
  return setFrom(
    'tunes 550 kc to 1500 kc',
    'battery A storage {\n tap A- 0 V\n tap A+ 6 V\n}',
    'battery B dry {\n tap B-\n tap B+45 45 V\n tap B+67 67.5 V\n tap B+90 90 V\n resistance 10 ohms\n}',
    'battery C dry {\n tap C+\n tap C-4.5\n}',
    'post ANT aerial 250 mmfd',
    'post GND ground',
    'bus RB "plate lead of the radio tubes"',
    'wire B- to A- to C+ to GND',
    lead > 0 ? `wire RB to B+67 ${lead} ohms` : 'wire RB to B+67',
    'rheostat RH1 10 ohms from A- set 2 ohms',
    'rheostat RH2 20 ohms from A- set 4 ohms',
    'rheostat RH3 10 ohms from A- set 2 ohms',
    stage(1, 'first 8 turns of 26 DCC from GND to ANT', 'L2.first.start'),
    stage(2, 'first 12 turns of 26 DCC to RB', 'L3.first.start'),
    bypass ? 'condenser C5 .5 mfd from RB to A-' : '',
    `detector stage DET {
      coil L3 {
        form 2 3/4 in
        winding first 12 turns of 26 DCC to RB
        winding grid 57 turns of 26 DCC beside first spaced 1/4 in from GND
      }
      condenser C3 variable 14 to 365 mmfd across L3.grid
      condenser C4 .00025 mfd from L3.grid.finish to V3.grid
      leak R3 2 meg from V3.grid to A+
      tube V3 01-A {
        filament from RH2 to A+
      }
      condenser C6 .001 mfd from V3.plate to A-
    }`,
    `audio stage AF1 {
      transformer T1 ratio 1 to 3.5 {
        winding primary 14 H 800 ohms from V3.plate to B+45
        winding secondary 5200 ohms from C-4.5 to V4.grid
      }
      tube V4 01-A {
        filament from RH3 to A+
        plate to H1.start
      }
      horn H1 2000 ohms to B+90
    }`,
    'dial D1 0 to 100 drives C1\ndial D2 0 to 100 drives C2\ndial D3 0 to 100 drives C3',
  );
}
