import { allChecks, checkCircuit } from '@setwright/checks';
import type { Finding, Fix } from '@setwright/circuit';
import { readReceivers } from '@setwright/language';
import { describe, expect, it } from 'vitest';
import { faultySets } from './faulty-sets.ts';

/** The checks whose faulty example gets no fix, and why a machine cannot write one. */
const withoutFix: Readonly<Record<string, string>> = {};

/** Everything that reading a text and all checks, the thorough ones too, say of it. */
function heard(text: string): readonly Finding[] {
  const { circuits, remarks } = readReceivers(text, 'fixed.receiver');
  return [
    ...remarks,
    ...circuits.flatMap((circuit) => checkCircuit(circuit, allChecks).findings),
  ];
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

describe.each(faultySets.map(({ id, text }) => [id, text] as const))('%s', (id, text) => {
  const before = heard(text);
  const own = before.filter(({ check }) => check === id);
  const offered = own.some(({ fixes }) => fixes.length > 0);

  it('offers a fix for its faulty example, or stands in the list of those that cannot', () => {
    expect(offered ? 'offers a fix' : 'offers none').toBe(
      id in withoutFix ? 'offers none' : 'offers a fix',
    );
  });

  const graveBefore = new Set(grave(before));
  for (const finding of before)
    for (const fix of finding.fixes)
      it(`${fix.title}: cures ${finding.check} and does no harm`, () => {
        const after = heard(applied(text, fix));
        expect(after.map(said)).not.toContain(said(finding));
        expect(grave(after).filter((line) => !graveBefore.has(line))).toEqual([]);
      });
});

it('the list of those that cannot names checks that there are', () => {
  const ids = new Set(allChecks.map(({ id }) => id));
  expect(Object.keys(withoutFix).filter((id) => !ids.has(id))).toEqual([]);
});
