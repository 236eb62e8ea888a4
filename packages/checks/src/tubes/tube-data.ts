import type { TubeAt } from './tubes.ts';

/** A tube's plate resistance in ohms by its type's data; undefined where they do not give it. */
export function plateResistanceOf({ part }: TubeAt): number | undefined {
  const type = part.tubeType;
  for (const { plateResistance, transconductance } of type?.points ?? []) {
    if (plateResistance !== undefined && plateResistance > 0) return plateResistance;
    if (type?.amplification && transconductance) return type.amplification / transconductance;
  }
  return undefined;
}

/** A tube's transconductance in siemens by its type's data; undefined where they do not give it. */
export function transconductanceOf(tube: TubeAt): number | undefined {
  const type = tube.part.tubeType;
  const stated = type?.points.find(({ transconductance }) => (transconductance ?? 0) > 0);
  if (stated?.transconductance !== undefined) return stated.transconductance;
  const ohms = plateResistanceOf(tube);
  return type?.amplification && ohms ? type.amplification / ohms : undefined;
}
