import { createHash } from 'node:crypto';
import { layoutMemory } from '@setwright/diagram';
import { describe, expect, it } from 'vitest';
import type { PageSource } from '../../src/features/pages/page-source.ts';
import { serviceSheet } from '../../src/features/sheet.ts';
import { exampleText, findingsIn, read, setWith, uri } from '../support.ts';

const sourceOf = (text: string): PageSource => {
  const snapshot = read(text);
  return {
    snapshot,
    lastWhole: undefined,
    findings: findingsIn(snapshot),
    units: 'period',
    drawings: {
      draughtsman: () => import('@setwright/diagram'),
      memory: layoutMemory(),
      engine: ({ layoutEngine }) => layoutEngine(),
    },
  };
};

const sheet = (text: string, receiver = 0) => serviceSheet(sourceOf(text), { uri, receiver });

describe('the service sheet for an editor', () => {
  it('is one page with the schematic, which runs nothing and lets in its own styles alone', async () => {
    const page = (await sheet(setWith())) ?? '';
    expect(page).toMatch(/^<!doctype html>/);
    expect(page).toContain('data-part="V1"');
    expect(page).not.toMatch(/<script| on\w+="/);
    const [, policy = ''] = /Content-Security-Policy" content="([^"]*)"/.exec(page) ?? [];
    const styles = [...page.matchAll(/<style>([\s\S]*?)<\/style>/g)].map(([, text]) => text ?? '');
    expect(styles).toHaveLength(2);
    for (const text of styles)
      expect(policy).toContain(createHash('sha256').update(text).digest('base64'));
  });

  it('tells what is open in this receiver and not in another', async () => {
    const faulty = setWith().replace('leak R1 2 meg from V1.grid to A+', '');
    const text = `${faulty}${exampleText('crystal')}`;
    expect(await sheet(text)).toMatch(/has no leak/);
    const second = await sheet(text, 1);
    expect(second).toContain('<h1>Lantern Cove Beacon</h1>');
    expect(second).toContain('The checks find nothing.');
  });

  it('prints what is meant so', async () => {
    const text = setWith({ set: 'meant shock-hazard "stands behind glass"' });
    expect(await sheet(text)).toContain('stands behind glass');
  });

  it('of a text without a receiver is none', async () => {
    expect(await sheet('// nothing yet\n')).toBeUndefined();
  });
});
