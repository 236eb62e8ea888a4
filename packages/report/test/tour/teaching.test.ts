import { describe, expect, it } from 'vitest';
import { tourLevels } from '../../src/tour/tour.ts';
import { examples, textOf, tourIn } from './sets.ts';

const all = examples.flatMap((example) =>
  tourLevels.flatMap((level) =>
    tourIn(textOf(example), { level }).steps.map((step) => ({ example, ...step })),
  ),
);
const wordsOf = (example: string, id: string): string =>
  all.find((step) => step.example === example && step.id === id)?.sentences.join(' ') ?? '';

/** What teachers get wrong, as it would read here. Common practice of those who know better. */
const errors: readonly (readonly [string, RegExp])[] = [
  ['a leak that lets the signal leak away', /signal leaks? (?:away|off)/i],
  ['half the wave cut off in the plate', /half (?:of )?the wave|cuts off half/i],
  ['more plate current with a signal at a grid leak', /leak[^.]*current rises/i],
  ['a C battery that supplies current', /C supplies|C gives \d/],
  ['every tube amplifying by its factor', /amplifies \d+ times/i],
  ['turns for gain', /gain (?:is|of) the (?:turns|ratio)/i],
  ['equal inductance and capacity at resonance', /inductance equals|L equals C/i],
  ['a low reading for a low frequency', /low reading is a (?:long|low)/i],
  ['light for health', /glows?, so|lit, so it is good/i],
  ['a bypass as a short for the signal', /short(?:s|ed)? (?:for|to) the signal/i],
  ['neutralizing that cancels the squeal', /cancels? the (?:squeal|howl)/i],
  ['matching between stages', /impedance match/i],
  [
    'electrons run in the leads',
    /electrons (?:run|flow) (?:from|through|in) (?:B|the battery|R|L)/i,
  ],
];

describe('a tour teaches', () => {
  it.each(errors)('none of %s', (_, error) => {
    for (const { sentences, example, id } of all)
      for (const sentence of sentences) expect(sentence, `${example} ${id}`).not.toMatch(error);
  });

  it('that the bias is counted from the negative end of the filament', () => {
    expect(wordsOf('five-tube-trf', 'bias-v4')).toMatch(/−5\.5 V, counted from V4\.filament-/);
  });

  it('that the grid rectifies and plate current falls with a signal', () => {
    expect(wordsOf('five-tube-trf', 'detection-v3')).toMatch(/the grid rectifies.*current falls/);
  });

  it('that the plate gets the tap less what is lost and less the rise of F−', () => {
    expect(wordsOf('five-tube-trf', 'plate-v3')).toMatch(
      /B\+45 gives 44\.8 V under load, less 1\.\d+ V lost on the way and 1 V by which V3\.filament-/,
    );
  });

  it('that the switch does not take B off', () => {
    expect(wordsOf('five-tube-trf', 'safety')).toContain(
      'S1 (battery switch) does not take it off',
    );
  });

  it('that a neutralizing condenser cancels the feedback, with the tubes it is set for', () => {
    expect(wordsOf('neutralized-five', 'howl')).toMatch(/cancel the feedback, with the tubes/);
  });

  it('that a mains supply can kill and is left to licensed hands', () => {
    expect(wordsOf('push-pull', 'safety')).toMatch(/can kill.*licensed hands and the local code/);
  });
});
