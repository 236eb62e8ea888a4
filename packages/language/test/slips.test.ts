import { describe, expect, it } from 'vitest';
import { afterFix, remarksOf, setOf, textOf, told } from './set.ts';

/** One slip: what is written, the one finding it gives, and what the first fix makes of it. */
type Slip = readonly [written: string, finding: string, mended?: string];

function oneFinding(context: string, slips: readonly Slip[]) {
  describe.each(slips.map(([written, finding, mended]) => ({ written, finding, mended })))(
    '$written',
    ({ written, finding, mended }) => {
      const body = context.includes('…') ? context.replace('…', written) : `${context}${written}`;

      it('gives one finding, at the right words', () => {
        expect(told(body)).toEqual([finding]);
      });

      if (mended !== undefined) {
        it('and a fix that cures it', () => {
          const text = textOf(body);
          expect(afterFix(text)).toContain(mended);
          expect(remarksOf(afterFix(text))).toEqual([]);
        });
      }
    },
  );
}

describe('a name that means nothing', () => {
  oneFinding('tube V1 01-A\nrheostat RH1 20 ohms from A-\n', [
    ['wire A+ to V1.gird', 'unknown-name @ V1.gird', 'V1.grid'],
    ['wire A+ to V2.grid', 'unknown-name @ V2.grid'],
    ['wire a+ to V1.grid', 'unknown-name @ a+', 'A+'],
    ['resistor R1 5 ohms from A- to RH2', 'unknown-name @ RH2', 'RH1'],
    ['wire RH1.end to A+', 'unknown-name @ RH1.end'],
    [
      'coil L1 {\n winding a 5 turns beside gird\n winding grid 5 turns\n}',
      'unknown-name @ gird',
      'beside grid',
    ],
    [
      'coil L1 {\n winding aa 5 turns\n winding bb 5 turns\n coupling aa with bc k .3\n}',
      'unknown-name @ bc',
      'bb',
    ],
    ['condenser C1 like C9', 'unknown-name @ C9'],
    ['condenser C1 like RH1', 'unknown-name @ RH1'],
    ['condenser C1 like C1', 'unknown-name @ C1'],
    ['gang G1 C7', 'unknown-name @ C7'],
    ['gang G1 RH1', 'unknown-name @ RH1'],
    ['dial D1 0 to 100 drives RH2', 'unknown-name @ RH2', 'RH1'],
    ['dial D1 0 to 100 drives V1', 'unknown-name @ V1'],
    ['phones PH1 into RH1', 'unknown-name @ RH1'],
    ['bench "x" {\n reading V1.palte 5 V\n}', 'unknown-name @ V1.palte', 'V1.plate'],
    ['bench "x" {\n dial D1 30\n}', 'unknown-name @ D1'],
    ['suppose "x" {\n open RH2\n}', 'unknown-name @ RH2', 'RH1'],
    ['eliminator E {\n tap E-\n tap B+45\n earthed F-\n}', 'unknown-name @ F-', 'E-'],
    ['tube V2 01-A {\n screen to A+\n}', 'unknown-name @ screen to A+'],
    ['tube V2 01-A {\n cathode to A+\n}', 'unknown-name @ cathode to A+'],
    [
      'coil L1 {\n winding a 9 turns taps 4, 6\n}\nselector S1 from A- to L1.a.tap4, L1.a.tap6 set tap5',
      'unknown-name @ tap5',
      'set tap4',
    ],
    [
      'coil L1 {\n winding a 9 turns taps 4, 6\n}\nselector S1 from A- to L1.a taps 4, 5',
      'unknown-name @ 5',
    ],
  ]);

  it('no more than a hundred names of one text get suggestions, however many there are', () => {
    const body = Array.from({ length: 300 }, (_, i) => `wire A+ to B${i}+`).join('\n');
    expect(told(body)).toHaveLength(300);
  });
});

