import { type Dial, endId, type Gang, type Place, partKinds } from '@setwright/circuit';
import { nearest, parseNumber } from '@setwright/units';
import {
  isAmountDetail,
  isCompanionDetail,
  isEndDetail,
  isFlagDetail,
  isTitleDetail,
  isWordDetail,
  type PartStatement,
} from '../generated/ast.ts';
import type { Collected } from './collected.ts';
import { type Lowering, placeOf, placeOfProperty, remark, replacing, unquoted } from './context.ts';
import type { Read } from './details.ts';
import { leftOver } from './facts.ts';
import { type Joining, onePoint } from './joins.ts';
import { lookUp, type Naming, nameUp } from './references.ts';
import type { Said } from './said.ts';

/** Reads the gangs: condensers on one shaft, and what their frame is joined to. */
export function readGangs(naming: Naming, joining: Joining, all: Collected): (Gang & Shaft)[] {
  const { cx } = naming;
  return all.gangs.map((node) => {
    const members: Said[] = [];
    let insulated = false;
    for (const detail of node.details) {
      if (isWordDetail(detail)) {
        for (const [index, word] of detail.words.entries()) {
          const place = placeOfProperty(cx, detail, 'words', index);
          const meaning = nameUp(naming, word, place, undefined);
          if (meaning?.said.kind === 'condenser') members.push(meaning.said);
          else if (meaning) {
            remark(
              cx,
              'unknown-name',
              'error',
              place,
              {
                message: `${word} is no condenser, so ${node.name} cannot turn it.`,
                why: 'A gang is condensers on one shaft.',
                cure: 'Name condensers only.',
              },
              { parts: [meaning.said.name] },
            );
          }
        }
      } else if (isFlagDetail(detail) && detail.word === 'insulated') insulated = true;
      else if (!isTitleDetail(detail) && !(isEndDetail(detail) && detail.led === 'frame'))
        leftOver(cx, detail, `a gang such as ${node.name}`, ['gang G1 C1, C2 frame to GND']);
    }
    for (const detail of node.details) {
      if (!isEndDetail(detail) || detail.led !== 'frame' || !detail.target) continue;
      onePoint(cx, detail.target);
      const frame = lookUp(naming, detail.target, undefined);
      if (!frame) continue;
      const place = placeOf(cx, detail);
      const otherPlace = placeOf(cx, detail.target);
      for (const member of members) {
        if (!member.ends.includes('rotor')) {
          remark(
            cx,
            'unknown-name',
            'error',
            otherPlace,
            {
              message: `${member.name} has no rotor for the frame of ${node.name} to join.`,
              why: 'A frame is joined to the rotors of variable condensers.',
              cure: `Write condenser ${member.name} variable.`,
            },
            { parts: [member.name] },
          );
          continue;
        }
        member.spoken.add('rotor');
        joining.loose.push({
          id: endId(member, 'rotor'),
          other: frame,
          place,
          otherPlace,
          said: 'frame',
        });
      }
    }
    return {
      name: node.name ?? '',
      members: members.map(({ name }) => name),
      place: placeOf(cx, node),
      insulated,
    };
  });
}

/** Whether the shaft of a gang is insulated from its rotors. */
export interface Shaft {
  readonly insulated: boolean;
}

/** Kinds of part that a dial turns. */
const turnable: ReadonlySet<string> = new Set([
  'condenser',
  'rheostat',
  'potentiometer',
  'winding',
  'variometer',
  'resistor',
  'leak',
  'selector',
]);

/** Reads the dials and what they turn. */
export function readDials(naming: Naming, all: Collected, gangs: readonly Gang[]): Dial[] {
  const { cx } = naming;
  const turnedBy = gangs.map((gang) => gang.name);
  return all.dials.map((node) => {
    let low = 0;
    let high = 100;
    let reversed = false;
    const drives: string[] = [];
    const strays: Place[] = [];
    for (const detail of node.details) {
      if (isAmountDetail(detail) && detail.amount?.high) {
        low = parseNumber(detail.amount.low?.number ?? '') ?? 0;
        high = parseNumber(detail.amount.high.number ?? '') ?? 100;
        // A dial's numbers have no unit: a word behind one is a garbled word of the line.
        for (const end of [detail.amount.low, detail.amount.high])
          if (end.unit !== undefined) strays.push(placeOfProperty(cx, end, 'unit'));
      } else if (isFlagDetail(detail) && detail.word === 'reversed') reversed = true;
      else if (isCompanionDetail(detail) && detail.led === 'drives') {
        for (const target of detail.targets) {
          onePoint(cx, target);
          if (turnedBy.includes(target.ref)) {
            drives.push(target.ref);
            continue;
          }
          const meaning = lookUp(naming, target, undefined, turnedBy);
          if (!meaning) continue;
          if (turnable.has(meaning.said.kind)) drives.push(meaning.said.name);
          else {
            const noun = partKinds[meaning.said.kind].noun;
            remark(
              cx,
              'unknown-name',
              'error',
              placeOf(cx, target),
              {
                message: `${node.name} cannot turn ${target.ref}, a ${noun}.`,
                why: 'A dial turns a gang, condensers, rheostats, potentiometers or movable windings.',
                cure: 'Name what stands on its shaft.',
              },
              { parts: [meaning.said.name] },
            );
          }
        }
      } else if (!isTitleDetail(detail)) strays.push(placeOf(cx, detail));
    }
    strayOnDial(cx, node, strays);
    const title = unquoted(node.details.find(isTitleDetail)?.text);
    return { name: node.name ?? '', title, low, high, reversed, drives, place: placeOf(cx, node) };
  });
}

/** Words on a dial's line that mean nothing there: a garbled `drives` takes its names along. */
function strayOnDial(cx: Lowering, node: PartStatement, strays: readonly Place[]) {
  const first = strays[0];
  if (!first || cx.partly?.has(node.$cstNode?.offset ?? -1)) return;
  const place = { ...first, end: strays.at(-1)?.end ?? first.end };
  const text = cx.text.slice(place.start, place.end);
  const word = text.split(/[\s,]/)[0] ?? '';
  const likely = nearest(word, ['drives', 'reversed'], 1);
  remark(
    cx,
    'unknown-word',
    'error',
    place,
    {
      message: `"${text}" says nothing of a dial such as ${node.name ?? ''}.`,
      why: 'What is not understood is never passed over in silence.',
      cure: likely[0] ? `Did you mean "${likely[0]}"?` : 'A dial reads dial D1 0 to 100 drives C1.',
    },
    {
      fixes: likely.map((other) =>
        replacing(`Change to ${other}`, { ...first, end: first.start + word.length }, other),
      ),
    },
  );
}

/** An insulated shaft insulates every condenser on it. */
export function insulateShafts(gangs: readonly (Gang & Shaft)[], reads: ReadonlyMap<Said, Read>) {
  const shafts = new Set(gangs.flatMap((gang) => (gang.insulated ? gang.members : [])));
  for (const [said, read] of reads) if (shafts.has(said.name)) read.words.add('insulated');
}
