import { createHash } from 'node:crypto';
import type { Source } from './sources.ts';

/** One of several runs that share the files among them: the first is 1 of `of`. */
export interface Shard {
  readonly index: number;
  readonly of: number;
}

/** A shard as it is asked for, `2/5`; undefined where it is none. */
export function shardNamed(text: string): Shard | undefined {
  const [, index, of] = /^(\d{1,4})\/(\d{1,4})$/.exec(text.trim()) ?? [];
  const shard = { index: Number(index), of: Number(of) };
  return shard.index >= 1 && shard.index <= shard.of ? shard : undefined;
}

/**
 * The files that fall to a shard. A file falls to the same one whatever other files there are: it
 * goes by its path as it is called from the working folder.
 */
export const shareOf = (sources: readonly Source[], { index, of }: Shard): readonly Source[] =>
  sources.filter(({ path }) => placeOf(path) % of === index - 1);

const placeOf = (path: string): number =>
  createHash('sha256').update(path, 'utf8').digest().readUInt32BE(0);
