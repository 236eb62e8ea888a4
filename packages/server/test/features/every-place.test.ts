import { describe, expect, it } from 'vitest';
import { randomReceiver } from '../../../../test/support/random-receiver.ts';
import { signalItemsAt, signalsInto, signalsOutOf } from '../../src/features/call-hierarchy.ts';
import { completionAt } from '../../src/features/completion/completion.ts';
import { definitionAt, referencesAt } from '../../src/features/definition.ts';
import { foldingRanges } from '../../src/features/folding.ts';
import { formattingEdits, typingEdits } from '../../src/features/formatting.ts';
import { highlightsAt, linkedRangesAt } from '../../src/features/highlights.ts';
import { hoverAt } from '../../src/features/hover/hover.ts';
import { renamableAt } from '../../src/features/rename.ts';
import { selectionRanges } from '../../src/features/selection-ranges.ts';
import { semanticTokens } from '../../src/features/semantic-tokens.ts';
import { documentSymbols } from '../../src/features/symbols.ts';
import type { Snapshot } from '../../src/text/snapshot.ts';
import { exampleText, read, setWith } from '../support.ts';

/** Asks everything at every so many offsets of a text. */
function askEverywhere(snapshot: Snapshot, step: number): void {
  for (let offset = 0; offset <= snapshot.text.length; offset += step) {
    const position = snapshot.position(offset);
    hoverAt({ snapshot, lastWhole: undefined, units: 'period' }, position);
    completionAt(snapshot, position, { takesSnippets: true });
    definitionAt(snapshot, position);
    referencesAt(snapshot, position, true);
    highlightsAt(snapshot, position);
    linkedRangesAt(snapshot, position);
    renamableAt(snapshot, position);
    selectionRanges(snapshot, [position]);
    for (const item of signalItemsAt(snapshot, position)) {
      signalsInto(snapshot, item);
      signalsOutOf(snapshot, item);
    }
  }
  documentSymbols(snapshot);
  foldingRanges(snapshot);
  semanticTokens(snapshot);
  formattingEdits(snapshot);
  typingEdits(snapshot, snapshot.position(snapshot.text.length), '\n');
}

describe('nothing that is asked anywhere throws', () => {
  it('at every offset of an example', () => {
    expect(() => askEverywhere(read(exampleText('crystal')), 1)).not.toThrow();
  });

  it.each(['five-tube-trf', 'superheterodyne', 'push-pull'])('over the whole of %s', (name) => {
    expect(() => askEverywhere(read(exampleText(name)), 17)).not.toThrow();
  });

  it.each([1, 2, 3])('in what chance wires together wildly (seed %i)', (seed) => {
    expect(() => askEverywhere(read(randomReceiver(seed, { mode: 'wild' })), 7)).not.toThrow();
  });

  it('in texts of other kinds', () => {
    for (const text of ['', '}', '{{{', '"', 'tube', 'tube type', 'receiver "x" {', '/*', '\u2028'])
      expect(() => askEverywhere(read(text), 1)).not.toThrow();
  });

  it('in a set cut off anywhere', () => {
    const text = setWith();
    for (let end = 0; end < text.length; end += 37) {
      const snapshot = read(text.slice(0, end));
      const position = snapshot.position(end);
      expect(() => {
        hoverAt({ snapshot, lastWhole: undefined, units: 'si' }, position);
        completionAt(snapshot, position, { takesSnippets: false });
        documentSymbols(snapshot);
        semanticTokens(snapshot);
      }).not.toThrow();
    }
  });
});
