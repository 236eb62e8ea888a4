import { checkCircuit, quickChecks } from '@setwright/checks';
import { readReceivers } from '@setwright/language';
import { describe, expect, it } from 'vitest';
import { CodeActionKind } from 'vscode-languageserver-protocol';
import { codeActionsAt } from '../../src/features/code-actions.ts';
import { diagnosticsOf } from '../../src/features/diagnostics.ts';
import { isWaivable, meantEdits } from '../../src/features/meant.ts';
import { settingsFrom, usualSettings } from '../../src/settings.ts';
import { edited } from '../../src/text/edits.ts';
import {
  after,
  exampleNames,
  exampleText,
  findingsIn,
  rangeOf,
  read,
  setWith,
  uri,
} from '../support.ts';

const leakless = setWith().replace('leak R1 2 meg from V1.grid to A+', '');

const actions = (text: string, at: string, only?: string[], settings = usualSettings) => {
  const snapshot = read(text);
  const range = rangeOf(snapshot, at);
  const found = codeActionsAt(snapshot, findingsIn(snapshot), settings, {
    range,
    only,
    resolves: false,
  });
  return found.map((action) => ({
    title: action.title,
    kind: action.kind,
    preferred: action.isPreferred === true,
    command: action.command?.arguments?.[0],
    text: action.edit ? after(snapshot, action.edit.changes?.[uri] ?? []) : undefined,
  }));
};

/** Every fourth faulty example from one of the first: all of them would take long. */
const everyFourth = (from: number): readonly string[] =>
  exampleNames('faulty').filter((_, index) => index % 4 === from);

const ofReading = new Set(
  quickChecks.filter(({ group }) => group === 'Reading the text').map(({ id }) => id),
);

describe('quick fixes', () => {
  it('offer the fix, that it is meant, and the page of the check', () => {
    const found = actions(leakless, 'tube V1').filter(({ title }) => !title.includes('filament'));
    expect(found.map(({ title }) => title)).toEqual([
      expect.stringMatching(/^Add a leak of 2 megohms to A\+$/),
      'This is on purpose: meant grid-condenser-without-leak',
      'Explain grid-condenser-without-leak',
    ]);
    expect(found.map(({ preferred }) => preferred)).toEqual([true, false, false]);
    expect(found[2]?.command).toBe('grid-condenser-without-leak');
  });

  it('add the leak to the text, after which the check is content', () => {
    const [fix] = actions(leakless, 'tube V1');
    const again = findingsIn(read(fix?.text ?? ''));
    expect(again.map(({ check }) => check)).not.toContain('grid-condenser-without-leak');
  });

  it('put in the likely unit', () => {
    const text = setWith().replace('.00025 mfd', '.00025');
    expect(actions(text, '.00025').map(({ title }) => title)).toContain('Write .00025 mfd');
  });

  it('correct a name to the nearest', () => {
    const text = setWith().replace('from RH1 to A+', 'from RH2 to A+');
    expect(actions(text, 'RH2')[0]?.text).toContain('from RH1 to A+');
  });

  it('are none where nothing is found', () => {
    expect(actions(setWith(), 'tunes')).toEqual([]);
  });

  it('are none for a check that is switched off', () => {
    const settings = settingsFrom({ checks: { 'grid-condenser-without-leak': 'off' } });
    const titles = actions(leakless, 'tube V1', undefined, settings).map(({ title }) => title);
    expect(titles.filter((title) => title.includes('grid-condenser'))).toEqual([]);
  });

  it('are only of the kind that is asked for', () => {
    expect(actions(leakless, 'tube V1', [CodeActionKind.Refactor])).toEqual([]);
  });
});

