import { allChecks } from '@setwright/checks';
import type { DocumentLink } from 'vscode-languageserver-protocol';
import type { Snapshot } from '../text/snapshot.ts';
import { tokensOf } from '../text/tokens.ts';
import { checkPageUri } from '../texts.ts';

/** Links of a text: the check that a `meant` names leads to its page. */
export function documentLinks(snapshot: Snapshot): DocumentLink[] {
  const { file, items } = snapshot;
  const tokens = tokensOf(items);
  return file.circuits.flatMap(({ waivers }) =>
    waivers.flatMap(({ check, place }) => {
      const name = tokens.within(place)[1];
      const found = allChecks.find(({ id }) => id === check);
      if (!name || !found) return [];
      return [
        {
          range: snapshot.range(name),
          target: checkPageUri(check),
          tooltip: found.summary,
        },
      ];
    }),
  );
}
