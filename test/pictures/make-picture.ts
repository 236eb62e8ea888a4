import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { type Picture, pictures, terminalPicture } from './pictures.ts';

/** Every picture of the documents with how it is made by the tool as built. */
export const picturesMade = (root: string) =>
  pictures.map((picture) => ({ file: picture.file, make: () => madePicture(picture, root) }));

/** The bytes of a picture. Throws where the tool breaks down. */
function madePicture({ file, folder, args, isPrinted }: Picture, root: string): Buffer {
  const scratch = mkdtempSync(join(tmpdir(), 'setwright-picture-'));
  try {
    const made = join(scratch, basename(file));
    const words = isPrinted ? args : [...args, '-o', made];
    const { status, stdout, stderr } = spawnSync(
      process.execPath,
      [join(root, 'dist/setwright.cjs'), ...words],
      { cwd: join(root, folder), encoding: 'utf8' },
    );
    // 1: there are findings.
    if (status !== 0 && status !== 1) throw new Error(`setwright ${words.join(' ')}: ${stderr}`);
    return isPrinted ? Buffer.from(terminalPicture(args, stdout)) : readFileSync(made);
  } finally {
    rmSync(scratch, { recursive: true });
  }
}