describe('a name given twice', () => {
  oneFinding('resistor R1 5 ohms from A- to A+\nresistor R2 5 ohms from A- to A+\n', [
    ['resistor R1 6 ohms from A- to A+', 'duplicate-name @ R1', 'resistor R3 6 ohms'],
    ['post R1', 'duplicate-name @ R1', 'post R3'],
    ['battery B dry {\n tap B-\n tap B+45\n tap B+45\n}', 'duplicate-name @ B+45'],
    ['coil L1 {\n winding a 5 turns\n winding a 5 turns\n}', 'duplicate-name @ a', 'winding a2'],
    [
      'radio stage RF1 {\n post P1\n}\nradio stage RF1 {\n post P2\n}',
      'duplicate-name @ RF1',
      'radio stage RF2',
    ],
    ['dial D1 0 to 100\ndial D1 0 to 100', 'duplicate-name @ D1', 'dial D2'],
  ]);

  it('a post or bus said again is the same one', () => {
    expect(told('post GND ground\npost GND "on the base"\nbus NEG\nbus NEG')).toEqual([]);
  });

  it('a tube type described twice in a file', () => {
    const type = 'tube type 99-Z {\n filament 3 V .06 A\n}\n';
    expect(remarksOf(type + type + textOf('')).map(({ check }) => check)).toEqual([
      'duplicate-name',
    ]);
  });
});

describe('a number without its unit', () => {
  oneFinding('', [
    ['leak R1 2 from A- to A+', 'missing-unit @ 2', 'leak R1 2 megohms'],
    ['condenser C1 .00025 from A- to A+', 'missing-unit @ .00025', '.00025 mfd'],
    ['condenser C1 variable 14 to 365', 'missing-unit @ 14 to 365', '14 to 365 mmfd'],
    ['rheostat RH1 20 from A-', 'missing-unit @ 20', '20 ohms'],
    ['rheostat RH1 20 ohms from A- set 2', 'missing-unit @ 2', 'set 2 %'],
    ['tunes 550 to 1500', 'missing-unit @ 550 to 1500', '550 to 1500 kc'],
    ['post ANT aerial 250', 'missing-unit @ 250', '250 mmfd'],
    ['wire A- to A+ 3', 'missing-unit @ 3', '3 ohms'],
    ['battery B dry {\n tap B-\n tap B+45 45\n}', 'missing-unit @ 45', 'B+45 45 V'],
    ['coil L1 {\n form 3\n winding a 5 turns\n}', 'missing-unit @ 3', 'form 3 in'],
    ['bench "x" {\n actual A+ 6\n}', 'missing-unit @ 6', 'actual A+ 6 V'],
  ]);

  it.each([
    'transformer T1 ratio 1 to 3.5 {\n winding primary\n winding secondary\n}',
    'coil L1 {\n winding a 58 of 26 DCC taps 4, 8\n}',
    'coil L1 {\n winding a 9 turns taps 4, 6\n}\nselector S1 from A- to L1.a.tap4, L1.a.tap6 set 2',
    'rheostat RH1 20 ohms from A-\ndial D1 0 to 100 drives RH1\nbench "x" {\n dial D1 42\n}',
    'year 1926',
    'coil L1 {\n winding a 5 turns\n winding b 5 turns\n coupling a with b k .3\n}',
  ])('pure numbers need none: %s', (body) => {
    expect(told(body)).toEqual([]);
  });

  it('what is copied is told of once, where it is said', () => {
    expect(told('condenser C1 .00025 from A- to A+\ncondenser C2 like C1 from A- to A+')).toEqual([
      'missing-unit @ .00025',
    ]);
  });
});

describe('a unit of the wrong kind', () => {
  oneFinding('', [
    ['leak R1 2 mfd from A- to A+', 'wrong-unit @ 2 mfd', '2 megohms'],
    ['leak R1 2 megg from A- to A+', 'wrong-unit @ 2 megg', '2 megohms'],
    ['condenser C1 200 meters from A- to A+', 'wrong-unit @ 200 meters', '200 mmfd'],
    ['condenser C1 .00025 mdf from A- to A+', 'wrong-unit @ .00025 mdf', '.00025 mfd'],
    ['choke L1 30 mfd from A- to A+', 'wrong-unit @ 30 mfd', '30 H'],
    ['tunes 550 ohms to 1500 kc', 'wrong-unit @ 550 ohms'],
    ['rheostat RH1 20 ohms from A- set 3 V', 'wrong-unit @ 3 V', '3 %'],
    ['resistor R1 20 ohms 30 ohms from A- to A+', 'wrong-unit @ 30 ohms', '20 ohms from'],
    ['tube V1 01-A 5 V', 'wrong-unit @ 5 V'],
  ]);

  it.each([
    'condenser C1 .00025 MF from A- to A+',
    'condenser C1 250 MMF from A- to A+',
    'condenser C1 225 cm from A- to A+',
    'choke L1 80 MHY from A- to A+',
    'resistor R1 100 K from A- to A+',
    'fuse F1 250 MA from A- to A+',
    'tunes 200 to 545 Meters',
  ])('period spellings are plain: %s', (body) => {
    expect(told(body)).toEqual([]);
  });
});

