import type { OlderText } from '@setwright/webview';
import { extensions, Uri, workspace } from 'vscode';

export type Against = 'saved' | 'committed';

/** As much of the editor's own git extension as is used here. */
interface Git {
  getAPI(version: 1): {
    getRepository(uri: Uri): { show(reference: string, path: string): Promise<string> } | null;
  };
}

async function committed(uri: Uri): Promise<string | undefined> {
  const extension = extensions.getExtension<Git>('vscode.git');
  if (!extension || uri.scheme !== 'file') return undefined;
  try {
    const git = extension.isActive ? extension.exports : await extension.activate();
    return await git.getAPI(1).getRepository(uri)?.show('HEAD', uri.fsPath);
  } catch {
    // Not committed yet, or git is turned off.
    return undefined;
  }
}

async function saved(uri: Uri): Promise<string | undefined> {
  try {
    return new TextDecoder().decode(await workspace.fs.readFile(uri));
  } catch {
    return undefined;
  }
}

/**
 * The older text to compare a document with. Without a wish: as saved while there are changes to
 * save, else as committed. Undefined where there is none.
 */
export async function olderText(address: string, wish?: Against): Promise<OlderText | undefined> {
  const uri = Uri.parse(address, true);
  const document = workspace.textDocuments.find((each) => each.uri.toString() === address);
  const against = wish ?? (document?.isDirty ? 'saved' : 'committed');
  const text = against === 'saved' ? await saved(uri) : await committed(uri);
  return text === undefined
    ? undefined
    : { title: against === 'saved' ? 'as saved' : 'as committed', text };
}
