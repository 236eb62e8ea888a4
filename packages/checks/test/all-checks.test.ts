import { readdirSync } from 'node:fs';
import type { Finding } from '@setwright/circuit';
import { describe, expect, test } from 'vitest';
import { allChecks } from '../src/all.ts';
import type { Check } from '../src/check.ts';
import { pageOf } from '../src/explain.ts';
import { checkCircuit } from '../src/run.ts';
import { worse } from '../src/words/finding.ts';
import { circuitOf } from './support.ts';
import { withFix } from './trying.ts';

const folder = new URL('../src/checks/', import.meta.url);

/** What all checks together say of a text. */
const heardOf = (text: string): readonly Finding[] =>
  checkCircuit(circuitOf(text), allChecks).findings;

const isSerious = ({ severity }: Finding): boolean =>
  severity === 'error' || severity === 'warning';

/** A finding in one line, for a test that fails. */
const inLine = ({ check, severity, message }: Finding): string =>
  `${check} ${severity}: ${message}`;

/** Every sentence that a finding shows to a person. */
const sentencesOf = (finding: Finding): string[] => [
  finding.message,
  finding.why,
  finding.cure,
  ...finding.related.map(({ message }) => message),
  ...finding.fixes.map(({ title }) => title),
];

test('every check has a file of its own, named after its id, and is in the list once', () => {
  const files = readdirSync(folder).map((name) => name.replace(/\.ts$/, ''));
  expect(allChecks.map(({ id }) => id).sort()).toEqual(files.sort());
});

describe.each(allChecks.map((check): [string, Check] => [check.id, check]))('%s', (id, check) => {
  test('finds fault with its failing set, at its own severity or milder', () => {
    const own = heardOf(check.fails).filter((finding) => finding.check === id);
    expect(own).not.toEqual([]);
    for (const { severity } of own)
      expect(worse(severity, check.severity)).toBeGreaterThanOrEqual(0);
  });

  test('one fault is told once: at most one more serious finding goes with it', () => {
    const others = heardOf(check.fails).filter(
      (finding) => finding.check !== id && isSerious(finding),
    );
    expect(others.map(inLine).slice(1), others.map(inLine).join('\n')).toEqual([]);
  });

  test('its passing set is sound in every respect', () => {
    expect(heardOf(check.passes).filter(isSerious).map(inLine)).toEqual([]);
    expect(heardOf(check.passes).filter((finding) => finding.check === id)).toEqual([]);
  });

  test('each fix that it offers for the failing set takes the finding away', () => {
    const own = (text: string) => heardOf(text).filter((finding) => finding.check === id);
    const before = own(check.fails);
    for (const fix of before.flatMap(({ fixes }) => fixes)) {
      expect(own(withFix(check.fails, fix)).length, fix.title).toBeLessThan(before.length);
    }
  });

  test('its page has every heading', () => {
    const headings = pageOf(check)
      .split('\n')
      .filter((line) => line.startsWith('#'));
    expect(headings).toEqual([
      `# ${id}`,
      '## Why it matters',
      '## When it keeps silent',
      '## A set that it finds fault with',
      '## The same set put right',
    ]);
    for (const said of [check.summary, check.why, check.source, ...check.silent])
      expect(said.trim()).not.toBe('');
  });

  test('no sentence shows a hole', () => {
    const sentences = [check.fails, check.passes].flatMap(heardOf).flatMap(sentencesOf);
    for (const sentence of sentences) {
      expect(sentence).not.toMatch(/undefined|NaN|\[object|Infinity/);
      expect(sentence.trim()).not.toBe('');
    }
  });
});