describe('a lone M', () => {
  oneFinding('', [
    ['leak R1 2 M from A- to A+', 'ambiguous-unit @ 2 M', '2 kilohms'],
    ['resistor R1 100 M ohms from A- to A+', 'ambiguous-unit @ 100 M ohms', '100 kilohms'],
    ['resistor R1 100 mohms from A- to A+', 'ambiguous-unit @ 100 mohms', '100 kilohms'],
  ]);

  it('offers thousand and million', () => {
    const fixes = remarksOf(textOf('leak R1 2 M from A- to A+'))[0]?.fixes ?? [];
    expect(fixes.map(({ title }) => title)).toEqual(['Write 2 kilohms', 'Write 2 megohms']);
  });
});

describe('a word that says nothing', () => {
  oneFinding('tube V1 01-A\n', [
    ['post ANT arial', 'unknown-word @ arial', 'aerial'],
    ['battery B dri {\n tap B-\n tap B+45\n}', 'unknown-word @ dri', 'dry'],
    ['condenser C1 1 mfd frm A- to A+', 'unknown-word @ frm A-', 'from A-'],
    ['leak R1 2 meg frm V1.grid to A+', 'unknown-word @ frm', 'from V1.grid'],
    ['leak R1 2 meg form A- to A+', 'unknown-word @ form', 'from A-'],
    ['resistor R1 5 ohms A- to A+', 'unknown-word @ A-', 'from A-'],
    ['rheostat RH1 20 ohms from A- sett 5 ohms', 'unknown-word @ sett 5 ohms', 'set 5 ohms'],
    ['condenser C1 variable 14 tp 365 mmfd', 'unknown-word @ tp', '14 to 365'],
    ['condenser C1 1 mfd law capasity from A- to A+', 'unknown-word @ capasity', 'law capacity'],
    ['condenser C1 1 mfd from A- to A+ reversed', 'unknown-word @ reversed'],
    ['condenser C1 1 mfd from A- to A+ by 3 in', 'unknown-word @ by 3 in'],
    ['condenser C1 1 mfd from A- to A+ with V1', 'unknown-word @ with V1'],
    ['switch S1 from A- to A+ shut', 'unknown-word @ shut'],
    ['post P1 from A-', 'unknown-word @ from A-'],
    ['wire A- A+', 'unknown-word @ A+', 'A- to A+'],
    ['wire A- ot V1.grid', 'unknown-word @ ot', 'to V1.grid'],
    ['tube V2 01-A {\n filament A- to A+\n}', 'unknown-word @ A-', 'filament from A-'],
    ['tube V2 01-A {\n grid A-\n}', 'unknown-word @ A-', 'grid to A-'],
    ['coil L1 {\n winding a 5 turns of 26 DCX\n}', 'unknown-word @ DCX', 'DCC'],
    ['coil L1 {\n winding a 5 turns like L2\n}', 'unknown-word @ like L2'],
    [
      'transformer T1 1 to 3 {\n winding primary\n winding secondary\n}',
      'unknown-word @ 1 to 3',
      'ratio 1 to 3',
    ],
    ['dial D1 0 to 100 drive V1', 'unknown-word @ drive V1'],
    ['dial D1 0 to 100 backwards', 'unknown-word @ backwards'],
    ['resistor R1 5 ohms to A- taps 3', 'unknown-word @ 3'],
    ['year nineteen', 'unknown-word @ year nineteen'],
    ['year', 'unknown-word @ year'],
    ['note', 'unknown-word @ note'],
    ['open V1', 'unknown-word @ open V1'],
    ['filament from A- to A+', 'unknown-word @ filament from A- to A+'],
    ['tap B+45 45 V', 'unknown-word @ tap B+45 45 V'],
    ['bench "x" {\n reading A+ three V\n}', 'unknown-word @ three V'],
    ['bench "x" {\n heard "week"\n}', 'unknown-word @ "week"', 'heard "weak"'],
    ['bench "x" {\n click V1 loud\n}', 'unknown-word @ loud'],
    ['suppose "x" {\n swap V1\n}', 'unknown-word @ swap V1'],
    ['suppose "x" {\n change V1\n}', 'unknown-word @ change V1'],
    ['suppose "x" {\n turns 1/0 shorted in V1\n}', 'unknown-word @ turns 1/0 shorted in V1'],
    ['meant grid-biased-positive', 'unknown-word @ meant grid-biased-positive'],
  ]);

  it('checks that look for something missing wait while a join may be lost in it', () => {
    expect(setOf('condenser C1 1 mfd frm A- to A+').unread).not.toEqual([]);
    expect(setOf('condenser C1 1 mfd from A- to A+').unread).toEqual([]);
  });
});

