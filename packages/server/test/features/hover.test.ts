import { connectingWords, readReceivers, statementWords } from '@setwright/language';
import { describe, expect, it } from 'vitest';
import { hoverAt } from '../../src/features/hover/hover.ts';
import { type Snapshot, snapshotOf } from '../../src/text/snapshot.ts';
import { detailHelp } from '../../src/words/details.ts';
import { type BlockKind, statementHelp } from '../../src/words/statements.ts';
import { marked, setWith, wordsAt } from '../support.ts';

const hover = (
  text: string,
  options: { units?: 'period' | 'si'; lastWhole?: Snapshot } = {},
): { words: string; of: string } => {
  const { snapshot, position } = marked(text);
  const { units = 'period', lastWhole } = options;
  const found = hoverAt({ snapshot, lastWhole, units }, position);
  const words = (found?.contents as { value: string } | undefined)?.value ?? 'nothing';
  return { words, of: found?.range ? wordsAt(snapshot, found.range) : '' };
};

/** Hover over the first place of some words. */
const over = (words: string, text = setWith()) =>
  hover(text.replace(words, `${words.slice(0, -1)}<|>${words.slice(-1)}`)).words;

describe('hover on a part', () => {
  it('says what it is in a sentence', () => {
    expect(over('rheostat RH1')).toMatch(/^\*\*RH1\*\*, rheostat\n\nA variable resistance/);
  });

  it('on a winding: its inductance, reactance at the ends of the band, and because', () => {
    const words = over('winding grid');
    expect(words).toMatch(/inductance \*\*\d+ µH\*\*\n {2}because .*turns of L1\.grid: 46 turns/);
    expect(words).toMatch(/reactance at 5\d\d kc \*\*\d+ ohms\*\*/);
    expect(words).toMatch(/reactance at 1500 kc \*\*\d+ ohms\*\*/);
  });

  it('on a condenser: what it tunes', () => {
    expect(over('condenser C1')).toMatch(/Tunes L1\.grid:\n\n- lowest frequency \*\*\d+ kc\*\*/);
  });

  it('on a tube: bias, volts, current and dissipation', () => {
    const words = over('tube V1');
    for (const name of [
      'filament volts',
      'grid bias',
      'plate volts',
      'plate current',
      'dissipation',
    ])
      expect(words).toMatch(new RegExp(`- ${name} \\*\\*`));
  });

  it('on a battery: drain and hours', () => {
    const words = over('battery A');
    expect(words).toMatch(/drain \*\*0\.\d+ A\*\*/);
    expect(words).toMatch(/hours of service \*\*\d+ hours\*\*/);
  });

  it('on a coil: how its windings are coupled', () => {
    expect(over('coil L1')).toMatch(/coupling, aerial and grid \*\*0\.\d+\*\*/);
  });

  it('on a transformer: its step-up', () => {
    const set = 'transformer T1 ratio 1 to 3.5 {\n winding primary 14 H\n}';
    expect(over('transformer T1', setWith({ set }))).toMatch(/step-up \*\*3\.5 times\*\*/);
  });

  it('in SI units where they are wanted', () => {
    const text = setWith().replace('winding grid', 'winding gr<|>id');
    expect(hover(text, { units: 'si' }).words).toMatch(/reactance at 5\d\d kHz \*\*\d+ Ω\*\*/);
  });

  it('keeps the numbers of the last text that could be read', () => {
    const whole = snapshotOf('file:///set.receiver', 1, setWith());
    const broken = setWith().replace('tube V1', 'tube V<|>1').replace('phones PH1', 'phnes PH1');
    const words = hover(broken, { lastWhole: whole }).words;
    expect(words).toMatch(/plate volts \*\*/);
    expect(words).toMatch(/as it last could be read/);
    expect(hover(broken).words).toMatch(/plate volts.*, for want of/);
    expect(hover(broken).words).toMatch(/may be far out/);
  });

  it('names of people’s own making show as they are written', () => {
    const text = setWith({ set: 'resistor R_9 "*loud* <b>" 5 ohms from A- to A+' });
    expect(over('resistor R_9', text)).toContain('\\*loud\\* \\<b\\>');
  });
});

