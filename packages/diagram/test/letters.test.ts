import { describe, expect, it } from 'vitest';
import { advanceOf, outlineOf } from '../src/lettering/lettering.ts';
import { textWidth } from '../src/text-width.ts';

describe('the letters of a drawing', () => {
  it('are as wide as those of the usual sans-serif faces', () => {
    // Advance widths of the Helvetica AFM, Adobe Font Metrics: A 667, a 556, 1 556, i 222, space 278.
    expect(advanceOf('Aa1i ', 'plain')).toBe(667 + 556 + 556 + 222 + 278);
    // Helvetica-Bold: A 722, a 556, 1 556, i 278, space 278.
    expect(advanceOf('Aa1i ', 'bold')).toBe(722 + 556 + 556 + 278 + 278);
  });

  it('have outlines in all faces for everything that is printed on parts', () => {
    const signs = 'ABCXYZabcxyz0123456789 .,:;+-−/()&%"\'#½¼¾µΩ±×°éüñ…';
    for (const face of ['plain', 'bold', 'italic'] as const)
      expect(outlineOf(signs, face)).toBeDefined();
  });

  it('follow one another by their widths', () => {
    const [one, two] = [outlineOf('A', 'plain')!, outlineOf('AA', 'plain')!];
    expect(two).toBe(`${one}${one.replace('M0 0', `M${advanceOf('A', 'plain')} 0`)}`);
  });

  it('that are not known leave the whole line without outlines', () => {
    expect(outlineOf('A漢', 'plain')).toBeUndefined();
    expect(textWidth('漢', 'value')).toBeGreaterThan(textWidth('A', 'value'));
  });

  it('close every outline, with whole numbers throughout', () => {
    const outline = outlineOf('The quick brown fox: 0123456789 µH, 2 ½ Ω', 'plain')!;
    expect(outline).toMatch(/^(?:M\d+ 0(?:m[-\d ]+(?:[lqhv][-\d ]+)+z)+)+$/);
  });
});
