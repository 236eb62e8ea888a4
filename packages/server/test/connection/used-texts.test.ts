import { mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterEach, describe, expect, it } from 'vitest';
import type { Connection } from 'vscode-languageserver';
import type { Client } from '../../src/connection/client.ts';
import type { Platform } from '../../src/connection/platform.ts';
import { usedTextsFrom } from '../../src/connection/used-texts.ts';
import { usedFile } from '../../src/used-file.ts';

const uri = 'vscode-vfs://somewhere/parts/coils.receiver';

/** A client that answers with this, and what it was asked. */
function asking(answer: () => Promise<unknown>, gives = true, platform: Partial<Platform> = {}) {
  const asked: unknown[] = [];
  const come: string[] = [];
  const connection = {
    sendRequest: (method: string, params: unknown) => {
      asked.push([method, params]);
      return answer();
    },
  } as unknown as Connection;
  const client = { givesUsedTexts: gives } as Client;
  const texts = usedTextsFrom(
    connection,
    platform as Platform,
    () => client,
    (each) => come.push(each),
  );
  return { texts, asked, come };
}

describe('a file that the client has', () => {
  it('is asked for once, awaited, and known when it has come', async () => {
    const { texts, asked, come } = asking(async () => ({ text: 'condenser C 1 mfd' }));
    expect(texts.of(uri)).toEqual({ awaited: true });
    expect(texts.of(uri)).toEqual({ awaited: true });
    await expect.poll(() => come).toEqual([uri]);
    expect(texts.of(uri)).toEqual({ text: 'condenser C 1 mfd' });
    expect(asked).toEqual([['setwright/usedText', { uri }]]);
  });

  it('is asked for again after it has changed', async () => {
    const { texts, asked, come } = asking(async () => null);
    texts.of(uri);
    await expect.poll(() => come).toEqual([uri]);
    expect(texts.of(uri)).toBeUndefined();
    texts.forget(uri);
    expect(texts.of(uri)).toEqual({ awaited: true });
    expect(asked).toHaveLength(2);
  });

  it('is said not to be read where the client cannot give it', async () => {
    const { texts, come } = asking(() => Promise.reject(new Error('no such request')));
    texts.of(uri);
    await expect.poll(() => come).toEqual([uri]);
    expect(texts.of(uri)).toMatchObject({ cause: 'files that are not open are not read here' });
    expect(asking(async () => null, false).texts.of(uri)).toHaveProperty('cause');
  });

  it('is taken from the disk where it lies there', () => {
    const { texts, asked } = asking(async () => null, true, { usedFile: () => ({ text: 'x' }) });
    expect(texts.of('file:///parts/coils.receiver')).toEqual({ text: 'x' });
    expect(asked).toEqual([]);
  });
});

describe('a file of the disk', () => {
  const folders: string[] = [];
  afterEach(() => {
    for (const folder of folders.splice(0)) rmSync(folder, { recursive: true });
  });
  const folder = (): string => {
    const made = mkdtempSync(join(tmpdir(), 'setwright-'));
    folders.push(made);
    return made;
  };
  const address = (path: string): string => pathToFileURL(path).href;

  it('is given as it is now', () => {
    const path = join(folder(), 'coils.receiver');
    expect(usedFile(address(path))).toBeUndefined();
    writeFileSync(path, '\ufeffcondenser C 1 mfd');
    expect(usedFile(address(path))).toMatchObject({ text: 'condenser C 1 mfd' });
  });

  it.each([
    ['that leads elsewhere', 'secret.txt', 'x', /does not end in \.receiver/],
    [
      'that is no text',
      'real.receiver',
      new Uint8Array([0xff, 0xfe, 0x41]),
      /not written in UTF-8/,
    ],
    ['that is too large', 'real.receiver', ' '.repeat(2_000_001), /larger than 2 MB/],
  ])('%s is refused', (_, name, contents, why) => {
    const inside = folder();
    writeFileSync(join(inside, name), contents);
    symlinkSync(join(inside, name), join(inside, 'link.receiver'));
    expect(usedFile(address(join(inside, 'link.receiver')))).toMatchObject({
      cause: expect.stringMatching(why),
    });
    expect(usedFile(address(inside))).toHaveProperty('cause');
  });
});
