import { describe, expect, it } from 'vitest';
import { signalItemsAt, signalsInto, signalsOutOf } from '../../src/features/call-hierarchy.ts';
import { signalLinks, stageLinks } from '../../src/features/signal.ts';
import { exampleText, marked, read } from '../support.ts';

const links = (name: string): string[] =>
  signalLinks(read(exampleText(name)).file.circuits[0]!).map(({ from, to }) => `${from} ${to}`);

describe('what feeds what', () => {
  it('in a crystal set', () => {
    expect(links('crystal')).toEqual(['ANT CR1', 'CR1 PH1']);
  });

  it('in a regenerative set nothing feeds itself', () => {
    expect(links('one-tube-regenerative')).toEqual(['ANT V1', 'V1 PH1']);
  });

  it('in a tuned radio-frequency set, stage by stage', () => {
    expect(links('five-tube-trf')).toEqual(['ANT V1', 'V1 V2', 'V2 V3', 'V3 V4', 'V4 V5', 'V5 H1']);
  });

  it('in a neutralized set nothing goes back by the neutralizing condensers', () => {
    expect(links('neutralized-five').slice(0, 3)).toEqual(['ANT V1', 'V1 V2', 'V2 V3']);
  });

  it('in a superheterodyne the oscillator feeds the mixer and takes nothing', () => {
    const all = links('superheterodyne');
    expect(all).toContain('V2 V1');
    expect(all).toContain('LP1 V1');
    expect(all.filter((link) => link.endsWith(' V2'))).toEqual([]);
  });

  it('in a reflex set the tube works twice', () => {
    const all = links('reflex');
    expect(all).toContain('ANT V1');
    expect(all).toContain('V1 CR1');
    expect(all).toContain('CR1 V1');
    expect(all).not.toContain('ANT CR1');
  });

  it('in a push-pull stage both tubes', () => {
    expect(links('push-pull')).toEqual(
      expect.arrayContaining(['V3 V4', 'V3 V5', 'V4 SP1', 'V5 SP1']),
    );
  });

  it('by stages', () => {
    const circuit = read(exampleText('two-tube')).file.circuits[0]!;
    expect(stageLinks(circuit).map(({ from, to }) => `${from} ${to}`)).toEqual([
      'ANT DET',
      'DET AF1',
    ]);
  });
});

describe('the hierarchy of the signal', () => {
  const at = (words: string) => {
    const { snapshot, position } = marked(
      exampleText('five-tube-trf').replace(words, `${words.slice(0, -1)}<|>${words.slice(-1)}`),
    );
    const [item] = signalItemsAt(snapshot, position);
    return { snapshot, item };
  };

  it('begins with the stage that the cursor stands in', () => {
    expect(at('tube V3').item?.name).toBe('DET');
    expect(at('.00025 mfd').item?.name).toBe('DET');
    expect(at('detector stage DET').item?.name).toBe('DET');
  });

  it('leads to what feeds it and to what it feeds', () => {
    const { snapshot, item } = at('tube V3');
    if (!item) throw new Error('no stage');
    expect(signalsInto(snapshot, item).map(({ from }) => from.name)).toEqual(['RF2']);
    expect(signalsOutOf(snapshot, item).map(({ to }) => to.name)).toEqual(['AF1']);
  });

  it('begins with a part that stands in no stage', () => {
    expect(at('post ANT').item?.name).toBe('ANT');
  });

  it('is empty outside any set, and for an item of another time', () => {
    const { snapshot, position } = marked('// not<|>hing');
    expect(signalItemsAt(snapshot, position)).toEqual([]);
    const range = { start: position, end: position };
    const item = { name: 'x', kind: 1 as const, uri: 'x', range, selectionRange: range };
    expect(signalsInto(snapshot, { ...item, data: { receiver: 3, name: 'x' } })).toEqual([]);
    expect(signalsOutOf(snapshot, { ...item, data: 'old' })).toEqual([]);
  });
});