describe('fix all', () => {
  const fixAll = (text: string) => actions(text, 'receiver', [CodeActionKind.SourceFixAll]);

  it('mends what leaves no choice', () => {
    const [action] = fixAll(leakless.replace('.00025 mfd', '.00025'));
    const again = findingsIn(read(action?.text ?? ''));
    const faults = again.filter(({ severity }) => severity === 'error');
    expect(faults).toEqual([]);
  });

  it('is not offered where there is nothing to mend', () => {
    expect(fixAll(setWith())).toEqual([]);
  });

  it.each(everyFourth(0))('%s: brings up no new fault', (name) => {
    const text = exampleText(name);
    const before = new Set(findingsIn(read(text)).map(({ check }) => check));
    const [action] = fixAll(text);
    if (!action?.text) return;
    const left = findingsIn(read(action.text)).filter(
      ({ severity }) => severity === 'error' || severity === 'warning',
    );
    expect(left.map(({ check }) => check).filter((check) => !before.has(check))).toEqual([]);
  });
});

describe('what is meant', () => {
  it.each(everyFourth(1))(
    '%s: the line silences its finding, and no word of it is unknown',
    (name) => {
      const snapshot = read(exampleText(name));
      const before = findingsIn(snapshot);
      const known = new Set(before.map(({ check }) => check));
      for (const finding of before.filter(isWaivable)) {
        const text = edited(snapshot.text, meantEdits(snapshot, finding));
        expect(text).toContain(`meant ${finding.check} "`);
        const left = findingsIn(read(text));
        expect(
          left.filter(
            ({ check, message }) => check === finding.check && message === finding.message,
          ),
        ).toEqual([]);
        // One fault, one finding: what it kept silent may speak now, but the line itself is read.
        expect(left.filter(({ check }) => !known.has(check) && ofReading.has(check))).toEqual([]);
      }
    },
  );

  it('is not offered for what cannot be read', () => {
    const text = setWith().replace('tube V1', 'tub V1');
    const titles = actions(text, 'tub V1').map(({ title }) => title);
    expect(titles.filter((title) => title.includes('on purpose'))).toEqual([]);
  });

  it('stands in the part’s block where it has one, else gives it one', () => {
    const [, meant] = actions(leakless, 'tube V1').filter(({ title }) => /leak/.test(title));
    expect(meant?.text).toContain('tube V1 01-A {\n      meant grid-condenser-without-leak "');
    const circuit = readReceivers(meant?.text ?? '', 'x').circuits[0]!;
    expect(checkCircuit(circuit).waived.map(({ finding }) => finding.check)).toEqual([
      'grid-condenser-without-leak',
    ]);
  });
});

describe('diagnostics', () => {
  const snapshot = read(leakless);
  const all = diagnosticsOf(snapshot, findingsIn(snapshot), usualSettings);
  const leak = all.find(({ code }) => code === 'grid-condenser-without-leak');

  it('say what is wrong, why it matters and what to do', () => {
    expect(String(leak?.message).split('\n')).toEqual([
      'The grid of V1 hangs on C2 and has no leak.',
      'A floating grid charges up and chokes the tube.',
      expect.stringMatching(/^Put a leak of 2 megohms/),
    ]);
  });

  it('lead to the page of the check and to the lines that take part', () => {
    expect(leak?.codeDescription?.href).toBe('setwright:/checks/grid-condenser-without-leak.md');
    expect(leak?.data).toEqual({ check: 'grid-condenser-without-leak' });
    expect(leak?.relatedInformation?.[0]?.message).toBe('this condenser blocks direct current');
  });

  it('have the severity that the settings give them', () => {
    const settings = settingsFrom({ checks: { 'grid-condenser-without-leak': 'hint' } });
    const found = diagnosticsOf(snapshot, findingsIn(snapshot), settings);
    expect(found.find(({ code }) => code === 'grid-condenser-without-leak')?.severity).toBe(4);
  });

  it('are never without width in a text with words', () => {
    const broken = read('receiver "x" {\n  wire A-\n  tube V1 01-A { filament }\n');
    for (const { range } of diagnosticsOf(broken, findingsIn(broken), usualSettings))
      expect(range.start).not.toEqual(range.end);
  });

  it('are faint for what does nothing', () => {
    const unused = read(setWith({ set: 'post GND2 ground' }));
    const found = diagnosticsOf(unused, findingsIn(unused), usualSettings);
    expect(found.find(({ code }) => code === 'unused-post')?.tags).toEqual([1]);
  });
});
