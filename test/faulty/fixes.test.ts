import { allChecks, checkCircuit } from '@setwright/checks';
import type { Finding, Fix } from '@setwright/circuit';
import { readReceivers } from '@setwright/language';
import { describe, expect, it } from 'vitest';
import { faultySets } from './faulty-sets.ts';

/** The checks whose faulty example gets no fix, and why a machine cannot write one. */
const withoutFix: Readonly<Record<string, string>> = {
  'own-tube-type': 'nothing need be done',
  'own-pattern': 'nothing need be done',
  'used-file': 'where the file lies is not in the text',
  'dangling-end': 'where the free end goes is not in the text',
  'shorted-part': 'which end belongs elsewhere is not in the text',
  'lost-in-some-position': 'what the open position is for is the owner’s choice',
  'plate-voltage-on-grid':
    'the way has to be cut and a condenser put in, in a place of the owner’s choice',
  'plate-voltage-on-filament': 'where the tap belongs is not in the text',
  'earths-collide': 'which supply may float is the owner’s choice',
  'battery-drain': 'which battery to use is the owner’s choice',
  'series-string-uneven': 'the shunts act on one another, and have to be tried',
  'tube-out-over-voltage': 'it takes controls of their own, or a habit',
  'damped-tank': 'tuned circuit and resistor have to be wired anew',
  'dials-disagree': 'which of the coils is the right one is not in the text',
  'intermediates-differ': 'which of the transformers is the right one is not in the text',
  radiates: 'how the set is used is the owner’s choice',
  'stage-oscillates': 'lossers or neutralizing is the owner’s choice',
  'bias-out-of-step': 'the C battery of the example has no tap that fits',
  'found-differs': 'the part itself has to be mended',
  'gas-tube-misplaced': 'which hard tube to use is the owner’s choice',
  'plate-over-voltage': 'with lower plate volts the bias has to change too',
  motorboats: 'what holds has to be tried on the set',
  'transformer-unloaded': 'which grid it should drive is not in the text',
  'aerial-at-plate-voltage': 'how the aerial is coupled is the owner’s choice',
  'dial-shaft-live': 'grounding the rotor or insulating the shaft is the owner’s choice',
  'battery-tired': 'the battery itself has to be replaced',
  'meter-cannot-tell': 'the reading has to be taken anew',
  'reading-out-of-range': 'what is the matter with the set has to be found',
  'shock-hazard': 'it asks for care, not for a change',
};

interface Heard {
  readonly findings: readonly Finding[];
  /** Ids of the checks that wait until every line can be read. */
  readonly waiting: ReadonlySet<string>;
}

/** Everything that reading a text and all checks, the thorough ones too, say of it. */
function heard(text: string): Heard {
  const { circuits, remarks } = readReceivers(text, 'fixed.receiver');
  const checked = circuits.map((circuit) => checkCircuit(circuit, allChecks));
  return {
    findings: [...remarks, ...checked.flatMap(({ findings }) => findings)],
    waiting: new Set(checked.flatMap(({ waiting }) => waiting)),
  };
}

/** A text with a fix applied to it. */
function applied(text: string, { edits }: Fix): string {
  return [...edits]
    .sort((a, b) => b.place.start - a.place.start)
    .reduce(
      (now, { place, text: put }) => now.slice(0, place.start) + put + now.slice(place.end),
      text,
    );
}

const said = ({ check, message }: Finding): string => `${check}: ${message}`;

/** The errors and warnings, each in a line. */
function grave(findings: readonly Finding[]): readonly string[] {
  return findings
    .filter(({ severity }) => severity === 'error' || severity === 'warning')
    .map(said);
}

/** What is wrong after a fix and was not before; a check that waited before is not held to it. */
function harm(text: string, before: Heard, fix: Fix): readonly string[] {
  const known = new Set(grave(before.findings));
  const after = heard(applied(text, fix)).findings.filter(
    ({ check }) => !before.waiting.has(check),
  );
  return grave(after).filter((line) => !known.has(line));
}

const groupOf = new Map(allChecks.map(({ id, group }) => [id, group]));

describe.each(faultySets.map(({ id, text }) => [id, text] as const))('%s', (id, text) => {
  const before = heard(text);
  const own = before.findings.filter(({ check }) => check === id);

  it('offers a fix for its faulty example, or stands in the list of those that cannot', () => {
    const offered = own.some(({ fixes }) => fixes.length > 0);
    expect(offered ? 'offers a fix' : 'offers none').toBe(
      id in withoutFix ? 'offers none' : 'offers a fix',
    );
  });

  const fixable = before.findings.filter(({ fixes }) => fixes.length > 0);
  if (fixable.length > 0)
    it('each fix takes its finding away and brings no other error or warning', () => {
      for (const finding of fixable) {
        const harms = finding.fixes.map((fix) => {
          const after = heard(applied(text, fix)).findings;
          expect(after.map(said), fix.title).not.toContain(said(finding));
          return harm(text, before, fix);
        });
        // Of the ways to read a slip of the pencil only the one that was meant is harmless.
        const isSlip = groupOf.get(finding.check) === 'Reading the text';
        const worst = isSlip && harms.some((each) => each.length === 0) ? [] : harms.flat();
        expect(worst, finding.fixes.map(({ title }) => title).join(', ')).toEqual([]);
      }
    });
});

it('the list of those that cannot names checks that there are', () => {
  const ids = new Set(allChecks.map(({ id }) => id));
  expect(Object.keys(withoutFix).filter((id) => !ids.has(id))).toEqual([]);
});
