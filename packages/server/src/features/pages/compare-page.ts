import { readReceivers } from '@setwright/language';
import { comparedReceivers, compareTables, linesListed, markedSet } from '@setwright/report';
import type { ExportRequest, OlderText, PageRequest } from '@setwright/webview';
import { diagramParts, sceneOf } from './diagram-page.ts';
import { type PageBody, type PageSource, wordsOnly } from './page-source.ts';

/** Numbers of more tubes than this take longer than an editor may wait. */
const MOST_TUBES = 16;

const nothingOlder =
  'There is no older text to compare with: the file is not saved yet, not committed yet, or the ' +
  'editor’s own git support is turned off.';

/** What has changed since the text was saved or committed: a marked drawing, and sentences. */
export async function comparePage(source: PageSource, request: PageRequest): Promise<PageBody> {
  const { snapshot, units, drawings } = source;
  const { against, receiver } = request;
  if (!against) return wordsOnly(nothingOlder);
  const now = snapshot.file.circuits[receiver];
  if (!now) return wordsOnly();
  const older = readReceivers(against.text, snapshot.uri, snapshot.reading);
  const isLarge = now.parts.filter(({ kind }) => kind === 'tube').length > MOST_TUBES;
  const sets = comparedReceivers(older.circuits, snapshot.file.circuits, {
    style: units,
    withNumbers: !isLarge,
    only: now,
  });
  const [set] = sets;
  const cautions = unreadIn(against, older);
  if (!set) return wordsOnly(...cautions);
  if (set.status === 'same')
    return wordsOnly(...cautions, `The set is the same ${against.title}, however it is written.`);
  const { circuit, overlay } = markedSet(set);
  const draughtsman = await drawings.draughtsman();
  const scene = await sceneOf(circuit, drawings, draughtsman);
  const options = { symbols: request.symbols, use: 'screen', overlay } as const;
  const alone = 'summary' in set;
  return {
    svg: draughtsman.sceneToSvg(scene, options),
    tables: alone ? [] : compareTables(set),
    notes: [
      ...cautions,
      alone
        ? `This set is new: it was not there ${against.title}.`
        : `Against the text ${against.title}.`,
      ...(alone ? set.summary : []),
      ...draughtsman.dress(scene, options).notes,
    ],
    parts: diagramParts(source, receiver, now, scene),
    views: [],
    view: 'whole',
  };
}

/** The marked drawing for a file; undefined where nothing differs. */
export async function exportedComparison(
  { snapshot, units, drawings }: PageSource,
  { against, receiver, symbols, theme }: ExportRequest,
): Promise<string | undefined> {
  const now = snapshot.file.circuits[receiver];
  if (!against || !now) return undefined;
  const older = readReceivers(against.text, snapshot.uri, snapshot.reading);
  const [set] = comparedReceivers(older.circuits, snapshot.file.circuits, {
    style: units,
    withNumbers: false,
    only: now,
  });
  if (!set || set.status === 'same') return undefined;
  const { circuit, overlay } = markedSet(set);
  const draughtsman = await drawings.draughtsman();
  const scene = await sceneOf(circuit, drawings, draughtsman);
  return draughtsman.sceneToSvg(scene, { symbols, theme, use: 'file', overlay });
}

/** What of the older text cannot be read, and so is not compared. */
function unreadIn({ title, text }: OlderText, older: ReturnType<typeof readReceivers>): string[] {
  const lineOf = (offset: number) => text.slice(0, offset).split(/\r\n?|\n/).length;
  const lines = older.circuits.flatMap(({ unread }) => unread.map(({ start }) => lineOf(start)));
  return lines.length === 0
    ? []
    : [
        `Of the text ${title} ${linesListed(lines)} cannot be read in full. What is said there is not compared, so that a part may seem to be new.`,
      ];
}
