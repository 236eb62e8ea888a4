import { describe, expect, it } from 'vitest';
import type { MarkupContent } from 'vscode-languageserver-protocol';
import { completionAt } from '../../src/features/completion/completion.ts';
import { hoverAt } from '../../src/features/hover/hover.ts';
import { inlayHints } from '../../src/features/inlay-hints.ts';
import { usualSettings } from '../../src/settings.ts';
import { exampleText, read } from '../support.ts';

/** What somebody may put into the title of a set that they send to others. */
const hostile =
  '<img src=x onerror=hurt()> [run](command:workbench.action.terminal.new) ![x](https://e.test/x) `<b>` | <script>hurt()</script> *a* _b_ ``` \u202egnorw';

/** The five-tube set with every title and the year's maker, so to speak, out for no good. */
const text = exampleText('five-tube-trf').replace(/"[^"\n]*"/g, `"${hostile}"`);
const snapshot = read(text);

/** Markdown without its code, in which nothing is more than letters. */
const outsideCode = (markdown: string): string =>
  markdown.replace(/^```[\s\S]*?^```$/gm, '').replace(/(?<!\\)`[\w .+-]+`/g, '');

/** Signs of Markdown and HTML that stand there unescaped and open something. */
const opening = /(?<!\\)(?:\\\\)*(?:<[a-z/!]|\]\(|`)/i;

describe('titles that are out for no good', () => {
  it('are words in every hover', () => {
    let shown = 0;
    for (let offset = 0; offset < text.length; offset += 5) {
      const hover = hoverAt(
        { snapshot, lastWhole: undefined, units: 'period' },
        snapshot.position(offset),
      );
      if (!hover) continue;
      const { value } = hover.contents as MarkupContent;
      expect(outsideCode(value)).not.toMatch(opening);
      expect(outsideCode(value)).not.toContain('\u202e');
      if (value.includes('onerror')) shown += 1;
    }
    expect(shown, 'hovers that show a title').toBeGreaterThan(10);
  });

  it('are words in what completions say of themselves', () => {
    let said = 0;
    for (let offset = 0; offset < text.length; offset += 41) {
      const { items } = completionAt(snapshot, snapshot.position(offset), { takesSnippets: true });
      for (const { documentation } of items) {
        if (documentation === undefined) continue;
        expect(typeof documentation, 'Markdown is said to be so').toBe('object');
        expect(outsideCode((documentation as MarkupContent).value)).not.toMatch(opening);
        said += 1;
      }
    }
    expect(said).toBeGreaterThan(10);
  });

  it('are words in the hints beside the text', () => {
    const range = snapshot.range({ start: 0, end: text.length });
    const document = { uri: snapshot.uri, snapshot, findings: [], lastWhole: undefined };
    for (const { tooltip } of inlayHints(document, range, usualSettings)) {
      if (typeof tooltip === 'object') expect(outsideCode(tooltip.value)).not.toMatch(opening);
    }
  });
});
