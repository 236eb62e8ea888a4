import { type OperatingPoint, smallSignal } from '@setwright/analysis';
import type { Study } from '../study.ts';
import type { TubeAt } from '../tubes/tubes.ts';

/** Whether all that makes or damps a radio oscillation of some tubes is known. */
export function areSignalsKnown(
  { circuit }: Study,
  tubes: readonly TubeAt[],
  point: OperatingPoint,
): boolean {
  const known = new Set(
    point.tubes.flatMap(({ tube, transconductance }) => (transconductance ? [tube] : [])),
  );
  if (!point.converged || !tubes.every(({ part }) => known.has(part.name))) return false;
  const audio = new Set(
    circuit.stages
      .filter(
        ({ roles }) => roles.length > 0 && roles.every((role) => /^(audio|output)$/.test(role)),
      )
      .map(({ name }) => name),
  );
  // What works at audio alone may be told as little of as its maker told.
  const bears = (name: string): boolean => {
    const part = circuit.partNamed.get(name);
    if (!part) return false;
    if (part.stage !== undefined && audio.has(part.stage)) return true;
    if (part.kind === 'transformer') return !part.words.has('air');
    return ['phones', 'horn', 'speaker'].includes(part.kind);
  };
  const set = smallSignal(circuit, point);
  return set.entrance !== undefined && set.lacks.every(({ part }) => bears(part));
}
