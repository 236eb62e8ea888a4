import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { allChecks } from '@setwright/checks';
import { describe, expect, it } from 'vitest';
import { deadly, folderWith, runIn, sound } from './support.ts';

const faulty = sound.replace('from V1.grid to V1.filament-', 'from V1.grid to V7.filament-');
const report = (folder: string, format: string, ...files: string[]) =>
  runIn(folder, ['check', '--format', format, ...files]);

describe('the JSON of check', () => {
  const json = (text: string) =>
    JSON.parse(report(folderWith({ 'set.receiver': text }), 'json', 'set.receiver').out);

  it('has a version, and the findings of each file with ranges as editors count', () => {
    const { version, files } = json(faulty);
    const [found] = files[0].findings.filter(
      ({ check }: { check: string }) => check === 'unknown-name',
    );
    expect(version).toBe(1);
    expect(files[0].path).toBe('set.receiver');
    expect(found).toMatchObject({
      check: 'unknown-name',
      severity: 'error',
      message: expect.any(String),
      why: expect.any(String),
      cure: expect.any(String),
      range: { start: { line: 5, character: 42 }, end: { line: 5, character: 54 } },
      related: [],
    });
  });

  it('counts columns in UTF-16', () => {
    const { files } = json(`receiver "x" {\n  post A "𝄞" from Q7\n}\n`);
    const { range } = files[0].findings.find(
      ({ range }: { range: { start: { line: number } } }) => range.start.line === 1,
    );
    expect(range.start.character).toBeGreaterThanOrEqual(14);
  });

  it('offers the changes that would cure a finding', () => {
    const { files } = json(sound.replace('phones P1', 'phons P1'));
    const fixes = files[0].findings.flatMap(({ fixes }: { fixes: unknown[] }) => fixes);
    expect(fixes).toContainEqual({
      title: 'Change to phones',
      edits: [
        {
          path: 'set.receiver',
          range: { start: { line: 7, character: 2 }, end: { line: 7, character: 7 } },
          newText: 'phones',
        },
      ],
    });
  });

  it('answers whether B can reach a filament', () => {
    const answer = (text: string) => json(text).files[0].receivers[0].supply;
    expect(answer(sound).answer).toBe('cannot-reach');
    expect(answer(deadly)).toMatchObject({
      answer: 'can-reach',
      path: { tap: 'B+45', tube: 'V1', terminal: 'V1.filament+', through: [] },
    });
    expect(answer(faulty).answer).toBe('cannot-tell');
  });

  it('names the inputs that could not be read', () => {
    const { out } = report(folderWith({}), 'json', 'no.receiver');
    expect(JSON.parse(out)).toMatchObject({
      files: [],
      unreadable: [{ path: 'no.receiver', cause: 'there is no such file' }],
    });
  });

  it('tells each thing once', () => {
    const { files } = json(faulty);
    const told = files[0].findings.map((finding: unknown) => JSON.stringify(finding));
    expect(new Set(told).size).toBe(told.length);
  });

  it('is the same in every run', () => {
    const folder = folderWith({ 'set.receiver': faulty });
    expect(report(folder, 'json', '.').out).toBe(report(folder, 'json', '.').out);
  });
});

describe('the SARIF of check', () => {
  const inRepository = (files: Record<string, string>) => {
    const folder = folderWith(files);
    mkdirSync(join(folder, '.git'));
    return folder;
  };
  const sarif = (folder: string, cwd = folder) =>
    JSON.parse(report(cwd, 'sarif', join(folder, 'sets')).out);

  it('has a rule for every check, with its page', () => {
    const log = sarif(inRepository({ 'sets/a.receiver': sound }));
    const { rules } = log.runs[0].tool.driver;
    expect([log.version, log.runs.length]).toEqual(['2.1.0', 1]);
    for (const check of allChecks) {
      expect(rules).toContainEqual(
        expect.objectContaining({
          id: check.id,
          shortDescription: { text: check.summary },
          help: expect.objectContaining({ text: expect.stringContaining(`# ${check.id}`) }),
        }),
      );
    }
  });

  it('gives paths from the root of the repository, wherever it is called', () => {
    const folder = inRepository({ 'sets/a b.receiver': faulty });
    const uris = (cwd: string) =>
      sarif(folder, cwd).runs[0].results.map(
        (result: { locations: { physicalLocation: { artifactLocation: { uri: string } } }[] }) =>
          result.locations[0]?.physicalLocation.artifactLocation.uri,
      );
    expect(new Set([...uris(folder), ...uris(join(folder, 'sets'))])).toEqual(
      new Set(['sets/a%20b.receiver']),
    );
  });

  it('points every result at its rule', () => {
    const { results, tool } = sarif(inRepository({ 'sets/a.receiver': faulty })).runs[0];
    expect(results.length).toBeGreaterThan(0);
    for (const { ruleId, ruleIndex } of results)
      expect(tool.driver.rules[ruleIndex].id).toBe(ruleId);
  });

  it('gives the same fingerprints when lines move, and different ones for different findings', () => {
    const prints = (text: string) =>
      sarif(inRepository({ 'sets/a.receiver': text })).runs[0].results.map(
        (result: { partialFingerprints: Record<string, string> }) =>
          result.partialFingerprints['setwright/v1'],
      );
    const before = prints(faulty);
    expect(new Set(before).size).toBe(before.length);
    expect(prints(`// moved\n\n\n${faulty}`)).toEqual(before);
  });
});

describe('the annotations for GitHub', () => {
  it('stand at the line, and cannot be ended by what a file holds', () => {
    const text = faulty.replace('"Sound"', '"100 %0A::error::x"');
    const { out } = report(folderWith({ 'a,b.receiver': text }), 'github', 'a,b.receiver');
    const lines = out.trimEnd().split('\n');
    expect(lines).toContainEqual(
      expect.stringMatching(
        /^::error file=a%2Cb\.receiver,line=6,col=43,endColumn=55,endLine=6,title=unknown-name::/,
      ),
    );
    expect(lines.every((line) => /^::(?:error|warning|notice) file=/.test(line))).toBe(true);
    expect(out).toContain('100 %250A::error::x: it cannot be told');
  });
});
