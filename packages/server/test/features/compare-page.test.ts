import { layoutMemory } from '@setwright/diagram';
import type { Page, PageRequest } from '@setwright/webview';
import { describe, expect, it } from 'vitest';
import { exportedPage, pageOf } from '../../src/features/pages/page.ts';
import { exampleText, findingsIn, read, setWith, uri, wordsAt } from '../support.ts';

const memory = layoutMemory();
const request: PageRequest = {
  uri,
  page: 'compare',
  receiver: 0,
  view: 'whole',
  symbols: 'modern',
  values: false,
};

const sourceOf = (text: string) => {
  const snapshot = read(text);
  return {
    snapshot,
    lastWhole: undefined,
    findings: findingsIn(snapshot),
    units: 'period',
    drawings: {
      draughtsman: () => import('@setwright/diagram'),
      memory,
      engine: ({ layoutEngine }: typeof import('@setwright/diagram')) => layoutEngine(),
    },
  } as const;
};

/** The page of a text against an older one. */
function compared(now: string, older?: string, receiver = 0): Promise<Page> {
  const against = older === undefined ? {} : { against: { title: 'as saved', text: older } };
  return pageOf(sourceOf(now), { ...request, ...against, receiver });
}

const old = setWith();
const now = old.replace('leak R1 2 meg', 'leak R1 3 meg');

describe('the page of the comparison', () => {
  it('shows the marked drawing, and sentences that lead to their parts', async () => {
    const page = await compared(now, old);
    expect(page.svg).toContain('data-mark="changed"');
    const [table] = page.tables;
    expect(table?.rows).toEqual([['Changed', 'R1 is 3 meg now, and was 2 meg.']]);
    expect(table?.about).toEqual(['R1']);
    const range = page.parts.R1!.range;
    expect(wordsAt(read(now), range)).toMatch(/^leak R1 3 meg/);
    expect(page.notes).toContain('Against the text as saved.');
  });

  it('draws what is gone, which has no line to go to', async () => {
    const page = await compared(now.replace(/ *leak R1.*\n/, ''), old);
    expect(page.svg).toContain('data-mark="removed"');
    expect(page.parts.R1).toBeUndefined();
  });

  it('is kept as a drawing of its own', async () => {
    const against = { title: 'as saved', text: old };
    const svg = await exportedPage(sourceOf(now), {
      ...request,
      against,
      theme: 'dark',
      sheet: true,
    });
    expect(svg).toContain('data-mark="changed"');
    expect(svg).not.toContain('var(');
  });

  it('of a set that is the same says so', async () => {
    const page = await compared(old.replace('2 meg', '2000 kilohms'), old);
    expect(page.svg).toBeUndefined();
    expect(page.notes.join()).toContain('The set is the same as saved');
  });

  it('without an older text says why there is none', async () => {
    expect((await compared(now)).notes.join()).toContain('There is no older text');
  });

  it('of a set that the older text has not says that it is new', async () => {
    const page = await compared(`${old}${exampleText('crystal')}`, old, 1);
    expect(page.notes.join(' ')).toContain('This set is new');
  });

  it('says which lines of the older text are not compared', async () => {
    const page = await compared(now, old.replace('leak R1 2 meg', 'leak R1 2 ( meg'));
    expect(page.notes.join(' ')).toMatch(/Of the text as saved line \d+ cannot be read in full/);
  });
});
