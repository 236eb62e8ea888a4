import { describe, expect, it } from 'vitest';
import { inlayHints } from '../../src/features/inlay-hints.ts';
import { settingsFrom, usualSettings } from '../../src/settings.ts';
import { exampleNames, exampleText, read, setWith } from '../support.ts';

const all = { start: { line: 0, character: 0 }, end: { line: 10_000, character: 0 } };

/** The hints of a text by the line that they stand behind. */
const hints = (text: string, settings = usualSettings) => {
  const snapshot = read(text);
  return inlayHints({ snapshot, lastWhole: undefined }, all, settings).map(
    ({ position, label }) => {
      const start = snapshot.offset({ line: position.line, character: 0 });
      const words = snapshot.text.slice(start, snapshot.offset(position)).trim();
      return `${words.split(' ').slice(0, 2).join(' ')}: ${label}`;
    },
  );
};

const band = expect.stringMatching(/^\d+ to \d+ kc$/);

describe('the number beside a line', () => {
  it('is the one that a restorer wants there', () => {
    expect(hints(setWith())).toEqual([
      expect.stringMatching(/^battery A: 0\.2\d+ A, \d+ hours$/),
      expect.stringMatching(/^battery B: \d\.\d+ mA$/),
      expect.stringMatching(/^winding aerial: ≈ 1\d(\.\d)? µH$/),
      expect.stringMatching(/^winding grid: ≈ 1\d\d µH$/),
      expect.stringMatching(/^condenser C1: 5\d\d to 1\d{3} kc$/),
      expect.stringMatching(/^tube V1: 0\.2\d+ V bias$/),
      expect.stringMatching(/^filament from: 4\.9\d* V$/),
    ]);
  });

  it('is the plate’s at the line of the plate', () => {
    const text = setWith().replace('filament from', 'plate to PH1.start\n      filament from');
    expect(hints(text.replace('V1.plate to B+45', 'V1.plate to B+45'))).toContainEqual(
      expect.stringMatching(/^plate to: 4\d(\.\d)? V, \d\.\d+ mA$/),
    );
  });

  it('is not said where the line says it', () => {
    const text = setWith().replace('46 turns of 24 DCC beside aerial spaced 1/4 in', '200 uH');
    expect(hints(text).filter((hint) => hint.startsWith('winding grid'))).toEqual([]);
  });

  it('is the ratio of a transformer that gives its windings', () => {
    const set = 'transformer T1 {\n winding primary 14 H\n winding secondary 126 H\n}';
    expect(hints(setWith({ set }))).toContain('transformer T1: ≈ 1 to 3');
  });

  it('is not shown for a kind that is switched off', () => {
    const settings = settingsFrom({ hints: { band: false, inductance: false } });
    const kinds = hints(setWith(), settings).filter((hint) => /^(condenser|winding)/.test(hint));
    expect(kinds).toEqual([]);
  });

  it('is in SI units where they are wanted', () => {
    expect(hints(setWith(), settingsFrom({ units: 'si' }))).toContain(
      'condenser C1: 594 to 1790 kHz',
    );
  });

  it('is not guessed while lines cannot be read, and kept from the text before', () => {
    const broken = setWith().replace('phones PH1', 'phnes PH1');
    expect(hints(broken)).toEqual([]);
    const kept = inlayHints(
      { snapshot: read(broken), lastWhole: read(setWith()) },
      all,
      usualSettings,
    );
    expect(kept.map(({ label }) => label)).toContainEqual(band);
  });

  it('is told within the lines that are asked for', () => {
    const snapshot = read(setWith());
    const line = snapshot.position(snapshot.text.indexOf('condenser C1')).line;
    const range = { start: { line, character: 0 }, end: { line, character: 200 } };
    const found = inlayHints({ snapshot, lastWhole: undefined }, range, usualSettings);
    expect(found.map(({ label }) => label)).toEqual([band]);
  });

  it.each(exampleNames('sound'))('%s: one number a line at most', (name) => {
    const snapshot = read(exampleText(name));
    const found = inlayHints({ snapshot, lastWhole: undefined }, all, usualSettings);
    const lines = found.map(({ position }) => position.line);
    expect(new Set(lines).size).toBe(lines.length);
    expect(lines.length).toBeGreaterThan(1);
  });
});
