import { allChecks } from '@setwright/checks';
import type { DocumentLink } from 'vscode-languageserver-protocol';
import type { Snapshot } from '../text/snapshot.ts';
import { tokensOf } from '../text/tokens.ts';
import { checkPageUri } from '../texts.ts';

/** Links of a text: the file that a `use` names, and the page of the check that a `meant` names. */
export function documentLinks(snapshot: Snapshot): DocumentLink[] {
  return [...usedFileLinks(snapshot), ...checkLinks(snapshot)];
}

function usedFileLinks(snapshot: Snapshot): readonly DocumentLink[] {
  const { uses, usedFiles } = snapshot.file;
  const isThere = (uri: string): boolean =>
    usedFiles.some(({ file, text }) => file === uri && text !== undefined);
  return uses.flatMap(({ file, path, pathPlace }) =>
    file !== undefined && isThere(file)
      ? [{ range: snapshot.range(pathPlace), target: file, tooltip: `Open ${path}` }]
      : [],
  );
}

function checkLinks(snapshot: Snapshot): readonly DocumentLink[] {
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
