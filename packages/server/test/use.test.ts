import type { UsedText } from '@setwright/language';
import { describe, expect, it } from 'vitest';
import { completionAt, isInPath } from '../src/features/completion/completion.ts';
import { definitionAt } from '../src/features/definition.ts';
import { diagnosticsOf } from '../src/features/diagnostics.ts';
import { documentLinks } from '../src/features/document-links.ts';
import { formattingEdits } from '../src/features/formatting.ts';
import { hoverAt } from '../src/features/hover/hover.ts';
import { renamableAt, renameAt } from '../src/features/rename.ts';
import { semanticTokens } from '../src/features/semantic-tokens.ts';
import { documentSymbols } from '../src/features/symbols.ts';
import { usualSettings } from '../src/settings.ts';
import { edited } from '../src/text/edits.ts';
import { type Snapshot, snapshotOf } from '../src/text/snapshot.ts';
import { documentsIn } from '../src/work/documents.ts';
import { setWith } from './support.ts';

const home = 'file:///museum/parts/coils.receiver';
const user = 'file:///museum/sets/punt.receiver';
const other = 'file:///museum/sets/dinghy%20two.receiver';

const coils = `tube type 77-Q "as measured" {
  filament 5 V .25 A
  amplification 8
}

coil RF1 "antenna coupler" {
  form 3 in
  winding aerial 10 turns of 24 DCC
  winding grid 46 turns of 24 DCC beside aerial spaced 1/4 in
}

condenser BYPASS .001 mfd
`;

const punt = `use "../parts/coils.receiver"

${setWith()
  .replace('V1 01-A', 'V1 77-Q')
  .replace('C3 .001 mfd', 'C3 like BYPASS')
  .replace(
    /coil L1[^}]*}/,
    'coil L1 like RF1 {\n      winding aerial from GND to ANT\n      winding grid from GND\n    }',
  )}`;

const files = { [home]: coils, [user]: punt, [other]: punt.replace('Punt', 'Dinghy') };

/** The texts of a small museum, each as a document that uses the others. */
function museum(texts: Readonly<Record<string, string>> = files): readonly Snapshot[] {
  const used = (uri: string): UsedText | undefined => {
    const text = texts[uri];
    return text === undefined ? undefined : { text };
  };
  return Object.entries(texts).map(([uri, text]) => snapshotOf(uri, 1, text, { used }));
}

/** The document of one of them, with the mark `<|>` put in and taken out again. */
function at(uri: string, words: string) {
  const whole = words.replace('<|>', '');
  const snapshot = museum().find((each) => each.uri === uri)!;
  const start = snapshot.text.indexOf(whole);
  if (start < 0) throw new Error(`the text has no ${whole}`);
  return { snapshot, position: snapshot.position(start + words.indexOf('<|>')) };
}

/** What a place of a link is, in words. */
function wordsOf({
  targetUri,
  targetSelectionRange: { start, end },
}: ReturnType<typeof definitionAt>[number]) {
  const snapshot = museum().find(({ uri }) => uri === targetUri)!;
  return `${targetUri}: ${snapshot.text.slice(snapshot.offset(start), snapshot.offset(end))}`;
}

describe('a document that uses a file', () => {
  it('has no finding about it', () => {
    const [, set] = museum();
    expect(set!.file.circuits[0]!.remarks).toEqual([]);
    expect(set!.file.remarks).toEqual([]);
  });

  it.each([
    ['a pattern', 'like RF<|>1', `${home}: RF1`],
    ['a tube type', 'V1 77<|>-Q', `${home}: tube type 77-Q "as measured"`],
    ['the file', 'parts/co<|>ils', `${home}: `],
  ])('goes to the declaration of %s', (_, words, there) => {
    const { snapshot, position } = at(user, words);
    expect(definitionAt(snapshot, position).map(wordsOf)).toEqual([there]);
  });

  it('links the path to the file, where there is one', () => {
    const [, set] = museum();
    expect(documentLinks(set!).map(({ target }) => target)).toEqual([home]);
    const [alone] = museum({ [user]: punt });
    expect(documentLinks(alone!)).toEqual([]);
  });

  it.each([
    ['a pattern, with its words', 'like RF<|>1', 'winding aerial 10 turns of 24 DCC'],
    ['a tube type, with where it stands', 'V1 77<|>-Q', 'described in coils'],
    ['the file, with what it brings', 'parts/co<|>ils', 'Patterns: RF1, BYPASS'],
    ['the word', 'u<|>se "', 'Takes over the tube types and patterns of another file'],
  ])('tells of %s', (_, words, told) => {
    const { snapshot, position } = at(user, words);
    const hover = hoverAt({ snapshot, lastWhole: undefined, units: 'period' }, position);
    expect(JSON.stringify(hover?.contents).replaceAll('\\\\', '')).toContain(told);
  });

  it('points at what is wrong in the file', () => {
    const [, set] = museum({ ...files, [home]: coils.replace('.001 mfd', '.001') });
    const findings = set!.file.circuits[0]!.remarks;
    const [told] = diagnosticsOf(set!, findings, usualSettings);
    expect(told?.relatedInformation?.[0]?.location).toMatchObject({
      uri: home,
      range: { start: { line: 11, character: 17 } },
    });
  });

  it('is in order as it is, and is coloured', () => {
    const [, set] = museum();
    expect(edited(set!.text, [])).toBe(set!.text);
    expect(formattingEdits(set!)?.filter(({ range }) => range.start.line < 2)).toEqual([]);
    expect(semanticTokens(set!).data.slice(0, 10)).toEqual([0, 0, 3, 4, 0, 0, 4, 25, 7, 0]);
  });
});

