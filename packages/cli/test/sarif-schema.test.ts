import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import Ajv from 'ajv-draft-04';
import addFormats from 'ajv-formats';
import { describe, expect, it } from 'vitest';
import { folderWith, runIn, sound } from './support.ts';

// The schema as OASIS published it with SARIF 2.1.0 (errata 01), packed with a formatter.
const schemaFile = createRequire(import.meta.url).resolve(
  '@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json',
);
// One of its patterns is none where `u` is strict.
const ajv = new Ajv({ strict: false, allErrors: true, unicodeRegExp: false });
addFormats(ajv);
const isValid = ajv.compile(JSON.parse(readFileSync(schemaFile, 'utf8')));

const root = join(import.meta.dirname, '../../..');
const sarifOf = (cwd: string, ...files: string[]) =>
  JSON.parse(runIn(cwd, ['check', '--format', 'sarif', ...files]).out);

/** What the schema has against a log; nothing of one that keeps to it. */
const against = (log: unknown) =>
  isValid(log)
    ? []
    : (isValid.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`);

describe('the published schema of SARIF 2.1.0', () => {
  const faulty = readdirSync(join(root, 'examples/faulty')).filter((name) =>
    name.endsWith('.receiver'),
  );

  it('refuses what is no log, so that it may be trusted', () => {
    const log = sarifOf(folderWith({ 'a.receiver': sound }), 'a.receiver');
    expect(against(log)).toEqual([]);
    for (const spoil of [
      (run: Record<string, unknown>) => delete run.tool,
      (run: { results: unknown }) => {
        run.results = [{ message: 'no object' }];
      },
      (run: { columnKind: string }) => {
        run.columnKind = 'letters';
      },
    ]) {
      const spoiled = structuredClone(log);
      spoil(spoiled.runs[0]);
      expect(against(spoiled)).not.toEqual([]);
    }
  });

  it('holds for every faulty example, all in one log', () => {
    expect(faulty.length).toBeGreaterThan(50);
    const log = sarifOf(root, 'examples/faulty');
    expect(log.runs[0].results.length).toBeGreaterThanOrEqual(faulty.length);
    expect(against(log)).toEqual([]);
  });

  it('holds where nothing is found', () => {
    const log = sarifOf(folderWith({ 'a.receiver': sound }), 'a.receiver');
    expect(log.runs[0].results).toEqual([]);
    expect(against(log)).toEqual([]);
  });

  it('holds where nothing could be read', () => {
    const log = sarifOf(folderWith({ 'a.receiver': Uint8Array.of(65, 0) }), 'a.receiver', 'no');
    expect(log.runs[0].invocations[0].executionSuccessful).toBe(false);
    expect(against(log)).toEqual([]);
  });

  it('holds for names and titles that are made to harm', () => {
    const hostile = `<script>alert(1)</script> \u202e \u001b]0;x\u0007 %0A::error:: [a](b) | \`--> # ?`;
    const text = sound
      .replace('"Sound"', JSON.stringify(hostile))
      .replace('from V1.grid to V1.filament-', 'from V1.grid to V7.filament-');
    const name = "a%20b #1? [x](y) ä\u202e'`;&.receiver";
    const log = sarifOf(folderWith({ [name]: text, 'dir with space/b.receiver': text }), '.');
    expect(against(log)).toEqual([]);
    const [uri, other] = [
      ...new Set(
        log.runs[0].results.map(
          (result: { locations: { physicalLocation: { artifactLocation: { uri: string } } }[] }) =>
            result.locations[0]?.physicalLocation.artifactLocation.uri,
        ),
      ),
    ] as string[];
    expect([uri, other].map((each) => decodeURIComponent(each ?? '')).sort()).toEqual(
      [name, 'dir with space/b.receiver'].sort(),
    );
  });

  it('holds for text that cannot be read, and for a place at the end of a file', () => {
    for (const text of ['', 'receiver', 'receiver "x" {', 'garbled @@ {{{\n}}}', `${sound}\nuse "`])
      expect(against(sarifOf(folderWith({ 'a.receiver': text }), 'a.receiver'))).toEqual([]);
  });
});
