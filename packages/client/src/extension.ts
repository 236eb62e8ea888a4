/** The extension where Node runs: on a desk, or beside files that lie far away. */
import type { ExtensionContext } from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { begin } from './begin.ts';
import { tasks } from './tasks.ts';

export const activate = async (context: ExtensionContext): Promise<void> => {
  context.subscriptions.push(tasks());
  await begin(context, async (given, options) => {
    const module = given.asAbsolutePath('dist/setwright-server-process.cjs');
    return new LanguageClient(
      'setwright',
      'Setwright',
      {
        run: { module, transport: TransportKind.ipc },
        debug: {
          module,
          transport: TransportKind.ipc,
          options: { execArgv: ['--nolazy', '--inspect=6309'] },
        },
      },
      options,
    );
  });
};
