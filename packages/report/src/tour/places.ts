import { type Circuit, type Part, rolesOf } from '@setwright/circuit';
import type { Overlay, OverlayPath, OverlayStep } from '@setwright/diagram';

/** What a tube or crystal does where a signal passes it. */
export type PlaceUse = 'radio' | 'mixer' | 'intermediate' | 'detector' | 'audio' | 'oscillator';

/** A tube or crystal on the way of the signal. */
export interface Place {
  readonly part: Part;
  readonly use: PlaceUse;
  /** Tubes that work side by side with it, as in push-pull. */
  readonly twins: readonly Part[];
  /** What the signal passes from the place before, or from the aerial, to here. */
  readonly arrives: readonly OverlayStep[];
  /** What it passes from here to the next place, or to the output. */
  readonly leaves: readonly OverlayStep[];
  /** Where it comes to next; undefined for the last one. */
  readonly next: Part | undefined;
  /** Whether a way for the signal was found that passes it. */
  readonly isOnWay: boolean;
}

/** Pieces of a way between tubes and crystals. */
interface Piece {
  readonly at: Part;
  readonly before: readonly OverlayStep[];
}

/**
 * The tubes and crystals of a set in the order in which the signal passes them; a tube of a reflex
 * set comes twice. Those that no signal was followed to come last, or before the mixer that hears
 * them.
 */
export function placesOf(
  circuit: Circuit,
  radio: Overlay | undefined,
  audio: Overlay | undefined,
): readonly Place[] {
  const radioWay = radio?.paths.find(({ kind }) => kind === 'radio');
  const audioWay = audio?.paths.find(({ kind }) => kind === 'audio');
  const early = radioWay ? piecesOf(circuit, radioWay) : { pieces: [], rest: [] };
  const late = audioWay ? piecesOf(circuit, audioWay) : { pieces: [], rest: [] };
  const detector = late.pieces[0]?.at ?? early.pieces.at(-1)?.at;
  const twins = twinsOf(circuit, audio, audioWay);
  const places: Place[] = [];
  const add = (pieces: readonly Piece[], rest: readonly OverlayStep[], isAudio: boolean): void => {
    for (const [index, { at, before }] of pieces.entries()) {
      const next = pieces[index + 1];
      places.push({
        part: at,
        use: isAudio ? 'audio' : useOf(circuit, at, at === detector),
        twins: isAudio ? (twins.get(at.name) ?? []) : [],
        arrives: before,
        leaves: next?.before ?? rest,
        next: next?.at,
        isOnWay: true,
      });
    }
  };
  const [, ...audioPieces] = late.pieces;
  const first = late.pieces[0];
  const radioPieces =
    first && !early.pieces.some(({ at }) => at === first.at)
      ? [...early.pieces, { at: first.at, before: [] }]
      : early.pieces;
  add(radioPieces, [], false);
  // What leads on from the detector is the beginning of the audio way.
  const detecting = places.at(-1);
  if (detecting && first?.at === detecting.part)
    places[places.length - 1] = {
      ...detecting,
      leaves: audioPieces[0]?.before ?? late.rest,
      next: audioPieces[0]?.at,
    };
  add(audioPieces, late.rest, true);
  const seen = new Set(places.flatMap(({ part, twins: beside }) => [part, ...beside]));
  const left = circuit.parts
    .filter((part) => (part.kind === 'tube' || part.kind === 'crystal') && !seen.has(part))
    .map(
      (part): Place => ({
        part,
        use: useOf(circuit, part, false),
        twins: [],
        arrives: [],
        leaves: [],
        next: undefined,
        isOnWay: false,
      }),
    );
  const oscillators = left.filter(({ use }) => use === 'oscillator');
  const others = left.filter(({ use }) => use !== 'oscillator');
  const mixer = places.findIndex(({ use }) => use === 'mixer');
  const at = Math.max(mixer, 0);
  return [...places.slice(0, at), ...oscillators, ...places.slice(at), ...others];
}

/** A way cut at its tubes and crystals; a tube at whose grid it ends is its last place. */
function piecesOf(
  { partNamed, partOfEnd }: Circuit,
  { steps, to }: OverlayPath,
): { readonly pieces: readonly Piece[]; readonly rest: readonly OverlayStep[] } {
  const pieces: Piece[] = [];
  let before: OverlayStep[] = [];
  for (const step of steps) {
    const part = partNamed.get(step.part);
    if (part?.kind === 'tube' || part?.kind === 'crystal') {
      pieces.push({ at: part, before });
      before = [];
    } else before.push(step);
  }
  const last = partOfEnd.get(to ?? '');
  if (last?.kind === 'tube') {
    pieces.push({ at: last, before });
    before = [];
  }
  return { pieces, rest: before };
}

/** Tubes on other ways of the same signal, by the tube that has their place on the first. */
function twinsOf(
  circuit: Circuit,
  audio: Overlay | undefined,
  way: OverlayPath | undefined,
): ReadonlyMap<string, readonly Part[]> {
  const twins = new Map<string, Part[]>();
  const own = way ? piecesOf(circuit, way).pieces.map(({ at }) => at) : [];
  for (const path of audio?.paths ?? []) {
    if (path === way || path.kind !== 'audio') continue;
    for (const [index, { at }] of piecesOf(circuit, path).pieces.entries()) {
      const main = own[index];
      if (!main || own.includes(at)) continue;
      const known = twins.get(main.name) ?? [];
      if (!known.includes(at)) twins.set(main.name, [...known, at]);
    }
  }
  return twins;
}

function useOf(circuit: Circuit, part: Part, isDetector: boolean): PlaceUse {
  const roles = rolesOf(circuit, part);
  if (isDetector) return 'detector';
  if (roles.includes('mixer')) return 'mixer';
  if (roles.includes('oscillator')) return 'oscillator';
  if (roles.includes('intermediate')) return 'intermediate';
  if (roles.includes('radio')) return 'radio';
  if (roles.includes('detector')) return 'detector';
  if (roles.includes('audio') || roles.includes('output')) return 'audio';
  return part.kind === 'crystal' ? 'detector' : 'radio';
}
