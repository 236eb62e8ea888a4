import { describe, expect, it } from 'vitest';
import { type Overlay, overlayOf, viewsOf } from '../src/index.ts';
import { circuitOf, exampleTexts } from './examples.ts';
import { textOf } from './on-paper.ts';

const five = textOf('five-tube-trf');

function viewOf(text: string, view: string): Overlay {
  return overlayOf(circuitOf(text), view)!;
}

/** The parts that each path of a view leads through, in order. */
function ways(text: string, view: string): string[] {
  return viewOf(text, view).paths.map(({ steps }) => steps.map(({ part }) => part).join(' '));
}

describe('the radio signal', () => {
  it('goes from the aerial through both radio stages to the grid of the detector', () => {
    const [path] = viewOf(five, 'radio').paths;
    expect(path?.steps.map(({ part }) => part)).toEqual(
      'S2 L1.aerial L1.grid R1 V1 L2.plate L2.grid R2 V2 L3.plate L3.grid C4'.split(' '),
    );
    expect([path?.from, path?.to]).toEqual(['ANT', 'V3.grid']);
  });

  it('comes in at the end of the tap that the selector stands on', () => {
    const [selector, winding] = viewOf(five, 'radio').paths[0]!.steps;
    expect([selector?.in, selector?.out]).toEqual(['S2.arm', 'L1.aerial.tap8']);
    expect(winding?.in).toBe('L1.aerial.tap8');
  });

  it('leaps from winding to winding by the field, and nowhere else', () => {
    const leaps = viewOf(five, 'radio').paths[0]!.steps.filter(({ coupled }) => coupled);
    expect(leaps.map(({ part }) => part)).toEqual(['L1.grid', 'L2.grid', 'L3.grid']);
  });

  it('ends in the crystal of a reflex set, and audio passes the first tube again', () => {
    const reflex = textOf('reflex');
    expect(ways(reflex, 'radio')).toEqual(['L1.aerial L1.grid V1 L2.plate L2.secondary CR1']);
    expect(ways(reflex, 'audio')).toEqual([
      'CR1 T1.primary T1.secondary L1.grid V1 L2.plate T2.primary T2.secondary V2 H1',
    ]);
  });

  it('is fed back where a tickler works on the coil that it came by', () => {
    const paths = viewOf(textOf('one-tube-regenerative'), 'radio').paths;
    const [, back] = paths;
    expect(back?.kind).toBe('feedback');
    expect(back?.steps.map(({ part }) => part)).toEqual(['V1', 'L1.tickler', 'L1.grid']);
  });

  it('of a superheterodyne comes in by the loop and meets the oscillation at the mixer', () => {
    const { paths } = viewOf(textOf('superheterodyne'), 'radio');
    expect(paths.map(({ kind }) => kind)).toEqual(['radio', 'oscillator']);
    expect(paths[0]?.steps[0]?.part).toBe('LP1');
    expect([paths[0]?.to, paths[1]?.to]).toEqual(['V5.grid', 'V1.grid']);
  });

  it('ends at the last tube that it comes to, where nothing says which one detects', () => {
    const plain = textOf('two-tube')
      .replace(/^.*leak R1.*$/m, '')
      .replace('detector stage', 'stage');
    expect(viewOf(plain, 'radio').paths[0]?.to).toBe('V1.grid');
  });

  it('is found in a set of which no value is known', () => {
    expect(ways(textOf('bare-wiring'), 'radio')[0]).toBe('L1.aerial L1.grid C2');
  });
});

describe('the audio signal', () => {
  it('passes both tubes of a push-pull stage', () => {
    const paths = ways(textOf('push-pull'), 'audio');
    expect(paths).toHaveLength(2);
    expect(paths[0]).toContain(' V4 ');
    expect(paths[1]).toContain(' V5 ');
  });

  it('goes through the jack that the phones of the last stage leave free', () => {
    expect(ways(textOf('neutralized-five'), 'audio')[0]).toContain('V4 J1 T2.primary');
  });
});

describe('grid bias', () => {
  it('of an audio grid leads through its transformer and the C battery home to its filament', () => {
    const { steps, from, to } = viewOf(five, 'bias V4').paths[0]!;
    expect(steps.map(({ part }) => part)).toEqual(['T1.secondary', 'C', 'S1', 'RH3']);
    expect([from, to]).toEqual(['V4.grid', 'V4.filament-']);
  });

  it('is shown for every grid at once', () => {
    expect(viewOf(five, 'bias').paths.map(({ from }) => from)).toEqual(
      [1, 2, 3, 4, 5].map((tube) => `V${tube}.grid`),
    );
  });

  it('says where it is stopped when the leak is missing', () => {
    const { paths, notes } = viewOf(five.replace(/^.*leak R3.*$/m, ''), 'bias V3');
    expect(paths[0]?.stopped).toBe('a condenser blocks direct current');
    expect(notes[0]).toContain('bias of V3.grid');
  });
});

