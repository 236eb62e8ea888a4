import { rolesOf } from '@setwright/circuit';
import type { GrowingMode } from './growing-modes.ts';
import { tubePoints } from './signal-chain.ts';
import type { Tuning } from './signal-system.ts';
import type { SmallSignal } from './small-signal.ts';
import { eliminateAt, solveDriven, tunedSystem } from './tuned-system.ts';

/** So near the root that its mode outweighs all others in the answer, as a share. */
const BESIDE = 1e-5;

/** A tube that gives less than this share of what the strongest gives does not feed the mode. */
const LEAST = 0.05;

/** Hertz from which on a mode is none of the audio stages. */
const RADIO = 20e3;

/**
 * The tubes that keep a growing mode going, the strongest first: those whose plate current gives
 * more power at its frequency than it takes. Found from how the network answers beside the root.
 * At radio frequency a tube that amplifies audio alone hears it from the others and feeds nothing
 * back: it is named only where no other is.
 */
export function tubesThatFeed(
  set: SmallSignal,
  tuning: Tuning,
  { growth, frequency }: GrowingMode,
): readonly string[] {
  const { system } = set;
  const radians = 2 * Math.PI * frequency;
  const off = BESIDE * Math.hypot(growth, radians);
  const tuned = tunedSystem(system, tuning);
  const room = eliminateAt(tuned, { growth: growth + off, radians });
  if (!room) return [];
  // One ampere into every point: whatever the mode looks like, something of it is struck.
  const currents = new Map(
    Array.from({ length: system.network.points }, (_, at) => [at + 1, [1, 0] as const] as const),
  );
  const { re, im } = solveDriven(system, room, { currents });
  const given = tubePoints(set).map(({ part, grid, plate, reference }) => {
    const tube = set.point.tubes.find((each) => each.tube === part.name);
    const gm = tube?.transconductance?.value ?? 0;
    const across = (values: Float64Array, at: number) =>
      (values[at] as number) - (values[reference] as number);
    const both = across(re, grid) * across(re, plate) + across(im, grid) * across(im, plate);
    return { tube: part.name, watts: 0 - gm * both };
  });
  const most = Math.max(0, ...given.map(({ watts }) => watts));
  const strong = given
    .filter(({ watts }) => watts > LEAST * most)
    .sort((a, b) => b.watts - a.watts)
    .map(({ tube }) => tube);
  const carriers = strong.filter((tube) => !isOfAudioAlone(set, tube));
  return frequency > RADIO && carriers.length > 0 ? carriers : strong;
}

function isOfAudioAlone({ circuit }: SmallSignal, tube: string): boolean {
  const part = circuit.partNamed.get(tube);
  const roles = part ? rolesOf(circuit, part) : [];
  return roles.length > 0 && roles.every((role) => role === 'audio' || role === 'output');
}
