import {
  type Conduction,
  isSupply,
  type JoinedBranch,
  openVolts,
  type Part,
  type SupplyTap,
  supposedOhms,
  zeroTap,
} from '@setwright/circuit';
import type { Element } from './network.ts';

/** A supply said to have no resistance is given this much, in ohms, so that it can be solved. */
const LEAST_SOURCE_OHMS = 1e-3;

/**
 * A supply as the pieces its current flows through.
 *
 * A battery is one row of cells: between each tap and the next lies a section, with its share by
 * volts of the stated resistance, and what a high tap gives flows through the blocks below it as
 * well. An eliminator's taps each hang on its zero by their own source resistance, and stand at
 * their stated volts at their stated load.
 */
export function supplySections(part: Part, conduction: Conduction): readonly Element[] {
  if (!isSupply(part)) return [];
  return part.kind === 'battery' ? rowOfCells(part, conduction) : star(part, conduction);
}

function rowOfCells(part: Part, conduction: Conduction): readonly Element[] {
  const taps = part.supplyTaps
    .filter((tap): tap is SupplyTap & { volts: number } => Number.isFinite(tap.volts))
    .sort((a, b) => a.volts - b.volts);
  const low = taps[0];
  const high = taps[taps.length - 1];
  if (!low || !high) return [];
  const whole = high.volts - low.volts;
  return taps.slice(1).flatMap((tap, index) => {
    const below = taps[index] ?? low;
    const volts = tap.volts - below.volts;
    // A block below a tap that has a resistance of its own, as a tired one has.
    if (tap.resistance !== undefined)
      return piece(part, below, tap, volts, tap.resistance, 1, conduction);
    const share = whole > 0 ? volts / whole : 1 / (taps.length - 1);
    return piece(part, below, tap, volts, part.values.resistance?.value, share, conduction);
  });
}

function star(part: Part, conduction: Conduction): readonly Element[] {
  const zero = zeroTap(part);
  if (!zero) return [];
  return part.supplyTaps.flatMap((tap) => {
    const volts = tap === zero ? undefined : openVolts(part, tap);
    if (volts === undefined || !Number.isFinite(volts)) return [];
    const ohms = tap.resistance ?? part.values.resistance?.value;
    return piece(part, zero, tap, volts, ohms, 1, conduction);
  });
}

function piece(
  part: Part,
  from: SupplyTap,
  to: SupplyTap,
  volts: number,
  stated: number | undefined,
  share: number,
  conduction: Conduction,
): Element[] {
  const below = part.ends.find(({ name }) => name === from.end);
  const above = part.ends.find(({ name }) => name === to.end);
  if (!below || !above) return [];
  const because = 'the cells carry the current';
  const branch: JoinedBranch = {
    part: part.name,
    from: below.id,
    to: above.id,
    direct: { kind: 'source', volts, ohms: stated, because },
    index: -1,
    fromJunction: below.junction,
    toJunction: above.junction,
  };
  const isStated = stated !== undefined && stated >= 0 && Number.isFinite(stated);
  const usual = isStated ? undefined : supposedOhms(conduction.circuit, branch);
  const ohms = share * (isStated ? stated : (usual?.ohms ?? 1));
  return [
    {
      branch,
      part,
      volts,
      ohms: Math.max(ohms, LEAST_SOURCE_OHMS),
      supposed: usual?.because,
      control: undefined,
    },
  ];
}
