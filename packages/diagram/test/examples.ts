import { readdirSync, readFileSync } from 'node:fs';
import type { Circuit } from '@setwright/circuit';
import { readReceivers } from '@setwright/language';

const folder = new URL('../../../examples/', import.meta.url);

/** The texts of the example sets, by the name of their file. */
export const exampleTexts: readonly (readonly [string, string])[] = readdirSync(folder)
  .filter((name) => name.endsWith('.receiver'))
  .sort()
  .map((name) => [name.replace('.receiver', ''), readFileSync(new URL(name, folder), 'utf8')]);

/** The first set of a text. */
export function circuitOf(text: string): Circuit {
  return readReceivers(text, 'test.receiver').circuits[0]!;
}

/**
 * The same receiver with its statements in another order, inside every block too: stages, coils,
 * tubes and batteries.
 */
export function shuffled(text: string, seed: number): string {
  const lines = text.replace(/\/\/.*$/gm, '').split('\n');
  let state = seed;
  const random = (below: number): number => {
    state = (state * 1103515245 + 12345) % 2147483648;
    return Math.floor((state / 2147483648) * below);
  };
  const mix = (from: readonly string[]): string[] => {
    const chunks: string[][] = [];
    let depth = 0;
    for (const line of from) {
      if (line.trim() === '') continue;
      if (depth === 0) chunks.push([]);
      chunks.at(-1)!.push(line);
      depth += (line.match(/\{/g)?.length ?? 0) - (line.match(/\}/g)?.length ?? 0);
    }
    for (let index = chunks.length - 1; index > 0; index--) {
      const other = random(index + 1);
      [chunks[index], chunks[other]] = [chunks[other]!, chunks[index]!];
    }
    return chunks.flatMap((chunk) =>
      chunk.length > 2 ? [chunk[0]!, ...mix(chunk.slice(1, -1)), chunk.at(-1)!] : chunk,
    );
  };
  const start = lines.findIndex((line) => /^receiver\b/.test(line));
  const end = lines.findIndex((line, index) => index > start && /^\}/.test(line));
  return [
    ...lines.slice(0, start + 1),
    ...mix(lines.slice(start + 1, end)),
    ...lines.slice(end),
  ].join('\n');
}
