import type { TunedCircuit } from '@setwright/analysis';
import type { Conduction, Part } from '@setwright/circuit';
import type { Study } from '../study.ts';
import type { TubeAt } from '../tubes/tubes.ts';
import { coilOf, type WindingAt, windingsFrom } from './radio-wiring.ts';

/** A tuned circuit with what it is there for. */
export interface SignalCircuit {
  readonly tuned: TunedCircuit;
  /**
   * `signal`: tuned by hand, on the signal's way from post to detector. `oscillator`: the local
   * oscillator's. `intermediate`: set once and for all, behind the mixer.
   */
  readonly use: 'signal' | 'oscillator' | 'intermediate';
  /** The tubes whose grid it drives. */
  readonly tubes: readonly TubeAt[];
  /**
   * How the aerial comes to it: by a winding of its own, whole or tapped, straight on to the
   * circuit, or as a loop. Undefined for a circuit further on.
   */
  readonly aerial: 'winding' | 'tapped' | 'straight' | 'loop' | undefined;
}

/** The tuned circuits that carry the signal, its oscillator's and its intermediate frequency's. */
export function signalCircuits(study: Study): readonly SignalCircuit[] {
  const { radio, tubes, circuit, conduction } = study;
  const { tuned } = radio;
  if (tuned.length === 0) return [];
  const drives = new Map<string, TubeAt[]>();
  for (const { tube, winding } of radio.gridCircuits)
    drives.set(winding.name, [...(drives.get(winding.name) ?? []), tube]);
  const oscillating = oscillatorCoils(study);
  const crystals = crystalWindings(conduction, radio.isRest, circuit.parts);
  const aerials = circuit.parts.flatMap((part) =>
    part.kind === 'post' && part.words.has('aerial') && part.ends[0]
      ? windingsFrom(conduction, part.ends[0].junction, radio.isRest)
      : [],
  );
  const isSuper = tubes.some(({ roles }) => roles.includes('mixer'));
  return tuned.flatMap((each): readonly SignalCircuit[] => {
    const names = each.windings.map(({ edge }) => edge.part);
    const coils = new Set(names.map((name) => coilName(study, name)));
    const driven = [...new Set(names.flatMap((name) => drives.get(name) ?? []))];
    const aerial = aerialOf(study, names, coils, aerials);
    const base = { tuned: each, tubes: driven, aerial };
    if ([...coils].some((coil) => oscillating.has(coil)) && aerial !== 'loop')
      return [{ ...base, use: 'oscillator' }];
    const isBehind = driven.some(({ roles }) => roles.includes('intermediate'));
    if (each.stated || isBehind)
      return isSuper || each.tuner === undefined ? [{ ...base, use: 'intermediate' }] : [];
    if (each.tuner === undefined) return [];
    const isDriving = driven.some(({ roles }) => isReceiving(roles));
    const isHeard = names.some((name) => crystals.has(name));
    return isDriving || isHeard ? [{ ...base, use: 'signal' }] : [];
  });
}

function isReceiving(roles: readonly string[]): boolean {
  return roles.length === 0 || ['radio', 'detector', 'mixer'].some((role) => roles.includes(role));
}

function coilName(study: Study, winding: string): string {
  const part = study.circuit.partNamed.get(winding);
  return part ? coilOf(part) : winding;
}

/**
 * The coils of the local oscillator: those of its tube's grid and plate; where the same tube mixes,
 * the coil that has windings of both.
 */
function oscillatorCoils(study: Study): ReadonlySet<string> {
  const coils = new Set<string>();
  for (const tube of study.tubes) {
    if (!tube.roles.includes('oscillator')) continue;
    const grids = study.radio.gridCircuits.filter((each) => each.tube === tube);
    const plates = study.radio.plateCircuits.filter((each) => each.tube === tube);
    const onGrid = new Set(grids.map(({ winding }) => coilOf(winding)));
    const onPlate = new Set(plates.map(({ winding }) => coilOf(winding)));
    const isMixer = tube.roles.includes('mixer') || tube.roles.includes('detector');
    for (const coil of [...onGrid, ...onPlate])
      if (!isMixer || (onGrid.has(coil) && onPlate.has(coil))) coils.add(coil);
  }
  return coils;
}

function crystalWindings(
  conduction: Conduction,
  isRest: (junction: number) => boolean,
  parts: readonly Part[],
): ReadonlySet<string> {
  const found = new Set<string>();
  for (const part of parts) {
    if (part.kind !== 'crystal') continue;
    for (const { junction } of part.ends)
      for (const { winding } of windingsFrom(conduction, junction, isRest)) found.add(winding.name);
  }
  return found;
}

function aerialOf(
  study: Study,
  names: readonly string[],
  coils: ReadonlySet<string>,
  aerials: readonly WindingAt[],
): SignalCircuit['aerial'] {
  const { circuit } = study;
  if (names.some((name) => circuit.partNamed.get(name)?.kind === 'loop')) return 'loop';
  const here = aerials.filter(({ winding }) => coils.has(coilOf(winding)));
  if (here.length === 0) return undefined;
  if (here.some(({ winding }) => names.includes(winding.name))) return 'straight';
  return here.some(({ winding }) => winding.taps.length > 0) ? 'tapped' : 'winding';
}
