import { readReceivers } from '@setwright/language';
import { differencesOf, type PlainSet, plainSetOf } from '../src/index.ts';

/** A little detector set; every line may be exchanged for others. */
export const cove = `receiver "Lantern Cove Skiff" {
  tunes 550 kc to 1500 kc
  battery A storage { tap A- tap A+ 6 V }
  battery B dry { tap B- tap B+45 tap B+90 }
  post ANT aerial
  bus NEG
  wire B- to A-
  rheostat RH1 20 ohms from A- to NEG
  coil L1 {
    winding aerial 12 turns taps 4 from ANT to NEG
    winding grid 58 turns from NEG
  }
  condenser C1 variable 14 to 365 mmfd rotor to L1.grid.start stator to L1.grid.finish
  detector stage DET {
    condenser C2 .00025 mfd from L1.grid.finish to V1.grid
    leak R1 2 meg from V1.grid to A+
    tube V1 01-A {
      filament from NEG to A+
      plate to T1.primary.start
    }
  }
  audio stage AF {
    transformer T1 ratio 1 to 3 {
      winding primary to B+45
      winding secondary from NEG to V2.grid
    }
    condenser C3 .001 mfd from V1.plate to NEG
    tube V2 01-A {
      filament from NEG to A+
    }
    phones PH1 2000 ohms from V2.plate to B+90
  }
}
`;

/** The set of a text, as it is compared. */
export function setOf(text: string): PlainSet {
  const [circuit] = readReceivers(text, 'set.receiver').circuits;
  if (!circuit) throw new Error('there is no receiver in the text');
  return plainSetOf(circuit);
}

/** The text of the little set with pieces exchanged; every piece must be there. */
export function changed(...pieces: readonly (readonly [string, string])[]): string {
  return pieces.reduce((text, [from, to]) => {
    if (!text.includes(from)) throw new Error(`the text has no ${from}`);
    return text.replaceAll(from, to);
  }, cove);
}

/** How the little set differs from itself with pieces exchanged. */
export function differing(...pieces: readonly (readonly [string, string])[]) {
  return differencesOf(setOf(cove), setOf(changed(...pieces)));
}