describe('plate supply', () => {
  it('runs from the tap through the plate and the filament back to B−, as the current does', () => {
    const [direct] = viewOf(five, 'plate V1').paths;
    expect(direct?.from).toBe('B.B+67');
    expect(direct?.steps.map(({ part }) => part)).toEqual(['L2.plate', 'V1', 'RH1', 'S1']);
    expect(direct?.to).toBe('B.B-');
  });

  it('lets radio go home through the bypass', () => {
    const radio = viewOf(five, 'plate V2').paths.find(({ kind }) => kind === 'radio');
    expect(radio?.steps.map(({ part }) => part)).toEqual(['L3.plate', 'C5', 'RH1']);
  });

  it('sends radio through the battery where the bypass is not there', () => {
    const radio = viewOf(five.replace(/^.*condenser C5.*$/m, ''), 'plate V2').paths.find(
      ({ kind }) => kind === 'radio',
    );
    expect(radio?.steps.map(({ part }) => part)).toContain('B');
  });

  it('has no radio of its own where audio alone passes the tube', () => {
    expect(viewOf(five, 'plate V5').paths.map(({ kind }) => kind)).toEqual(['direct']);
  });
});

describe('filaments', () => {
  it('are lit from A+ through the tube and its rheostat to A−', () => {
    const [first] = viewOf(five, 'filaments').paths;
    expect([first?.from, first?.to]).toEqual(['A.A+', 'A.A-']);
    expect(first?.steps.map(({ part }) => part)).toEqual(['V1', 'RH1', 'S1']);
  });
});

describe('a suppose', () => {
  it('marks what fails, by its number or its title', () => {
    const marked = [{ at: 'T1.primary', words: 'open' }];
    expect(viewOf(five, 'suppose 2').failed).toEqual(marked);
    expect(viewOf(five, 'suppose First transformer burnt out').failed).toEqual(marked);
    expect(viewOf(five, 'suppose "first transformer burnt out"').failed).toEqual(marked);
  });

  it('letters what it changes, as it is told', () => {
    const changes = [
      { at: 'V3.plate', words: '0 V, was 42 V' },
      { at: 'H1', words: 'silent' },
    ];
    const { changed, parts } = overlayOf(circuitOf(five), 'suppose 2', { changes })!;
    expect(changed.map(({ letter, at }) => `${letter} ${at}`)).toEqual(['a V3.plate', 'b H1']);
    expect(parts).toEqual(['T1.primary', 'V3.plate', 'H1']);
  });

  it.each([
    ['short C5', 'shorted'],
    ['leaky C4 1 meg', 'leaks, 1 meg'],
    ['change A+ to 5 V', 'changed to 5 V'],
    ['reverse T1.primary', 'leads exchanged'],
    ['turns 3 shorted in L1.grid', '3 turns shorted'],
    ['remove V2', 'taken out'],
  ])('%s is told as "%s"', (edit, words) => {
    const text = five.replace('open T1.primary', edit);
    expect(viewOf(text, 'suppose 2').failed[0]?.words).toBe(words);
  });
});

describe('the views of a set', () => {
  it('are those that there is something to show in', () => {
    expect(viewsOf(circuitOf(textOf('crystal'))).map(({ id }) => id)).toEqual([
      'whole',
      'radio',
      'audio',
      'stage DET',
      'suppose 1',
      'suppose 2',
      'suppose 3',
    ]);
  });

  it('are found however they are written, and not when they are not there', () => {
    expect(viewOf(five, ' Bias  v3 ')?.id).toBe('bias V3');
    expect(overlayOf(circuitOf(five), 'bias V9')).toBeUndefined();
    expect(overlayOf(circuitOf(five), '')).toBeUndefined();
  });

  it.each(exampleTexts)('of %s all have an overlay, and every path in them', (_name, text) => {
    const circuit = circuitOf(text);
    for (const { id } of viewsOf(circuit)) {
      const overlay = overlayOf(circuit, id);
      expect(overlay?.id).toBe(id);
      expect(overlay?.notes).toEqual([]);
      if (/^(radio|audio|bias|plate|filaments)/.test(id)) expect(overlay?.paths).not.toEqual([]);
    }
  });

  it('never throw on half a text', () => {
    const lines = five.split('\n');
    for (let cut = 20; cut < lines.length; cut += 17) {
      const circuit = circuitOf(lines.slice(0, cut).join('\n'));
      for (const { id } of viewsOf(circuit)) expect(overlayOf(circuit, id)?.id).toBe(id);
    }
  });
});
