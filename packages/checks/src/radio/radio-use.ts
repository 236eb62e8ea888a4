import { type Circuit, type End, isOnAir, type Part } from '@setwright/circuit';
import type { TubeAt } from '../tubes/tubes.ts';
import { partsAt } from '../tubes/tubes.ts';

/** The long-wave end of the usual broadcast band, in hertz. Common practice. */
const USUAL_LOW_END = 550e3;

/** Whether a winding or choke is on air, so that it has to do with radio and not with audio. */
export function isAirWinding(circuit: Circuit, part: Part): boolean {
  return part.kind === 'choke' ? part.words.has('air') : isOnAir(circuit, part);
}

/**
 * Whether a tube amplifies at radio or intermediate frequency: by its stage; where it stands in
 * none, by an air-core winding on its grid or plate. Detectors and oscillators do not.
 */
export function amplifiesRadio(circuit: Circuit, tube: TubeAt): boolean {
  const { roles } = tube;
  if (roles.length > 0)
    return (
      (roles.includes('radio') || roles.includes('intermediate')) && !roles.includes('detector')
    );
  const hasAir = (end: End | undefined): boolean =>
    end !== undefined && partsAt(circuit, end.junction).some((part) => isAirWinding(circuit, part));
  return hasAir(tube.grid) && hasAir(tube.plate);
}

/** The lowest frequency, in hertz, at which a tube has to amplify; undefined when not known. */
export function lowestFrequency(circuit: Circuit, tube: TubeAt): number | undefined {
  if (!tube.roles.includes('intermediate')) return circuit.tunes?.low.value ?? USUAL_LOW_END;
  return circuit.parts.find(({ values }) => values.tuned)?.values.tuned?.value;
}
