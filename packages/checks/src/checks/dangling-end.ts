import type { End, Finding, Part, PartKindName } from '@setwright/circuit';
import type { Check } from '../check.ts';
import { readingExample } from '../examples/reading-example.ts';
import { led } from '../fixes/retarget.ts';
import { gridHomeOf } from '../grids/grid-home.ts';
import { remarksOf } from '../remarks-of.ts';
import type { Study } from '../study.ts';
import { railsOf } from '../supplies/rails.ts';
import { otherJunction, partsAt, type TubeAt } from '../tubes/tubes.ts';
import { type JoinedEnds, joinedEnds } from '../wiring/joined-ends.ts';
import { alsoPart, finding, listed } from '../words/finding.ts';

/** An end of a part that is joined to nothing, where the part's other end is in use. */
export const danglingEnd: Check = {
  id: 'dangling-end',
  group: 'Wiring',
  severity: 'warning',
  summary: 'An end of a part is joined to nothing, though the part is in use.',
  why: 'No current passes a part with one end free, so it does nothing; most often a wire was forgotten or a name mistyped.',
  silent: [
    'A post waits for what is outside the set, and a battery tap need not be used.',
    'Turns of a winding beyond the tap in use, and the unused half of a coil, are left open on purpose.',
    'A winding that is joined at one end only may work by its capacity or be for balancing: no more than a hint, unless it is the tuned coil of a grid.',
    'A potentiometer or tapped part of which two ends are in use needs no third.',
    'A part that is joined to nothing at all is an isolated part, and a winding of which nothing is used is not needed.',
    'An end that a selector, switch or jack reaches in any position is joined.',
    'The electrodes of a tube have checks of their own.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: readingExample([
    'condenser C3 .001 mfd from V1.plate to GND',
    'condenser C3 .001 mfd from V1.plate',
  ]),
  passes: readingExample(),
  find(study) {
    const ends = joinedEnds(study.circuit);
    return [
      ...remarksOf(study, 'dangling-end'),
      ...study.circuit.parts.flatMap((part) => dangling(study, ends, part)),
    ];
  },
};

/** Kinds that other checks speak of: taps and posts may be unused, electrodes have their own. */
const notHere: ReadonlySet<PartKindName> = new Set([
  'battery',
  'eliminator',
  'post',
  'bus',
  'coil',
  'transformer',
  'tube',
]);

/** Kinds that are one length of wire, of which a piece may be left open. */
const wound: ReadonlySet<PartKindName> = new Set(['winding', 'loop']);

function dangling(study: Study, { isJoined }: JoinedEnds, part: Part): Finding[] {
  if (notHere.has(part.kind)) return [];
  const ends = part.ends.filter((end) => isMeantToBeJoined(part, end));
  const free = ends.filter((end) => !isJoined(end));
  const tapsInUse = part.ends.filter((end) => isTap(part, end) && isJoined(end));
  const inUse = ends.length - free.length + tapsInUse.length;
  if (free.length === 0) return [];
  if (part.kind === 'shield') return study.circuit.joins.length > 0 ? [openShield(part)] : [];
  if (inUse !== 1) return [];
  const isWound = wound.has(part.kind);
  const [used] = [...ends.filter((end) => isJoined(end)), ...tapsInUse];
  const names = listed(free.map(({ id }) => id));
  const is = free.length > 1 ? 'are' : 'is';
  const [open] = free;
  const tuned = isWound && used && open ? tunedGridAt(study, used) : undefined;
  if (open && tuned) return [openCoil(study, part, open, tuned)];
  return [
    finding({
      check: 'dangling-end',
      severity: isWound ? 'hint' : 'warning',
      message: `${names} ${is} joined to nothing; of ${part.name} only ${used?.name ?? 'one end'} is in use.`,
      why: isWound
        ? 'No current passes a winding with one end free, unless it is meant to work by its capacity.'
        : 'No current passes a part with one end free, so it does nothing in the set.',
      cure: `Say where the free end goes, or, if it is meant to hang free, write meant dangling-end "why".`,
      place: part.place,
      parts: [part.name],
    }),
  ];
}

/** A tube whose grid a junction leads to, and the condenser that is there to tune it. */
interface TunedGrid {
  readonly tube: TubeAt;
  readonly tuner: Part;
}

/** The tuned grid that the one end of a winding in use leads to, straight or through one part. */
function tunedGridAt({ circuit, tubes }: Study, { junction }: End): TunedGrid | undefined {
  const here = partsAt(circuit, junction);
  const tuner = here.find(({ kind, words }) => kind === 'condenser' && words.has('variable'));
  if (!tuner) return undefined;
  const near = new Set([
    junction,
    ...here.flatMap((part) =>
      part !== tuner && (part.kind === 'condenser' || part.kind === 'resistor')
        ? (otherJunction(part, junction) ?? [])
        : [],
    ),
  ]);
  const tube = tubes.find(({ grid }) => grid !== undefined && near.has(grid.junction));
  return tube && { tube, tuner };
}

function openCoil(study: Study, part: Part, open: End, { tube, tuner }: TunedGrid): Finding {
  const { circuit, conduction } = study;
  const home = gridHomeOf(circuit, railsOf(conduction), tube, false)?.name;
  return finding({
    check: 'dangling-end',
    severity: 'warning',
    message: `${open.id} is joined to nothing: the grid circuit of ${tube.part.name} is open there, and ${tuner.name} tunes nothing.`,
    why: 'No current passes a coil with one end free, whatever its grid gets home through: the stage is deaf.',
    cure: `Join ${open.id} to ${home ?? 'the filament side'}.`,
    place: part.place,
    related: [
      alsoPart(tuner, 'the condenser that should tune it'),
      alsoPart(tube.part, 'the tube whose grid it drives'),
    ],
    parts: [part.name, tube.part.name],
    fixes: home === undefined ? [] : led(circuit, open.id, home),
  });
}

/** An end that matters: of a switch or jack only those that its own contacts join. */
function isMeantToBeJoined(part: Part, end: End): boolean {
  if (part.kind === 'switch')
    return part.contacts.some(({ from, to }) => from === end.id || to === end.id);
  // Taps that go nowhere are for another time; so is a centre.
  return !isTap(part, end);
}

const isTap = (part: Part, end: End) => part.taps.some((tap) => tap.end === end.name);

function openShield(part: Part): Finding {
  return finding({
    check: 'dangling-end',
    severity: 'hint',
    message: `The shield ${part.name} is joined to nothing.`,
    why: 'A shield that floats carries the field on by its capacity instead of stopping it.',
    cure: `Join it to ground: shield ${part.name} … to the ground post.`,
    place: part.place,
    parts: [part.name],
  });
}
