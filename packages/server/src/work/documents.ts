import type { TubeLaws } from '@setwright/analysis';
import type { Finding } from '@setwright/circuit';
import { type Reading, type UsedText, usedMemory } from '@setwright/language';
import type { TextDocumentContentChangeEvent } from 'vscode-languageserver-protocol';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { type Snapshot, snapshotOf } from '../text/snapshot.ts';
import { isSameUri } from '../text/uris.ts';
import { examine, type Found } from './examine.ts';
import type { Pause } from './pause.ts';
import { leastChange, shiftedFindings } from './shift.ts';

/** A document that the client has open. */
export interface OpenDocument {
  readonly uri: string;
  readonly snapshot: Snapshot;
  /** What is to be told of it now: what was found in this version, and what still stands. */
  readonly findings: readonly Finding[];
  /** The last version of which every line could be read. */
  readonly lastWhole: Snapshot | undefined;
}

/** What the documents need of the world around them. */
export interface Surroundings {
  readonly pause: Pause;
  /** Milliseconds without an edit after which there is time for what takes long. */
  readonly quiet: number;
  /** Told at the end of every stage of an examination. */
  readonly told: (document: OpenDocument, found: Found) => void;
  /** Gives a file that is not open and that a document uses. */
  readonly used?: (uri: string) => UsedText | undefined;
  /** Told of what goes wrong inside. */
  readonly failed: (error: unknown) => void;
}

/** The documents that are open, each examined anew after every change. */
export interface Documents {
  readonly open: (uri: string, version: number, text: string) => void;
  /** Takes changes over in order; false for a document that is not open. */
  readonly change: (
    uri: string,
    version: number,
    changes: readonly TextDocumentContentChangeEvent[],
  ) => boolean;
  readonly close: (uri: string) => void;
  /** A file that is not open has changed, come or gone: what uses it is examined anew. */
  readonly stored: (uri: string) => void;
  /** Gives documents the files that they use: those that are open as they are now. */
  readonly reading: Reading;
  readonly get: (uri: string) => OpenDocument | undefined;
  readonly all: () => readonly OpenDocument[];
  /** Resolves once the numbers of the latest version are known, or the document is closed. */
  readonly settled: (uri: string) => Promise<void>;
  /** Resolves to true after a time without an edit, to false at once when one comes first. */
  readonly quiet: (uri: string, milliseconds: number) => Promise<boolean>;
}

/** Texts that come with the tool are shown, and not found fault with. */
export const isOurs = (uri: string): boolean => uri.startsWith('setwright:');

interface Kept {
  document: TextDocument;
  snapshot: Snapshot;
  findings: readonly Finding[];
  lastWhole: Snapshot | undefined;
  /** The files that it was seen to use. */
  uses: readonly string[];
  run: Run;
}

interface Run {
  isStale: boolean;
  /** Resolved once the numbers are known or the run is stale. */
  readonly known: Promise<void>;
  readonly setKnown: () => void;
  /** Called when the run becomes stale. */
  readonly onStale: Set<() => void>;
}

