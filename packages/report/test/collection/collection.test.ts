import { readFileSync } from 'node:fs';
import { overlayOf } from '@setwright/diagram';
import { readReceivers } from '@setwright/language';
import { describe, expect, it } from 'vitest';
import { type CollectionEntry, collectionPage, collectionRow } from '../../src/index.ts';

const examples = new URL('../../../../examples/', import.meta.url);
const rowOf = (name: string) => {
  const text = readFileSync(new URL(`${name}.receiver`, examples), 'utf8');
  const [circuit] = readReceivers(text, name).circuits;
  return collectionRow(circuit!, { overlayOf }, [{ severity: 'error' }, { severity: 'hint' }]);
};

describe('the line of a set in the index', () => {
  it('tells what a restorer calls it, its year, its tubes and its dials', () => {
    expect(rowOf('neutralized-five')).toMatchObject({
      title: 'Lantern Cove Harbour Master',
      kind: 'Neutralized tuned-radio-frequency set',
      year: '1927',
      tubes: [
        { type: '01-A', count: 4 },
        { type: '12-A', count: 1 },
      ],
      dials: ['D1', 'D2', 'D3'],
    });
  });

  it('counts what the checks have to tell', () => {
    const { findings } = rowOf('crystal');
    expect(findings).toEqual({ error: 1, warning: 0, information: 0, hint: 1 });
  });

  it('has no tubes for a crystal set', () => {
    expect(rowOf('crystal')).toMatchObject({ kind: 'Crystal set', tubes: [] });
  });
});

const entry: CollectionEntry = {
  title: 'Lantern Cove Beacon',
  kind: 'Crystal set',
  year: '1923',
  tubes: [],
  dials: ['D1'],
  findings: { error: 0, warning: 0, information: 0, hint: 0 },
  path: 'beacon.receiver',
  href: 'sets/beacon-0123456789ab.html',
};
const pageOf = (more: Partial<Parameters<typeof collectionPage>[0]>) =>
  collectionPage(
    { title: 'Wireless room', entries: [entry], unread: [], without: [], madeBy: '', ...more },
    (text) => `hash of ${text.length}`,
  );

describe('the index of a collection', () => {
  it('links every set to its page', () => {
    expect(pageOf({})).toContain('<a href="sets/beacon-0123456789ab.html">Lantern Cove Beacon</a>');
  });

  it('is the same for the same sets', () => {
    expect(pageOf({})).toBe(pageOf({}));
  });

  it('lets nothing run but its own script, and fetches nothing', () => {
    const page = pageOf({});
    const script = /<script>([\s\S]*)<\/script>/.exec(page)?.[1] ?? '';
    expect(page).toContain(`default-src 'none'; script-src 'sha256-hash of ${script.length}'`);
    expect(page).not.toMatch(/ (?:src|style|onclick)=|https?:|@import|url\(/);
  });

  it('lets no title, file or cause act', () => {
    const hostile = '"><img src=x onerror=alert(1)></script><script>alert(2)</script>\u202e\u0007';
    const page = pageOf({
      title: hostile,
      entries: [{ ...entry, title: hostile, kind: hostile, year: hostile, path: hostile }],
      unread: [{ path: hostile, cause: hostile, cure: hostile }],
      without: [hostile],
      madeBy: hostile,
    });
    expect(page.match(/<script/g)).toHaveLength(1);
    expect(page).not.toContain('<img');
    for (const acting of ['\u202e', '\u0007']) expect(page).not.toContain(acting);
  });

  it('tells what could not be read, and which files hold no set', () => {
    const page = pageOf({
      unread: [{ path: 'burnt.receiver', cause: 'it is no text', cure: 'Name a set.' }],
      without: ['tubes.receiver'],
    });
    expect(page).toContain('<li><b>burnt.receiver</b>: it is no text. Name a set.</li>');
    expect(page).toContain('<li>tubes.receiver</li>');
    expect(page).toContain('1 set with 0 tubes; no errors found; 1 file that could not be read.');
  });

  it('sorts by worth and not by words where these would mislead', () => {
    const findings = { error: 1, warning: 12, information: 0, hint: 0 };
    const tubes = [
      { type: '01-A', count: 9 },
      { type: '71-A', count: 2 },
    ];
    const page = pageOf({ entries: [{ ...entry, findings, tubes }] });
    expect(page).toContain('data-sort="100120000"');
    expect(page).toContain('data-sort="11"');
  });

  it('names a set without a title', () => {
    expect(pageOf({ entries: [{ ...entry, title: ' ' }] })).toContain('Receiver without a name');
  });
});
