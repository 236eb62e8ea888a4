import type { Value } from '@setwright/circuit';
import { nearest } from '@setwright/units';
import {
  isAmountDetail,
  isByDetail,
  isFactStatement,
  isTargetStatement,
  isWithDetail,
  isWordDetail,
  type TargetStatement,
} from '../generated/ast.ts';
import { readValue } from './amounts.ts';
import { broughtHome } from './brought-home.ts';
import { placeOf, remark, replacing } from './context.ts';
import { incomplete, isGarbledLead, leftOver, needsAmount } from './facts.ts';
import { list, type Naming } from './references.ts';
import type { Said } from './said.ts';

/** What a coil's or transformer's block says of the whole: form, tuning, couplings. */
export type CoilFacts = (coil: Said) => Readonly<Record<string, Value>>;

/** Reads the facts of coils, each once; one that is made like another has the other's as well. */
export function coilFactsOf(naming: Naming): CoilFacts {
  const known = new Map<Said, Record<string, Value>>();
  const { file } = naming.cx;
  return (coil) => {
    const chain: Said[] = [];
    for (let at: Said | undefined = coil; at && !known.has(at); at = at.like?.said) chain.push(at);
    for (const link of chain.reverse()) {
      const base = link.like && known.get(link.like.said);
      const values = base && link.like ? { ...broughtHome(base, file, link.like.place) } : {};
      readCoilFacts(link.text ? { ...naming, cx: link.text, mentions: [] } : naming, link, values);
      known.set(link, values);
    }
    return known.get(coil) ?? {};
  };
}

function readCoilFacts(naming: Naming, said: Said, values: Record<string, Value>) {
  const { cx } = naming;
  for (const inner of said.children) {
    if (isFactStatement(inner)) {
      const isTuned = inner.keyword === 'tuned';
      if (!isTuned && inner.keyword !== 'form') continue;
      if (isGarbledLead(cx, inner)) continue;
      for (const detail of inner.details) {
        if (isAmountDetail(detail) && !detail.amount?.high) {
          const dimension = isTuned ? 'frequency' : 'length';
          const what = isTuned ? `What ${said.name} is tuned to` : `The form of ${said.name}`;
          const value = readValue(cx, detail.amount?.low, dimension, what);
          if (value) values[isTuned ? 'tuned' : 'form'] = value;
        } else if (isByDetail(detail) && !isTuned) {
          const value = readValue(cx, detail.amount, 'length', `The form of ${said.name}`);
          if (value) values.formLength = value;
        } else {
          leftOver(cx, detail, `the ${inner.keyword} of ${said.name}`, [
            isTuned ? 'tuned 45 kc' : 'form 2 3/4 in by 4 in',
          ]);
        }
      }
      needsAmount(cx, inner, isTuned ? 'tuned 45 kc' : 'form 2 3/4 in');
    } else if (isTargetStatement(inner) && inner.keyword === 'coupling') {
      readCoupling(naming, said, inner, values);
    }
  }
}

/** `coupling aerial with grid k .3`: two windings of one coil and how closely they couple. */
function readCoupling(
  naming: Naming,
  said: Said,
  inner: TargetStatement,
  values: Record<string, Value>,
) {
  const { cx } = naming;
  const second = inner.details.find(isWithDetail);
  const names: string[] = [];
  for (const target of [inner.target, second?.target]) {
    const written = target?.ref;
    if (target === undefined || written === undefined) continue;
    const place = placeOf(cx, target);
    const winding = said.windings.find(
      ({ ownName, name }) => ownName === written || name === written,
    );
    if (winding) {
      names.push(winding.ownName);
      naming.mentions.push({ place, meaning: { kind: 'part', said: winding } });
      continue;
    }
    const known = said.windings.map(({ ownName }) => ownName);
    remark(
      cx,
      'unknown-name',
      'error',
      place,
      {
        message: `${said.name} has no winding called "${written}".`,
        why: 'How closely its windings are coupled is not known.',
        cure: known.length ? `It has ${list(known)}.` : 'Say its windings first.',
      },
      {
        parts: [said.name],
        fixes: nearest(written, known, 2).map((name) =>
          replacing(`Change to ${name}`, place, name),
        ),
      },
    );
  }
  for (const detail of inner.details) {
    const isK = isWordDetail(detail) && detail.words.every((word) => word === 'k');
    if (detail !== second && !isK && !isAmountDetail(detail))
      leftOver(cx, detail, `the coupling of ${said.name}`, ['coupling aerial with grid k .3']);
  }
  const amount = inner.details.find(isAmountDetail);
  if (!second || !amount) {
    incomplete(cx, inner, second ? 'how closely' : 'with which winding', [
      'coupling aerial with grid k .3',
    ]);
  }
  const what = `The coupling of ${said.name}`;
  const value = readValue(cx, amount?.amount?.low, ['number', 'percent'], what);
  const [first, other] = names;
  if (value && first !== undefined && other !== undefined)
    values[`coupling ${first} ${other}`] = value;
}
