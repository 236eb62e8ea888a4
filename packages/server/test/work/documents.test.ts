import { describe, expect, it } from 'vitest';
import { documentsIn, type OpenDocument } from '../../src/work/documents.ts';
import type { Found } from '../../src/work/examine.ts';
import { findingsIn, read, setWith, uri } from '../support.ts';

/** Documents whose time for long work comes at once. */
function watched() {
  const told: { stage: Found['stage']; version: number; checks: string[] }[] = [];
  const failures: unknown[] = [];
  const documents = documentsIn({
    pause: () => new Promise((resolve) => setImmediate(resolve)),
    quiet: 1,
    told: ({ snapshot }: OpenDocument, { stage, findings }) =>
      told.push({
        stage,
        version: snapshot.version,
        checks: findings.map(({ check }) => check),
      }),
    failed: (error) => failures.push(error),
  });
  /** Changes the first of these words to others. */
  const change = (version: number, words: string, put: string): void => {
    const { snapshot } = documents.get(uri)!;
    const start = snapshot.text.indexOf(words);
    const range = snapshot.range({ start, end: start + words.length });
    documents.change(uri, version, [{ range, text: put }]);
  };
  const checks = () => documents.get(uri)!.findings.map(({ check }) => check);
  return { documents, told, failures, change, checks };
}

const leakless = setWith().replace('leak R1 2 meg from V1.grid to A+', '');

describe('a document that is opened', () => {
  it('is told of stage by stage, the text first and what takes long last', async () => {
    const { documents, told, failures } = watched();
    documents.open(uri, 1, setWith());
    await documents.settled(uri);
    expect(told.map(({ stage }) => stage)).toEqual(['text', 'wiring', 'numbers']);
    await expect.poll(() => told.at(-1)?.stage).toBe('thorough');
    expect(failures).toEqual([]);
  });

  it('has the findings that the checks have by themselves', async () => {
    const { documents, checks } = watched();
    documents.open(uri, 1, leakless);
    await documents.settled(uri);
    expect(checks()).toEqual(findingsIn(read(leakless)).map(({ check }) => check));
    expect(checks()).toContain('grid-condenser-without-leak');
  });
});

describe('a document that is changed', () => {
  it('is examined in its latest version only', async () => {
    const { documents, told, change } = watched();
    documents.open(uri, 1, setWith());
    change(2, 'R1 2 meg', 'R1 3 meg');
    change(3, 'R1 3 meg', 'R1 4 meg');
    await documents.settled(uri);
    expect(new Set(told.map(({ version }) => version))).toEqual(new Set([3]));
  });

  it('keeps what waiting checks found while another line is half typed', async () => {
    const { documents, checks, change } = watched();
    documents.open(uri, 1, leakless);
    await documents.settled(uri);
    change(2, 'phones PH1', 'phnes PH1');
    await documents.settled(uri);
    expect(checks()).toContain('unreadable-line');
    expect(checks()).toContain('grid-condenser-without-leak');
  });

  it('drops what was found on the line that is half typed', async () => {
    const { documents, checks, change } = watched();
    documents.open(uri, 1, leakless);
    await documents.settled(uri);
    change(2, 'tube V1', 'tub V1');
    await documents.settled(uri);
    expect(checks()).toContain('unreadable-line');
    expect(checks()).not.toContain('grid-condenser-without-leak');
  });

  it('forgets what it kept once the line can be read again', async () => {
    const { documents, checks, change } = watched();
    documents.open(uri, 1, leakless);
    await documents.settled(uri);
    change(2, 'phones PH1', 'phnes PH1');
    await documents.settled(uri);
    change(3, 'phnes PH1', 'leak R1 2 meg from V1.grid to A+\n    phones PH1');
    await documents.settled(uri);
    const { snapshot } = documents.get(uri)!;
    expect(checks()).toEqual(findingsIn(snapshot).map(({ check }) => check));
    expect(checks()).not.toContain('grid-condenser-without-leak');
  });

  it('a whole text sent anew keeps what stands above and below the change', async () => {
    const { documents, checks } = watched();
    documents.open(uri, 1, leakless);
    await documents.settled(uri);
    documents.change(uri, 2, [{ text: leakless.replace('phones PH1', 'phnes PH1') }]);
    expect(checks()).toContain('grid-condenser-without-leak');
  });

  it('remembers the last text that could be read', async () => {
    const { documents, change } = watched();
    documents.open(uri, 1, setWith());
    await documents.settled(uri);
    change(2, 'phones', 'phnes');
    await documents.settled(uri);
    expect(documents.get(uri)!.lastWhole?.version).toBe(1);
  });

  it('a change of what is not open is refused', () => {
    expect(watched().documents.change('file:///other', 2, [{ text: '' }])).toBe(false);
  });
});

describe('waiting for a pause', () => {
  it('ends at once when an edit comes', async () => {
    const { documents, change } = watched();
    documents.open(uri, 1, setWith());
    const quiet = documents.quiet(uri, 60_000);
    change(2, '2 meg', '3 meg');
    expect(await quiet).toBe(false);
  });

  it('ends when the document is closed', async () => {
    const { documents } = watched();
    documents.open(uri, 1, setWith());
    const quiet = documents.quiet(uri, 60_000);
    const settled = documents.settled(uri);
    documents.close(uri);
    expect(await quiet).toBe(false);
    await settled;
  });
});

describe('texts that come with the tool', () => {
  it('are not found fault with', async () => {
    const { documents, told } = watched();
    documents.open('setwright:/tubes.receiver', 1, 'nonsense {');
    await documents.settled('setwright:/tubes.receiver');
    expect(told).toEqual([]);
  });
});
