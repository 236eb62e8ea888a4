import type { Circuit, Part } from '@setwright/circuit';
import { amplifiesRadio } from '../radio/radio-use.ts';
import { isAdjustable } from '../sizes/parts-played.ts';
import type { Study } from '../study.ts';
import { detectingCondenserOf } from '../tubes/detecting.ts';
import type { TubeAt } from '../tubes/tubes.ts';
import { ironTransformers } from './iron-transformers.ts';
import { type SignalGroups, signalGroups } from './signal-groups.ts';

/** How audio goes from a plate to a grid. */
export type AudioLink = { readonly from: TubeAt; readonly to: TubeAt } & (
  | { readonly kind: 'transformer'; readonly primary: Part; readonly secondary: Part }
  | { readonly kind: 'condenser'; readonly condenser: Part }
);

/** The audio stages of a set, and what joins them. */
export interface AudioLinks {
  readonly groups: SignalGroups;
  readonly links: readonly AudioLink[];
  /** Tubes whose plate has to do with audio: amplifiers of it and detectors. */
  readonly stages: readonly TubeAt[];
}

/** A condenser that hands audio on has at least this much, in farads. Common practice. */
const LEAST_COUPLING = 1e-9;

/** Finds the audio stages of a set, with the set on and its controls as drawn. Linear. */
export function audioLinks(study: Study): AudioLinks {
  const { circuit, conduction, tubes } = study;
  const groups = signalGroups(conduction, tubes);
  const links: AudioLink[] = [];
  const at = (map: SignalGroups['plates'], junction: number): readonly TubeAt[] =>
    map.get(groups.of[junction] ?? -1) ?? [];
  for (const { windings } of ironTransformers(circuit)) {
    for (const primary of windings) {
      const driving = onAnyEnd(primary, (junction) => at(groups.plates, junction));
      if (driving.length === 0) continue;
      for (const secondary of windings) {
        if (secondary === primary) continue;
        for (const to of onAnyEnd(secondary, (junction) => at(groups.grids, junction)))
          for (const from of driving)
            links.push({ kind: 'transformer', from, to, primary, secondary });
      }
    }
  }
  for (const condenser of circuit.parts) {
    if (condenser.kind !== 'condenser' || isAdjustable(condenser)) continue;
    if ((condenser.values.capacitance?.value ?? LEAST_COUPLING) < LEAST_COUPLING) continue;
    const [first, second] = condenser.ends;
    if (!first || !second || groups.of[first.junction] === groups.of[second.junction]) continue;
    for (const [near, far] of [
      [first.junction, second.junction],
      [second.junction, first.junction],
    ] as const)
      for (const from of at(groups.plates, near))
        for (const to of at(groups.grids, far))
          if (from !== to && detectingCondenserOf(circuit, to)?.condenser !== condenser)
            links.push({ kind: 'condenser', from, to, condenser });
  }
  const linked = new Set(links.flatMap(({ from, to }) => [from, to]));
  return {
    groups,
    links,
    stages: tubes.filter((tube) => hasAudio(circuit, tube, linked.has(tube))),
  };
}

function onAnyEnd(part: Part, tubesAt: (junction: number) => readonly TubeAt[]): TubeAt[] {
  return [...new Set(part.ends.flatMap(({ junction }) => tubesAt(junction)))];
}

function hasAudio(circuit: Circuit, tube: TubeAt, isLinked: boolean): boolean {
  const { roles } = tube;
  if (roles.some((role) => role === 'audio' || role === 'output' || role === 'detector'))
    return true;
  if (roles.length > 0) return false;
  return isLinked || !amplifiesRadio(circuit, tube);
}

/** Whether a tube does nothing but amplify audio, as its stage or else its wiring says. */
export function amplifiesAudio({ links }: AudioLinks, tube: TubeAt): boolean {
  if (tube.roles.length === 0) return links.some(({ to }) => to === tube);
  return tube.roles.every((role) => role === 'audio' || role === 'output');
}