describe('completion', () => {
  const labels = (text: string, uri: string = user): readonly string[] => {
    const offset = text.indexOf('<|>');
    const plain = text.replace('<|>', '');
    const used = (file: string) => (file === home ? { text: coils } : undefined);
    const snapshot = snapshotOf(uri, 1, plain, { used });
    const position = snapshot.position(offset);
    expect(isInPath(snapshot, position)).toBe(/^use "/.test(text) && text.startsWith('use "<|>'));
    const options = { takesSnippets: true, files: Object.keys(files) };
    return completionAt(snapshot, position, options).items.map(({ label }) => label);
  };

  it('offers the paths of other files, the nearest first', () => {
    expect(labels('use "<|>"')).toEqual(['dinghy two.receiver', '../parts/coils.receiver']);
  });

  it('offers patterns of that kind behind like', () => {
    expect(labels(punt.replace('like BYPASS', 'like <|>'))).toContain('BYPASS');
    expect(labels(punt.replace('like BYPASS', 'like <|>'))).not.toContain('RF1');
  });

  it('offers the tube types of used files before those of the library', () => {
    expect(labels(punt.replace('V1 77-Q', 'V1 <|>'))[0]).toBe('77-Q');
  });

  it('offers the word itself outside a receiver', () => {
    expect(labels('<|>\n')).toContain('use');
  });
});

describe('rename', () => {
  const renamed = (uri: string, words: string, name: string) => {
    const { snapshot, position } = at(uri, words);
    expect(renamableAt(snapshot, position)).toMatchObject({ ok: true });
    const answer = renameAt(snapshot, position, name, museum());
    if (!answer.ok) return answer.why;
    return Object.fromEntries(
      museum().flatMap((each) => {
        const edits = answer.edit.changes?.[each.uri];
        if (!edits) return [];
        const changes = edits.map(({ range, newText }) => ({
          start: each.offset(range.start),
          end: each.offset(range.end),
          text: newText,
        }));
        return [[each.uri, edited(each.text, changes)]];
      }),
    );
  };
  const everywhere = (was: string, is: string) =>
    Object.fromEntries(Object.entries(files).map(([uri, text]) => [uri, text.replaceAll(was, is)]));

  it.each([
    ['from where it stands', home, 'coil RF<|>1'],
    ['from where it is used', user, 'like RF<|>1'],
  ])('changes a pattern in every file that uses it: %s', (_, uri, words) => {
    expect(renamed(uri, words, 'ANTENNA')).toEqual(everywhere('RF1', 'ANTENNA'));
  });

  it('changes a tube type in every file that uses it', () => {
    expect(renamed(user, 'V1 77<|>-Q', '78-Q')).toEqual(everywhere('77-Q', '78-Q'));
  });

  it.each([
    ['a name that a file has already', home, 'coil RF<|>1', 'BYPASS', /There is a BYPASS already/],
    ['a name that would mean something else there', home, 'coil RF<|>1', 'L1.x', /will not do/],
    ['a winding, by whose name others go', home, 'winding gr<|>id', 'tuned1', /go by the names/],
  ])('refuses %s', (_, uri, words, name, why) => {
    expect(renamed(uri, words, name)).toMatch(why);
  });
});

it('patterns stand in the outline with their windings', () => {
  const [parts] = museum();
  const outline = documentSymbols(parts!).map(({ name, children }) => [
    name,
    children?.map((each) => each.name),
  ]);
  expect(outline).toEqual([
    ['77-Q', undefined],
    ['RF1', ['aerial', 'grid']],
    ['BYPASS', undefined],
  ]);
});

describe('open documents', () => {
  const opened = (stored: Record<string, string>) => {
    const documents = documentsIn({
      pause: () => new Promise((resolve) => setImmediate(resolve)),
      quiet: 1,
      told: () => {},
      used: (uri) => {
        const text = stored[uri];
        return text === undefined ? undefined : { text };
      },
      failed: (error) => {
        throw error;
      },
    });
    documents.open(user, 1, punt);
    const checks = async (): Promise<readonly string[]> => {
      await documents.settled(user);
      return documents
        .get(user)!
        .findings.filter(({ check }) => /use|name|type/.test(check))
        .map(({ check }) => check);
    };
    return { documents, checks };
  };

  it('are examined anew when a file that they use comes, changes or goes', async () => {
    const stored: Record<string, string> = {};
    const { documents, checks } = opened(stored);
    expect(await checks()).toEqual(['used-file']);
    stored[home] = coils;
    documents.stored(home);
    expect(await checks()).toEqual([]);
    delete stored[home];
    documents.stored(home);
    expect(await checks()).toEqual(['used-file']);
  });

  it('go by what is open, saved or not', async () => {
    const { documents, checks } = opened({ [home]: coils });
    expect(await checks()).toEqual([]);
    documents.open(home, 1, coils);
    const { snapshot } = documents.get(home)!;
    const start = coils.indexOf('BYPASS');
    const range = snapshot.range({ start, end: start + 6 });
    documents.change(home, 2, [{ range, text: 'BYPASSED' }]);
    expect(await checks()).toEqual(['unknown-name']);
    documents.close(home);
    expect(await checks()).toEqual([]);
  });

  it('know a file by its address however its signs are written', async () => {
    const text = punt.replace('coils.receiver', 'coils (old).receiver');
    const { documents } = opened({});
    documents.open('file:///museum/parts/coils%20%28old%29.receiver', 1, coils);
    documents.change(user, 2, [{ text }]);
    await documents.settled(user);
    expect(documents.get(user)!.snapshot.file.usedFiles[0]?.text).toBe(coils);
  });

  it('say nothing of a file that is awaited', () => {
    const snapshot = snapshotOf(user, 1, punt, { used: () => ({ awaited: true }) });
    expect(snapshot.file.circuits[0]!.remarks).toEqual([]);
  });
});
