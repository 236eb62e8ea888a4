import type { UsedTextAnswer } from '@setwright/webview';
import { FileSystemError, FileType, Uri, workspace } from 'vscode';

/** What sets have in common takes some kilobytes; what is longer than this is something else. */
const LONGEST = 2_000_000;

/** A file that a document uses, from wherever the editor has it; the server asks for it. */
export async function usedText(address: string): Promise<UsedTextAnswer> {
  const uri = Uri.parse(address, true);
  // Whatever the server asks for: nothing but sets.
  if (!uri.path.endsWith('.receiver')) return refused('its name does not end in .receiver');
  try {
    const { type, size } = await workspace.fs.stat(uri);
    if ((type & FileType.Directory) !== 0) return refused('it is a folder');
    if (size > LONGEST) return refused('it is larger than 2 MB, which no file of patterns is');
    const bytes = await workspace.fs.readFile(uri);
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch (error) {
    if (error instanceof FileSystemError && error.code === 'FileNotFound') return null;
    return refused(error instanceof TypeError ? 'it is not written in UTF-8' : 'it cannot be read');
  }
}

const refused = (cause: string): UsedTextAnswer => ({
  cause,
  cure: 'Put a file of patterns there.',
});
