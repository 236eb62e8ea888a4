import { type ExtensionContext, window } from 'vscode';
import { commandsOf } from './commands/all.ts';
import { ownTexts } from './own-texts.ts';
import { makePanels } from './preview/panels.ts';
import { type MakeClient, makeService } from './service.ts';

/** Everything that does not depend on where the editor runs. */
export async function begin(context: ExtensionContext, make: MakeClient): Promise<void> {
  const log = window.createOutputChannel('Setwright', { log: true });
  const service = makeService(context, make, log);
  const panels = makePanels({ context, service, log });
  context.subscriptions.push(
    log,
    service,
    ownTexts(service, log),
    panels,
    ...commandsOf({ service, panels, log }),
  );
  // Not waited for: the editor need not stand still while the server starts.
  void service.start();
}