describe('a tube type without data', () => {
  oneFinding('', [
    ['tube V1 UX-201-A', 'unknown-tube-type @ UX-201-A', 'tube V1 01-A'],
    ['tube V1 301A', 'unknown-tube-type @ 301A', 'tube V1 01-A'],
    ['tube V1 QX299', 'unknown-tube-type @ QX299', 'tube V1 99'],
    ['tube V1 112', 'unknown-tube-type @ 112', 'tube V1 12'],
    ['tube V1 171', 'unknown-tube-type @ 171', 'tube V1 71-A'],
    ['tube V1 99X', 'unknown-tube-type @ 99X', 'tube V1 99'],
    ['tube V1 QQ', 'unknown-tube-type @ QQ'],
  ]);

  it('is a hint, never an error', () => {
    expect(remarksOf(textOf('tube V1 QQ')).map(({ severity }) => severity)).toEqual(['hint']);
  });
});

describe('an end that cannot be told', () => {
  oneFinding('resistor R1 5 ohms from A- to A+\nresistor R2 5 ohms\n', [
    ['resistor R3 5 ohms from A- to R1', 'which-end @ R1', 'to R1.start'],
    ['wire A+ to R2', 'which-end @ R2', 'R2.start'],
    ['tube V1 01-A\nwire A+ to V1', 'which-end @ V1', 'V1.grid'],
    ['condenser C1 1 mfd across A+', 'which-end @ A+'],
    ['condenser C1 1 mfd across C1', 'which-end @ C1'],
    [
      'battery B1 dry {\n tap B-\n tap B+45\n}\nbattery B2 dry {\n tap B-\n tap B+90\n}\nwire B- to A-',
      'which-end @ B-',
      'wire B1.B- to A-',
    ],
  ]);
});

describe('a wire with one end', () => {
  oneFinding('', [
    ['wire A-', 'dangling-end @ wire A-'],
    ['wire A- to', 'unreadable-line @ to'],
  ]);
});

describe('a line that cannot be read', () => {
  oneFinding('tube V1 01-A\n', [
    [
      'leak R1 2 meg form V1.grid to A+',
      'unreadable-line @ form V1.grid to A+',
      'meg from V1.grid',
    ],
    [
      'condensor C1 1 mfd from A- to A+',
      'unreadable-line @ condensor C1 1 mfd from A- to A+',
      'condenser C1',
    ],
    ['resistor R1 5 ohms from A- to', 'unreadable-line @ to'],
    ['@@ what', 'unreadable-line @ @@ what'],
  ]);

  it('takes nothing from the lines about it', () => {
    expect(told('leak R1 2 M from A- to A+\nqwerty\nleak R2 2 M from A- to A+')).toEqual([
      'unreadable-line @ qwerty',
      'ambiguous-unit @ 2 M',
      'ambiguous-unit @ 2 M',
    ]);
  });
});

describe('a stage whose kind does not stand first', () => {
  it('is told to write what it is for before it, and with which name', () => {
    const [only, ...others] = remarksOf(textOf('stage AF2 "audio amplifier" {\n}'));
    expect(others).toEqual([]);
    expect(only?.cure).toContain('"audio stage AF2"');
  });
});
