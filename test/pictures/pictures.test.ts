import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { picturesMade } from './make-picture.ts';

const root = join(import.meta.dirname, '../..');

describe('the pictures of the documents (npm run pictures takes them anew)', () => {
  it.each(picturesMade(root).map(({ file, make }) => [file, make] as const))(
    '%s is what the tool makes',
    (file, make) => {
      // Compared by whether they are the same: a difference of bytes would tell nobody anything.
      expect(make().equals(readFileSync(join(root, file)))).toBe(true);
    },
  );
});
