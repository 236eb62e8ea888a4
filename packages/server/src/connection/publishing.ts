import { type Changed, notifications } from '@setwright/webview';
import type { Connection } from 'vscode-languageserver';
import type { Diagnostic } from 'vscode-languageserver-protocol';
import { diagnosticsOf } from '../features/diagnostics.ts';
import type { Settings } from '../settings.ts';
import { isOurs, type OpenDocument } from '../work/documents.ts';
import type { Found } from '../work/examine.ts';

/** Tells the client what is found in its documents. */
export interface Publishing {
  readonly found: (document: OpenDocument, found: Found) => void;
  /** The same once more, after the settings have changed. */
  readonly again: (document: OpenDocument) => void;
  readonly closed: (uri: string) => void;
}

/** Sends findings as diagnostics: at once with a new version, later only what differs. */
export function publishingOn(connection: Connection, settings: () => Settings): Publishing {
  const sent = new Map<string, string>();
  const send = (document: OpenDocument, always: boolean): boolean => {
    const { uri, snapshot, findings } = document;
    if (isOurs(uri)) return false;
    const diagnostics: Diagnostic[] = [...diagnosticsOf(snapshot, findings, settings())];
    const words = JSON.stringify(diagnostics);
    const differs = sent.get(uri) !== words;
    sent.set(uri, words);
    if (always || differs)
      void connection.sendDiagnostics({ uri, version: snapshot.version, diagnostics });
    return differs;
  };
  const changed = ({ uri, snapshot }: OpenDocument): void => {
    const params: Changed = { uri, version: snapshot.version };
    void connection.sendNotification(notifications.changed, params);
  };
  return {
    found(document, { stage }) {
      const differs = send(document, stage === 'text');
      if (stage === 'numbers' || (stage === 'thorough' && differs)) changed(document);
    },
    again(document) {
      send(document, true);
      changed(document);
    },
    closed(uri) {
      sent.delete(uri);
      void connection.sendDiagnostics({ uri, diagnostics: [] });
    },
  };
}
