import { type Place, partKinds } from '@setwright/circuit';
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
import type { Known, Pattern } from './known.ts';
import type { AnyDetail, Said, SaidDetail } from './said.ts';

/** `like NAME`: everything of the other part but its ends, unless said anew. */
export function followLikes(cx: Lowering, into: Collected, known: Known): void {
  // What patterns are like has been followed where they stand.
  const done = new Set<Said>([...known.patterns.values()].map(({ said }) => said));
  for (const said of into.parts) {
    // From the part back to the one that is made like no other, then forward again.
    const chain: Said[] = [];
    const seen = new Set<Said>();
    for (let at: Said | undefined = said; at && !done.has(at); ) {
      chain.push(at);
      seen.add(at);
      const base: Said | undefined = baseOf(cx, into, at, seen, known);
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
  known: Known,
): Said | undefined {
  const like = likeOf(said);
  if (!like?.target || !partKinds[said.kind].details.includes('like')) return undefined;
  const written = like.target.ref.replace(/\u2212/g, '-');
  const own = into.named.get(written);
  const pattern = known.patterns.get(written);
  const place = placeOf(cx, like.target);
  const { noun } = partKinds[said.kind];
  // `coil L1 like L1` can only mean the pattern of that name.
  const base = pattern && (!own || own === said) ? pattern.said : own;
  if (base && base.kind === said.kind && !seen.has(base)) {
    if (pattern && base === own) ownComesFirst(cx, said, base, pattern, place);
    return base;
  }
  const names = [...into.parts, ...[...known.patterns.values()].map((other) => other.said)]
    .filter((part) => part.kind === said.kind && !seen.has(part))
    .map((part) => part.name);
  cx.unread.push(place);
  // It may stand in the file that cannot be read: that has been told of.
  if (!base && known.isLost) return undefined;
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

/** Notes that a part of the set itself is meant, though there is a pattern of that name as well. */
function ownComesFirst(cx: Lowering, said: Said, own: Said, pattern: Pattern, place: Place) {
  remark(
    cx,
    'own-pattern',
    'hint',
    place,
    {
      message: `${said.name} is made like the ${own.name} of this set, not like the pattern of that name.`,
      why: 'A name of the set itself comes before that of a pattern outside it.',
      cure: 'Nothing need be done if that is what you want; else give one of them another name.',
    },
    {
      parts: [said.name],
      related: [
        { place: own.namePlace, message: `the ${own.name} of this set` },
        { place: pattern.namePlace, message: `the pattern ${pattern.name}` },
      ],
    },
  );
}

function copy(said: Said, base: Said) {
  said.details = merged(said.details, base);
  if (said.kind === 'tube' && said.typeName === undefined) {
    said.typeName = base.typeName;
    said.tubeType = base.tubeType;
  }
  for (const winding of base.windings) {
    const own = said.windings.find((other) => other.ownName === winding.ownName);
    if (own) own.details = merged(own.details, winding);
    else {
      said.windings.push({
        ...winding,
        name: `${said.name}.${winding.ownName}`,
        owner: said,
        stage: said.stage,
        place: said.place,
        namePlace: said.namePlace,
        details: merged([], winding),
        // Its own words stand outside the set where it comes from a pattern.
        node: base.text ? said.node : winding.node,
        unread: base.text ? said.unread : winding.unread,
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

function merged(own: readonly SaidDetail[], base: Said): SaidDetail[] {
  const said = new Set(own.map(({ detail }) => overriding(detail)));
  return [
    ...own,
    ...base.details
      .filter(({ detail }) => !isOwn(detail))
      .filter(({ detail }) => {
        const key = overriding(detail);
        return key === undefined || !said.has(key);
      })
      .map(({ detail, text = base.text }) => ({
        detail,
        inherited: true,
        ...(text ? { text } : {}),
      })),
  ];
}
