import { allChecks } from '@setwright/checks';
import { setPatterns } from '@setwright/language';
import { hintKinds } from '@setwright/webview';
import { describe, expect, it } from 'vitest';
import { settingsFrom } from '../src/settings.ts';
import { builtInText, checkPageUri, libraryUri } from '../src/texts.ts';

describe('texts that come with the tool', () => {
  it('are the tube library and a page for every check', () => {
    expect(builtInText(libraryUri)).toMatch(/^tube type 01-A /m);
    for (const { id } of allChecks)
      expect(builtInText(checkPageUri(id))).toMatch(new RegExp(`^# ${id}\n`));
  });

  it('are the patterns of sets, for whoever begins one', () => {
    for (const { name, text } of setPatterns)
      expect(builtInText(`setwright:/patterns/${name}.receiver`)).toBe(text);
    expect(builtInText('setwright:/patterns/none.receiver')).toBeUndefined();
  });

  it('are found however many slashes a client writes', () => {
    expect(builtInText('setwright:///tubes.receiver')).toBe(builtInText(libraryUri));
    expect(builtInText('setwright:tubes.receiver')).toBe(builtInText(libraryUri));
  });

  it('are no others', () => {
    for (const uri of ['setwright:/other', 'file:///etc/passwd', 'setwright:/checks/none.md', ''])
      expect(builtInText(uri)).toBeUndefined();
  });
});

describe('settings', () => {
  it('are as usual where nothing is said, or nothing that is understood', () => {
    for (const sent of [
      undefined,
      null,
      7,
      [],
      { units: 'feet', checks: { x: 'loud' }, hints: 3 },
    ]) {
      const { checks, hints, units } = settingsFrom(sent);
      expect([checks.size, hints.size, units]).toEqual([0, hintKinds.length, 'period']);
    }
  });

  it('say severities, hints and units', () => {
    const { checks, hints, units } = settingsFrom({
      checks: { 'dangling-end': 'off', 'unused-post': 'warning' },
      hints: { bias: false },
      units: 'si',
    });
    expect([...checks]).toEqual([
      ['dangling-end', 'off'],
      ['unused-post', 'warning'],
    ]);
    expect(hints.has('bias')).toBe(false);
    expect(units).toBe('si');
  });
});
