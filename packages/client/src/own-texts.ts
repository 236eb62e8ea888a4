import { requests, type TextRequest } from '@setwright/webview';
import { type Disposable, type LogOutputChannel, workspace } from 'vscode';
import { ownScheme } from './documents.ts';
import type { Service } from './service.ts';

/** Opens what comes with the tool (the tube library, a check's page) as read-only texts. */
export const ownTexts = (service: Service, log: LogOutputChannel): Disposable =>
  workspace.registerTextDocumentContentProvider(ownScheme, {
    provideTextDocumentContent: async (uri) => {
      const request: TextRequest = { uri: uri.toString(true) };
      const answer = await service.ask(requests.text, request);
      const text =
        typeof answer === 'string' ? answer : (answer as { text?: unknown } | null)?.text;
      if (typeof text === 'string') return text;
      log.warn(`There is no text ${request.uri}.`);
      throw new Error(`Setwright has no text of the name ${uri.path}.`);
    },
  });
