import { partKinds } from '@setwright/circuit';
import { nearest } from '@setwright/units';
import {
  isAcrossDetail,
  isAmountDetail,
  isCompanionDetail,
  isContactDetail,
  isEndDetail,
  isFlagDetail,
  isFoundDetail,
  isFromDetail,
  isLikeDetail,
  isPlacedDetail,
  isPlaceWord,
  isTapDetail,
  isTitleDetail,
  isToDetail,
  isWordDetail,
} from '../generated/ast.ts';
import type { Collected } from './collected.ts';
import { type Lowering, placeOf, remark, replacing } from './context.ts';
import type { AnyDetail, Said, SaidDetail } from './said.ts';

/** `like NAME`: everything of the other part but its ends, unless said anew. */
export function followLikes(cx: Lowering, into: Collected): void {
  const done = new Set<Said>();
  for (const said of into.parts) {
    // From the part back to the one that is made like no other, then forward again.
    const chain: Said[] = [];
    const seen = new Set<Said>();
    for (let at: Said | undefined = said; at && !done.has(at); ) {
      chain.push(at);
      seen.add(at);
      const base: Said | undefined = baseOf(cx, into, at, seen);
      if (base) at.like = { place: placeOfLike(cx, at), said: base };
      at = base;
    }
    for (const link of chain.reverse()) {
      if (link.like) copy(link, link.like.said);
      done.add(link);
    }
  }
}

const likeOf = (said: Said) => said.details.map(({ detail }) => detail).find(isLikeDetail);

function placeOfLike(cx: Lowering, said: Said) {
  const like = likeOf(said);
  return placeOf(cx, like?.target ?? like);
}

/** The part that another is made like; what is wrong with its name becomes a remark. */
function baseOf(
  cx: Lowering,
  into: Collected,
  said: Said,
  seen: ReadonlySet<Said>,
): Said | undefined {
  const like = likeOf(said);
  if (!like?.target || !partKinds[said.kind].details.includes('like')) return undefined;
  const written = like.target.ref.replace(/\u2212/g, '-');
  const base = into.named.get(written);
  const place = placeOf(cx, like.target);
  const { noun } = partKinds[said.kind];
  if (base && base.kind === said.kind && !seen.has(base)) return base;
  const names = into.parts
    .filter((part) => part.kind === said.kind && !seen.has(part))
    .map((part) => part.name);
  cx.unread.push(place);
  remark(
    cx,
    'unknown-name',
    'error',
    place,
    base && seen.has(base)
      ? {
          message: `${said.name} is made like itself.`,
          why: 'Nothing is said of it that way.',
          cure: 'Name another part, or say how it is made.',
        }
      : base
        ? {
            message: `${said.name} is a ${noun} and cannot be like ${base.name}, a ${partKinds[base.kind].noun}.`,
            why: 'A part can only be made like one of its own kind.',
            cure: `Name a ${noun}, or say how ${said.name} is made.`,
          }
        : {
            message: `There is no ${noun} called "${written}" for ${said.name} to be like.`,
            why: 'Nothing is known of how it is made.',
            cure: `Name a ${noun} of this set, or say how ${said.name} is made.`,
          },
    {
      parts: [said.name],
      fixes: nearest(written, names, 2).map((name) => replacing(`Change to ${name}`, place, name)),
    },
  );
  return undefined;
}

function copy(said: Said, base: Said) {
  said.details = merged(said.details, base.details);
  if (said.kind === 'tube' && said.typeName === undefined) {
    said.typeName = base.typeName;
    said.tubeType = base.tubeType;
  }
  for (const winding of base.windings) {
    const own = said.windings.find((other) => other.ownName === winding.ownName);
    if (own) own.details = merged(own.details, winding.details);
    else {
      said.windings.push({
        ...winding,
        name: `${said.name}.${winding.ownName}`,
        owner: said,
        stage: said.stage,
        place: said.place,
        namePlace: said.namePlace,
        details: merged([], winding.details),
        spoken: new Set(),
        ends: [...winding.ends],
      });
    }
  }
}

/** What belongs to the one part alone: where its ends go, its title, and what was measured. */
const isOwn = (detail: AnyDetail) =>
  isFromDetail(detail) ||
  isToDetail(detail) ||
  isAcrossDetail(detail) ||
  isEndDetail(detail) ||
  isLikeDetail(detail) ||
  isContactDetail(detail) ||
  isCompanionDetail(detail) ||
  isTitleDetail(detail) ||
  isFoundDetail(detail);

/** A key under which a detail said anew takes the place of the one that is copied. */
function overriding(detail: AnyDetail): string | undefined {
  if (isAmountDetail(detail) || isWordDetail(detail)) return undefined;
  if (isFlagDetail(detail) || isPlaceWord(detail)) return undefined;
  if (isTapDetail(detail) || isPlacedDetail(detail)) return detail.$type;
  return `${detail.$type} ${'led' in detail ? detail.led : ''}`;
}

function merged(own: readonly SaidDetail[], base: readonly SaidDetail[]): SaidDetail[] {
  const said = new Set(own.map(({ detail }) => overriding(detail)));
  return [
    ...own,
    ...base
      .filter(({ detail }) => !isOwn(detail))
      .filter(({ detail }) => {
        const key = overriding(detail);
        return key === undefined || !said.has(key);
      })
      .map(({ detail }) => ({ detail, inherited: true })),
  ];
}
