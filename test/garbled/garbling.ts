import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { checkCircuit } from '@setwright/checks';
import type { Finding } from '@setwright/circuit';
import { type ReadFile, type Reading, readReceivers } from '@setwright/language';
import { describe, expect, it } from 'vitest';
import { manglings } from './manglings.ts';

const folder = join(import.meta.dirname, '../../examples');

/** The names of the example sets, for spreading over several test files. */
export const exampleNames: readonly string[] = readdirSync(folder)
  .filter((name) => name.endsWith('.receiver'))
  .sort();

/** As much of a statement of the syntax tree as is looked at here. */
interface Block {
  readonly $type: string;
  readonly $cstNode?: { readonly offset: number; readonly end: number };
  readonly statements?: readonly Block[];
  readonly name?: string;
}

/** Offsets at which lines start, and the line of an offset, counted from 0. */
function lineFinder(text: string): (offset: number) => number {
  const starts = [0];
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) starts.push(at + 1);
  return (offset) => {
    let low = 0;
    let high = starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((starts[middle] ?? 0) <= offset) low = middle;
      else high = middle - 1;
    }
    return low;
  };
}

/**
 * Every statement as a fact: its line, its own words, and the first words of the blocks it stands
 * in. Words of the line `besides` are left out, wherever they stand.
 */
function factsOf(file: ReadFile, besides: number): Set<string> {
  const { text } = file;
  const lineAt = lineFinder(text);
  const facts = new Set<string>();
  const walk = (node: Block, path: readonly string[]) => {
    for (const inner of node.statements ?? []) {
      const cst = inner.$cstNode;
      if (!cst) continue;
      const line = lineAt(cst.offset);
      const words = text.slice(cst.offset, cst.end);
      const brace = words.search(/\{[^}]*\n|\{$/);
      const head = (brace >= 0 ? words.slice(0, brace) : words).trim();
      if (line !== besides && head !== '') facts.add(`${line + 1}: ${[...path, head].join(' / ')}`);
      const name = head.split(/\s+/).slice(0, 2).join(' ');
      walk(inner, line === besides || head === '' ? path : [...path, name]);
    }
  };
  walk(file.read.document as unknown as Block, []);
  return facts;
}

/** The names that the statements of one line declare: parts, windings, taps, stages. */
function declaredOn(file: ReadFile, line: number): string[] {
  const lineAt = lineFinder(file.text);
  const names: string[] = [];
  const walk = (node: Block, owner: string) => {
    for (const inner of node.statements ?? []) {
      const own = inner.name ?? '';
      const full = owner && own ? `${owner}.${own}` : own;
      if (lineAt(inner.$cstNode?.offset ?? -1) === line && own) names.push(own, full);
      walk(inner, inner.$type === 'PartStatement' ? own : '');
    }
  };
  walk(file.read.document as unknown as Block, '');
  return names;
}

function findingsOf(file: ReadFile): Finding[] {
  return [...file.remarks, ...file.circuits.flatMap((circuit) => checkCircuit(circuit).findings)];
}

const mentions = (found: Finding, text: string, names: readonly string[]) =>
  names.some(
    (name) =>
      found.parts.some((part) => part === name || part.startsWith(`${name}.`)) ||
      `${found.message} ${text.slice(found.place.start, found.place.end)}`.includes(name),
  );

/** Garbles every line of examples: see `describeGarblingOf`. */
export function describeGarbling(names: readonly string[]): void {
  for (const name of names) describeGarblingOf(name, readFileSync(join(folder, name), 'utf8'));
}

/**
 * Garbles every line of a text in seven of the fourteen ways, and looks at what that does to
 * the other lines: none loses a fact, and none gains a finding that is not about a name which the
 * garbled line declared.
 *
 * @param reading gives the files that it uses
 */
export function describeGarblingOf(name: string, text: string, reading: Reading = {}): void {
  describe(`${name} with one line garbled`, () => {
    const whole = readReceivers(text, name, reading);
    const lines = text.split('\n');
    const lineOf = lineFinder(text);
    // The same check at the same line is not gained, though its figures may have changed.
    const known = new Set(
      findingsOf(whole).map(({ check, place }) => `${check} ${lineOf(place.start)}`),
    );
    const places = lines.flatMap((line, index) =>
      line.trim() === '' || line.trim().startsWith('//') ? [] : [index],
    );
    const facts = new Map(places.map((place) => [place, factsOf(whole, place)]));
    const ways = Object.entries(manglings);

    it.each(ways.map(([way, mangle], number) => ({ way, mangle, number })))(
      '$way: the other lines keep their facts and gain no finding',
      ({ mangle, number }) => {
        const wrong: string[] = [];
        for (const place of places) {
          if ((place + number) % 2 === 1) continue;
          const line = lines[place] ?? '';
          const garbled = mangle(line);
          if (garbled === line) continue;
          const changed = lines.with(place, garbled).join('\n');
          const after = readReceivers(changed, name, reading);
          const left = factsOf(after, place);
          for (const fact of facts.get(place) ?? [])
            if (!left.has(fact)) wrong.push(`"${garbled.trim()}" took ${fact}`);
          const lineAt = lineFinder(changed);
          const found = findingsOf(after);
          // A line that still reads without complaint says something else; that is another set.
          const remarks = [...after.remarks, ...after.circuits.flatMap((one) => one.remarks)];
          const reads = !remarks.some((one) => lineAt(one.place.start) === place);
          if (reads) continue;
          const declared = declaredOn(whole, place);
          for (const one of found) {
            if (lineAt(one.place.start) === place) continue;
            if (
              known.has(`${one.check} ${lineAt(one.place.start)}`) ||
              mentions(one, changed, declared)
            )
              continue;
            wrong.push(
              `"${garbled.trim()}" (${place + 1}) gave line ${lineAt(one.place.start) + 1} ${one.check}: ${one.message}`,
            );
          }
        }
        expect(wrong).toEqual([]);
      },
    );
  });
}