/** Keeps the documents that are open. */
export function documentsIn({ pause, quiet, told, used, failed }: Surroundings): Documents {
  const kept = new Map<string, Kept>();
  // Shared by all documents: the laws go by the types of the library.
  const laws: TubeLaws = new WeakMap();

  const reading: Required<Reading> = {
    used: (uri) => {
      const open =
        kept.get(uri) ?? [...kept.values()].find((each) => isSameUri(each.document.uri, uri));
      return open ? { text: open.document.getText() } : used?.(uri);
    },
    memory: usedMemory(),
  };
  const snapshotAs = (uri: string, version: number, text: string): Snapshot =>
    snapshotOf(uri, version, text, reading);

  const quietFor = (run: Run, milliseconds: number): Promise<boolean> =>
    new Promise((resolve) => {
      if (run.isStale) return resolve(false);
      const broken = () => {
        clearTimeout(timer);
        resolve(false);
      };
      const timer = setTimeout(() => {
        run.onStale.delete(broken);
        resolve(true);
      }, milliseconds);
      run.onStale.add(broken);
    });

  const stop = ({ run }: Kept): void => {
    run.isStale = true;
    run.setKnown();
    for (const each of run.onStale) each();
    run.onStale.clear();
  };

  const start = (each: Kept): void => {
    const run = newRun();
    each.run = run;
    if (isOurs(each.document.uri)) {
      run.setKnown();
      return;
    }
    const { snapshot, findings } = each;
    const work = async (): Promise<void> => {
      // Messages that have come in already go first: the next may be another change.
      await pause();
      await pause();
      if (run.isStale) return;
      await examine(snapshot, {
        standing: findings,
        laws,
        pause,
        isStale: () => run.isStale,
        leisure: () => quietFor(run, quiet),
        tell: (found) => {
          each.findings = found.findings;
          each.uses = snapshot.file.usedFiles.map(({ file }) => file);
          if (found.stage === 'numbers' && !snapshot.isBroken) each.lastWhole = snapshot;
          told(asOpen(each), found);
          if (found.stage === 'numbers') run.setKnown();
        },
      });
    };
    work().then(run.setKnown, (error) => {
      run.setKnown();
      failed(error);
    });
  };

  /** Examines anew what uses a file, whose own text has not changed. */
  const examineUsers = (uri: string): void => {
    for (const each of kept.values()) {
      const { snapshot, uses } = each;
      if (isSameUri(snapshot.uri, uri) || !uses.some((file) => isSameUri(file, uri))) continue;
      stop(each);
      each.snapshot = snapshotAs(snapshot.uri, snapshot.version, snapshot.text);
      start(each);
    }
  };

  const settled = async (uri: string): Promise<void> => {
    for (;;) {
      const run = kept.get(uri)?.run;
      if (!run) return;
      await run.known;
      if (kept.get(uri)?.run === run) return;
    }
  };

  return {
    open(uri, version, text) {
      const before = kept.get(uri);
      if (before) stop(before);
      const each: Kept = {
        document: TextDocument.create(uri, 'setwright', version, text),
        snapshot: snapshotAs(uri, version, text),
        findings: [],
        lastWhole: undefined,
        uses: [],
        run: newRun(),
      };
      kept.set(uri, each);
      start(each);
      examineUsers(uri);
    },
    change(uri, version, changes) {
      const each = kept.get(uri);
      if (!each) return false;
      stop(each);
      for (const change of changes) {
        const before = each.document.getText();
        const range = 'range' in change ? change.range : undefined;
        const start = range ? each.document.offsetAt(range.start) : 0;
        const end = range ? each.document.offsetAt(range.end) : 0;
        each.document = TextDocument.update(each.document, [change], version);
        const after = each.document.getText();
        const moved = leastChange(before, after, Math.min(start, end));
        each.findings = shiftedFindings(each.findings, moved, before, after, uri);
      }
      each.snapshot = snapshotAs(uri, version, each.document.getText());
      start(each);
      examineUsers(uri);
      return true;
    },
    close(uri) {
      const each = kept.get(uri);
      if (each) stop(each);
      kept.delete(uri);
      if (each) examineUsers(uri);
    },
    stored: examineUsers,
    reading,
    get(uri) {
      const each = kept.get(uri);
      return each && asOpen(each);
    },
    all: () => [...kept.values()].map(asOpen),
    settled,
    async quiet(uri, milliseconds) {
      const run = kept.get(uri)?.run;
      return run !== undefined && quietFor(run, milliseconds);
    },
  };
}

const asOpen = ({ document, snapshot, findings, lastWhole }: Kept): OpenDocument => ({
  uri: document.uri,
  snapshot,
  findings,
  lastWhole,
});

function newRun(): Run {
  let setKnown = (): void => {};
  const known = new Promise<void>((resolve) => {
    setKnown = resolve;
  });
  return { isStale: false, known, setKnown, onStale: new Set() };
}