describe('hover on a terminal', () => {
  it('tells what meets there and the way of direct current', () => {
    const words = over('from V1.grid');
    expect(words).toMatch(/^\*\*V1\.grid\*\*, grid of V1, tube 01-A, in stage DET/);
    expect(words).toMatch(/Meets C2\.finish, R1\.start\./);
    expect(words).toMatch(/grid bias \*\*/);
    expect(words).toMatch(/Direct current, bias of V1\.grid.*by R1 \(a leak conducts/);
  });

  it('on a tap: volts and current', () => {
    const words = over('to B+45');
    expect(words).toMatch(/^\*\*B\+45\*\*, tap of the battery B/);
    expect(words).toMatch(/volts \*\*45 V\*\*/);
  });
});

describe('hover on a tube type', () => {
  it('gives its ratings and points with their sources', () => {
    const words = over('V1 01-A');
    expect(words).toMatch(/^\*\*01-A\*\*, general purpose triode/);
    expect(words).toMatch(/- filament 5 V, 0\.25 A/);
    expect(words).toMatch(/\| 90 V \| -4\.5 V \| 2 mA \|.*Radio Broadcast/);
  });
});

describe('hover on other words', () => {
  it('on a quantity: the same in other units', () => {
    expect(over('.00025 mfd')).toBe('.00025 mfd = **250 mmfd** = **250 pF**');
    expect(hover(setWith().replace('550 kc', '55<|>0 kc')).of).toBe('550 kc');
    expect(over('550 kc')).toMatch(/\*\*545 meters\*\*/);
  });

  it('on a stage, a dial, a receiver', () => {
    expect(over('detector stage DET')).toMatch(/detector stage “detector”.*\n\n- works with V1/);
    expect(over('dial D1')).toMatch(/where 100 is plates in\. Turns C1\./);
    expect(over('receiver "Lantern')).toMatch(/tunes 550 kc to 1500 kc\n- tubes: 1 of type 01-A/);
  });

  it('on a check that a meant names', () => {
    const text = setWith({ set: 'meant grid-biased-positive "volume"' });
    expect(over('meant grid-biased', text)).toMatch(/^\*\*grid-biased-positive\*\*: /);
  });

  it('on a word of the language: what it means, with an example', () => {
    expect(over('  tunes')).toMatch(/^\*\*tunes\*\*\n\nThe band .*\n\n```setwright\ntunes 550 kc/);
    expect(over('beside')).toMatch(/^\*\*beside\*\*/);
  });

  it('on a word with several meanings, the one of its block', () => {
    const text = `${setWith()}tube type 09 {\n  filament 5 V .25 A\n}\n`;
    expect(hover(text.replace('  filament 5 V', '  fila<|>ment 5 V')).words).toMatch(/Rated volts/);
    expect(hover(text.replace('filament from', 'fila<|>ment from')).words).toMatch(/F− end/);
  });

  it('on a comment: nothing', () => {
    expect(hover(setWith({ set: '// tube <|>V1' })).words).toBe('nothing');
  });
});

describe('the help for words', () => {
  it('knows every word that begins a statement or leads a detail', () => {
    const begins = new Set(statementHelp.map(({ word }) => word));
    const leads = new Set(detailHelp.map(({ word }) => word));
    expect([...statementWords].filter((word) => !begins.has(word))).toEqual([]);
    expect([...connectingWords].filter((word) => !leads.has(word))).toEqual([]);
  });

  const inBlock: Readonly<Record<BlockKind, (line: string) => string>> = {
    file: (line) => line,
    receiver: (line) => `receiver "x" {\n${line}\n}`,
    stage: (line) => `receiver "x" {\nradio stage S {\n${line}\n}\n}`,
    battery: (line) => `receiver "x" {\nbattery A {\n${line}\n}\n}`,
    eliminator: (line) => `receiver "x" {\neliminator E {\ntap E-\n${line}\n}\n}`,
    coil: (line) => `receiver "x" {\ncoil L {\nwinding aerial\nwinding grid\n${line}\n}\n}`,
    transformer: (line) =>
      `receiver "x" {\ntransformer T {\nwinding aerial\nwinding grid\n${line}\n}\n}`,
    tube: (line) => `receiver "x" {\ntube V 01-A {\n${line}\n}\n}`,
    type: (line) => `tube type X {\n${line}\n}`,
    bench: (line) => `receiver "x" {\nbench "b" {\n${line}\n}\n}`,
    suppose: (line) => `receiver "x" {\nsuppose "s" {\n${line}\n}\n}`,
    other: (line) => `receiver "x" {\ncondenser C {\n${line}\n}\n}`,
  };
  /** Names that an example uses may be unknown here; everything else must be understood. */
  const troubles = (text: string) => {
    const { circuits, remarks } = readReceivers(text, 'x');
    return [...circuits.flatMap((circuit) => circuit.remarks), ...remarks]
      .filter(({ check }) => check === 'unreadable-line' || check === 'unknown-word')
      .map(({ message }) => message);
  };

  it.each(
    statementHelp.flatMap(({ word, within, example }) =>
      within.map((block) => [word, block, example] as const),
    ),
  )('the example of %s in a %s can be read', (_, block, example) => {
    expect(troubles(inBlock[block](example))).toEqual([]);
  });

  it.each(detailHelp.map(({ word, example }) => [word, example]))(
    'the example of %s can be read, and has it',
    (word, example) => {
      const home =
        example.startsWith('winding') ||
        example.startsWith('form') ||
        example.startsWith('coupling')
          ? inBlock.coil(example.replace('winding grid', 'winding secondary'))
          : example.startsWith('reading')
            ? inBlock.bench(example)
            : inBlock.receiver(example);
      expect(troubles(home)).toEqual([]);
      expect(example.split(' ')).toContain(word);
    },
  );
});
