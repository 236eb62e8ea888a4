/** The extension where no Node runs: the server is a worker of the browser. */
import { type ExtensionContext, Uri, workspace } from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { begin } from './begin.ts';

declare class Worker {
  constructor(address: string, options: { name: string });
}

export const activate = async (context: ExtensionContext): Promise<void> => {
  await begin(context, async (given, options) => {
    const file = Uri.joinPath(given.extensionUri, 'dist/setwright-server-worker.js');
    // Read and handed over as a text: from elsewhere a browser starts no worker, and an extension
    // may lie elsewhere.
    const script = new Blob([new Uint8Array(await workspace.fs.readFile(file))], {
      type: 'text/javascript',
    });
    const worker = new Worker(URL.createObjectURL(script), { name: 'Setwright' });
    return new LanguageClient('setwright', 'Setwright', worker as never, options);
  });
};
