import type { UsedText } from '@setwright/language';
import { requests, type UsedTextAnswer } from '@setwright/webview';
import type { Connection } from 'vscode-languageserver';
import type { Client } from './client.ts';
import type { Platform } from './platform.ts';

/** The files that documents use and that are not open. */
export interface UsedTexts {
  readonly of: (uri: string) => UsedText | undefined;
  /** What is known of a file is out of date. */
  readonly forget: (uri: string) => void;
}

const unread = {
  cause: 'files that are not open are not read here',
  cure: 'Open it beside this one.',
} as const;

/**
 * Reads used files from the disk where the server can, else asks the client for them, which is done
 * once: what is not known yet is awaited.
 *
 * @param come told when a file that was asked for has come
 */
export function usedTextsFrom(
  connection: Connection,
  { usedFile }: Platform,
  client: () => Client | undefined,
  come: (uri: string) => void,
): UsedTexts {
  const known = new Map<string, UsedText | undefined>();
  const ask = async (uri: string): Promise<UsedText | undefined> => {
    try {
      const answer: UsedTextAnswer = await connection.sendRequest(requests.usedText, { uri });
      if (answer === null) return undefined;
      return 'text' in answer ? { text: answer.text } : answer;
    } catch {
      return unread;
    }
  };
  return {
    of: (uri) => {
      if (usedFile && uri.startsWith('file:')) return usedFile(uri);
      if (!client()?.givesUsedTexts) return unread;
      if (known.has(uri)) return known.get(uri);
      const awaited = { awaited: true } as const;
      known.set(uri, awaited);
      void ask(uri).then((text) => {
        if (known.get(uri) !== awaited) return;
        known.set(uri, text);
        come(uri);
      });
      return awaited;
    },
    forget: (uri) => known.delete(uri),
  };
}
