import { describe, expect, it } from 'vitest';
import { shardNamed, shareOf } from '../src/shard.ts';
import type { Source } from '../src/sources.ts';
import { folderWith, runIn, sound } from './support.ts';

const sources: readonly Source[] = Array.from({ length: 200 }, (_, at) => ({
  path: `sets/${at}.receiver`,
  file: undefined,
}));
const shares = (of: number) =>
  Array.from({ length: of }, (_, at) => shareOf(sources, { index: at + 1, of }));

describe('runs that share files', () => {
  it('take each file once', () => {
    const paths = shares(5).flatMap((share) => share.map(({ path }) => path));
    expect(paths.sort()).toEqual(sources.map(({ path }) => path).sort());
  });

  it('take about as many each', () => {
    for (const share of shares(5)) expect(share.length).toBeGreaterThan(20);
  });

  it('keep their files when others come and go', () => {
    const [first] = shares(3);
    const fewer = shareOf(sources.slice(50), { index: 1, of: 3 });
    expect(fewer).toEqual(first?.filter((source) => sources.indexOf(source) >= 50));
  });

  it.each(['0/3', '4/3', '1', '1/0', 'a/b', '1/3/5', '-1/3'])('are not named %s', (text) => {
    expect(shardNamed(text)).toBeUndefined();
  });

  it('are asked for by the run and how many there are', () => {
    const folder = folderWith({ 'a.receiver': sound, 'b.receiver': sound, 'c.receiver': sound });
    const paths = [1, 2].flatMap((index) => {
      const { out } = runIn(folder, ['check', '.', '--format', 'json', '--shard', `${index}/2`]);
      return JSON.parse(out).files.map(({ path }: { path: string }) => path);
    });
    expect(paths.sort()).toEqual(['a.receiver', 'b.receiver', 'c.receiver']);
  });

  it('may have nothing to do', () => {
    const folder = folderWith({ 'a.receiver': sound });
    const codes = [1, 2].map(
      (index) => runIn(folder, ['check', '.', '--shard', `${index}/2`]).code,
    );
    expect(codes).toEqual([0, 0]);
  });
});
