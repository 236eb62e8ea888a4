import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { allChecks } from '@setwright/checks';
import { readReceivers } from '@setwright/language';
import { hintKinds } from '@setwright/webview';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const json = (path: string) => JSON.parse(readFileSync(join(root, path), 'utf8'));
const manifest = json('package.json');
const { contributes } = manifest;
const settings: Readonly<Record<string, { readonly [key: string]: unknown }>> =
  contributes.configuration.properties;

/** Every text of the manifest that is a file of ours, by where it is said. */
function filesIn(value: unknown): readonly string[] {
  if (typeof value === 'string') {
    return /^(\.\/)?(packages|syntaxes|examples)\/\S+\.\w+$/.test(value) ? [value] : [];
  }
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(filesIn) : [];
}

describe('the manifest of the extension', () => {
  it('knows every check by its id, and no other', () => {
    const { propertyNames } = settings['setwright.checks'] as {
      propertyNames: { enum: string[] };
    };
    expect(propertyNames.enum).toEqual(allChecks.map(({ id }) => id).sort());
  });

  it('has a setting for every kind of hint', () => {
    const prefix = 'setwright.hints.';
    const named = Object.keys(settings).filter((name) => name.startsWith(prefix));
    expect(named.map((name) => name.slice(prefix.length)).sort()).toEqual([...hintKinds].sort());
  });

  it('describes every setting, every value of one, and says whose it is', () => {
    for (const [name, setting] of Object.entries(settings)) {
      expect(setting.description ?? setting.markdownDescription, name).toMatch(/\.$/);
      expect(['resource', 'machine', 'window'], name).toContain(setting.scope);
      if (Array.isArray(setting.enum)) {
        expect(setting.enumDescriptions, name).toHaveLength(setting.enum.length);
      }
    }
  });

  it('names only files that there are', () => {
    const files = filesIn({ contributes, icon: manifest.icon });
    expect(files.length).toBeGreaterThan(8);
    expect(files.filter((file) => !existsSync(join(root, file)))).toEqual([]);
  });

  it('says what it does to every command: a category, and no menu without one', () => {
    const commands: readonly { command: string; category: string }[] = contributes.commands;
    expect(commands.every(({ category }) => category === 'Setwright')).toBe(true);
    const known = new Set(commands.map(({ command }) => command));
    const inMenus = Object.values(contributes.menus as Record<string, { command: string }[]>)
      .flat()
      .concat(contributes.keybindings);
    expect(inMenus.map(({ command }) => command).filter((each) => !known.has(each))).toEqual([]);
  });

  it('puts one icon at most beside the tabs', () => {
    const icons = contributes.menus['editor/title'].filter(
      ({ group }: { group: string }) => group === 'navigation',
    );
    expect(icons).toHaveLength(1);
  });

  it('runs nothing that a workspace names', () => {
    // Every setting that takes free words could name a program; a workspace may not set it.
    const free = Object.entries(settings)
      .filter(([, { type, enum: words }]) => type === 'string' && words === undefined)
      .map(([name, { scope }]) => [name, scope]);
    expect(free).toEqual([['setwright.commandLine', 'machine']]);
    expect(manifest.capabilities.untrustedWorkspaces.supported).toBe(true);
  });
});

describe('the problem matcher', () => {
  const [{ pattern }] = contributes.problemMatchers;
  const fields = (line: string) => {
    const found = new RegExp(pattern.regexp).exec(line);
    return (
      found &&
      ['file', 'line', 'column', 'severity', 'message', 'code'].map((key) => found[pattern[key]])
    );
  };

  it('reads what the command line tool prints of a finding', () => {
    expect(
      fields(
        'sets/a b.receiver:15:3: information: RH1 gives 5.5 V: too much. [filament-over-voltage]',
      ),
    ).toEqual([
      'sets/a b.receiver',
      '15',
      '3',
      'info',
      'RH1 gives 5.5 V: too much.',
      'filament-over-voltage',
    ]);
    expect(fields('a.receiver:2:1: error: Bad [x] thing. [unknown-word]')?.[3]).toBe('error');
    expect(fields('C:\\sets\\a.receiver:2:1: hint: Look. [unused-post]')?.[0]).toBe(
      'C:\\sets\\a.receiver',
    );
  });

  it('passes the lines below a finding over', () => {
    for (const line of ['  why: It would burn.', ' 15 |   rheostat RH1', '1 error in 1 file'])
      expect(fields(line)).toBeNull();
  });
});

describe('the snippets', () => {
  const snippets: Readonly<Record<string, { readonly body: readonly string[] }>> = json(
    'packages/client/snippets/setwright.json',
  );

  /** What is written when every place of a snippet is left as it is offered. */
  const written = (body: readonly string[]): string =>
    body
      .join('\n')
      .replace(/\$\{\d+\|([^,|]*)[^|]*\|\}/g, '$1')
      .replace(/\$\{\d+:([^}]*)\}/g, '$1')
      .replace(/\$\d+/g, '');

  for (const [name, { body }] of Object.entries(snippets)) {
    it(`"${name}" can be read as it is offered`, () => {
      const text = written(body);
      const set = /^(receiver|tube type|use)/.test(text)
        ? text
        : `receiver "Cove" {\n  battery A storage { tap A- tap A+ 6 V }\n  condenser C1 1 mfd from A- to A+\n  tube V1 01-A\n  ${text}\n}`;
      const unread = readReceivers(set, 'a.receiver').circuits.flatMap((circuit) => circuit.unread);
      expect(unread).toEqual([]);
    });
  }
});
