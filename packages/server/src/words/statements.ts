/** Blocks of the text, as far as they differ in what may stand in them. */
export type BlockKind =
  | 'file'
  | 'receiver'
  | 'stage'
  | 'battery'
  | 'eliminator'
  | 'coil'
  | 'transformer'
  | 'tube'
  | 'type'
  | 'bench'
  | 'suppose'
  | 'other';

/** A word that begins a statement, where it may stand, what it means there. */
export interface StatementWord {
  readonly word: string;
  readonly within: readonly BlockKind[];
  readonly meaning: string;
  /** A whole statement of it. */
  readonly example: string;
  /**
   * What completion puts in, in the notation of snippet.ts; the word alone where not given.
   */
  readonly snippet?: string;
}

const set: readonly BlockKind[] = ['receiver', 'stage'];

const stage = (word: string, meaning: string): StatementWord => ({
  word,
  within: ['receiver'],
  meaning,
  example: `${word} stage S1 { }`,
  snippet: `${word} stage <S1> "<what it does>" {\n  <>\n}`,
});

const part = (
  word: string,
  meaning: string,
  example: string,
  snippet: string,
  within: readonly BlockKind[] = set,
): StatementWord => ({ word, within, meaning, example, snippet });

const said = (
  word: string,
  within: BlockKind | readonly BlockKind[],
  meaning: string,
  example: string,
  snippet?: string,
): StatementWord => ({
  word,
  within: typeof within === 'string' ? [within] : within,
  meaning,
  example,
  ...(snippet === undefined ? {} : { snippet }),
});

/** Every word that begins a statement, in the order in which completion offers them. */
export const statementHelp: readonly StatementWord[] = [
  said(
    'receiver',
    'file',
    'One set, with everything that it is made of. A file may hold several.',
    'receiver "Lantern Cove Punt" { }',
    'receiver "<Name of the set>" {\n  year <1926>\n  tunes <550 kc to 1500 kc>\n\n  <>\n}',
  ),
  said(
    'use',
    'file',
    'Takes over the tube types and patterns of another file, named by its path as seen from this one. A pattern is a part that stands outside any receiver, for parts of sets to be made like it.',
    'use "parts/coils.receiver"',
    'use "<parts/coils.receiver>"',
  ),
  said(
    'tube',
    'file',
    'A tube type’s published data. It goes before the library’s type of the same name.',
    'tube type 01-A { filament 5 V .25 A }',
    'tube type <01-A> "<general purpose triode>" {\n  base <UX>\n  filament <5 V .25 A>\n  amplification <8>\n  point plate <90 V> grid <-4.5 V> current <2.5 mA> resistance <11000 ohms>\n  source "<where the figures come from>"\n}',
  ),

  said('year', 'receiver', 'The year the set was made or described.', 'year 1926', 'year <1926>'),
  said(
    'tunes',
    'receiver',
    'The band that the set is to cover, in either order, in frequencies or meters.',
    'tunes 550 kc to 1500 kc',
    'tunes <550 kc> to <1500 kc>',
  ),
  said(
    'note',
    ['receiver', 'bench', 'suppose', 'other'],
    'Words for whoever reads the sheet; they change nothing.',
    'note "Cabinet rebuilt in 1931."',
    'note "<>"',
  ),
  part(
    'battery',
    'A battery of cells with its taps, measured from its own zero. A tap is also the post of its name.',
    'battery B dry { tap B- tap B+45 45 V }',
    'battery <B> <dry|storage> {\n  tap <B->\n  tap <B+45> <45 V>\n}',
  ),
  part(
    'eliminator',
    'A supply run from the mains: volts of each tap at the stated load, and its source resistance.',
    'eliminator E { tap E- tap B+45 45 V at 1 mA resistance 20 kilohms }',
    'eliminator <E> {\n  tap <B->\n  tap <B+45> <45 V> at <1 mA> resistance <20 kilohms>\n}',
  ),
  part(
    'post',
    'A binding post, where something outside the set is joined to it.',
    'post ANT aerial 250 mmfd',
    'post <ANT> <aerial|ground|loop|speaker|phones>',
  ),
  part(
    'bus',
    'A named junction, such as the negative filament wire.',
    'bus NEG "negative filament bus"',
    'bus <NEG> "<negative filament bus>"',
  ),
  said(
    'wire',
    set,
    'Joins terminals by wire; with ohms it is a lead that counts.',
    'wire B- to A- to GND',
    'wire <B-> to <A->',
  ),
  stage('radio', 'A stage of radio-frequency amplification.'),
  stage('detector', 'The stage that turns the signal into sound.'),
  stage('audio', 'A stage of audio amplification.'),
  stage('output', 'The last audio stage, which works the loudspeaker.'),
  stage('mixer', 'The first detector of a superheterodyne.'),
  stage('oscillator', 'The stage whose oscillation turns the station to another frequency.'),
  stage('intermediate', 'A stage of a superheterodyne at its one frequency.'),
  part(
    'coil',
    'Air-core windings on one form.',
    'coil L1 { form 3 in winding grid 46 turns of 24 DCC }',
    'coil <L1> {\n  form <3 in>\n  winding <aerial> <10> turns of <24 DCC> from <ANT> to <GND>\n  winding <grid> <46> turns of <24 DCC> beside <aerial> spaced <1/4 in> from <GND>\n}',
  ),
  part(
    'transformer',
    'Windings on one iron core, or on air when it says so. The ratio is of whole winding to whole winding.',
    'transformer T1 ratio 1 to 3.5 { winding primary 14 H 800 ohms }',
    'transformer <T1> ratio 1 to <3.5> {\n  winding primary <14 H> <800 ohms> from <V1.plate> to <B+90>\n  winding secondary <5200 ohms> from <C-4.5> to <V2.grid>\n}',
  ),
  part(
    'variometer',
    'Two windings in series, one turning inside the other; the two-winding forms of a coil serve for those who know the turns.',
    'variometer L1 20 uH to 200 uH from ANT to GND set 50 %',
    'variometer <L1> <20 uH> to <200 uH> from <ANT> to <GND>',
  ),
  part(
    'loop',
    'A loop aerial: a large winding that is aerial and coil in one.',
    'loop L1 180 uH 4 ohms from A- to V1.grid',
    'loop <L1> <180 uH> from <GND> to <V1.grid>',
  ),
  part(
    'tube',
    'A vacuum tube in its socket; in its block, where its electrodes go.',
    'tube V1 01-A { filament from RH1 to A+ }',
    'tube <V1> <01-A> {\n  filament from <RH1> to <A+>\n  <>\n}',
  ),
  part(
    'condenser',
    'Two plates that hold a charge: fixed, variable, trimmer or neutralizing.',
    'condenser C1 variable 14 to 365 mmfd across L1.grid',
    'condenser <C1> <.00025 mfd> from <L1.grid.finish> to <V1.grid>',
  ),
  part(
    'resistor',
    'A fixed resistance.',
    'resistor R1 1500 ohms from L1.finish to V1.grid',
    'resistor <R1> <1500 ohms> from <L1.finish> to <V1.grid>',
  ),
  part(
    'leak',
    'A high resistance that lets a grid find its resting point.',
    'leak R1 2 meg from V1.grid to A+',
    'leak <R1> <2 meg> from <V1.grid> to <A+>',
  ),
  part(
    'rheostat',
    'A variable resistance in a filament lead. Where it says no setting, it is taken as set for the rated volts.',
    'rheostat RH1 20 ohms from A- set 4 ohms',
    'rheostat <RH1> <20 ohms> from <A->',
  ),
  part(
    'potentiometer',
    'A resistance with an arm that picks off a part of it.',
    'potentiometer P1 400 ohms from A- to A+ arm to L1.start set 60 %',
    'potentiometer <P1> <400 ohms> from <A-> to <A+> arm to <L1.start>',
  ),
  part(
    'ballast',
    'A cartridge that keeps a filament current steady.',
    'ballast BL1 1 V .25 A from A-',
    'ballast <BL1> <1 V .25 A> from <A->',
  ),
  part(
    'choke',
    'A winding that passes direct current and opposes the signal.',
    'choke CH1 30 H 300 ohms from V1.plate to B+90',
    'choke <CH1> <30 H> from <V1.plate> to <B+90>',
  ),
  part(
    'phones',
    'A pair of headphones.',
    'phones PH1 2000 ohms from V1.plate to B+45',
    'phones <PH1> <2000 ohms> from <V1.plate> to <B+45>',
  ),
  part(
    'horn',
    'A horn loudspeaker with its driver.',
    'horn H1 2000 ohms from LS1 to LS2',
    'horn <H1> <2000 ohms> from <LS1> to <LS2>',
  ),
  part(
    'speaker',
    'A cone or other loudspeaker.',
    'speaker SP1 1000 ohms from LS1 to LS2',
    'speaker <SP1> <1000 ohms> from <LS1> to <LS2>',
  ),
  part(
    'crystal',
    'A mineral and a whisker that pass current one way better than the other.',
    'crystal X1 mineral to L1.finish whisker to PH1.start',
    'crystal <X1> mineral to <L1.finish> whisker to <PH1.start>',
  ),
  part(
    'switch',
    'Opens and closes a lead; `breaks` and `makes` give it more poles.',
    'switch S1 "battery switch" from A- to NEG closed',
    'switch <S1> "<battery switch>" from <A-> to <NEG> <closed|open>',
  ),
  part(
    'selector',
    'An arm that picks one of several studs.',
    'selector S2 from ANT to L1.tap4, L1.tap8 set tap4',
    'selector <S2> from <ANT> to <L1.tap4>, <L1.tap8>',
  ),
  part(
    'lamp',
    'A small lamp, as pilot or as protection.',
    'lamp LP1 6 V .15 A from A- to A+',
    'lamp <LP1> <6 V .15 A> from <A-> to <A+>',
  ),
  part(
    'fuse',
    'A wire that melts before anything dearer does.',
    'fuse F1 .25 A from B- to A-',
    'fuse <F1> <.25 A> from <B-> to <A->',
  ),
  part(
    'shield',
    'A metal can or plate that keeps fields apart.',
    'shield SH1 around L1 to GND',
    'shield <SH1> around <L1> to <GND>',
  ),
  part(
    'jack',
    'A socket for a plug, with springs that the plug moves.',
    'jack J1 from V1.plate to B+90 through T1.primary',
    'jack <J1> from <V1.plate> to <B+90>',
  ),
  part(
    'gang',
    'Condensers on one shaft, and what their frame is joined to.',
    'gang G1 C1, C2 frame to GND',
    'gang <G1> <C1>, <C2>',
  ),
  part(
    'dial',
    'A scale that turns a gang, condensers, rheostats, potentiometers or movable windings; its upper end is plates fully in unless `reversed`.',
    'dial D1 0 to 100 drives C1',
    'dial <D1> 0 to 100 drives <C1>',
  ),
  said(
    'bench',
    'receiver',
    'Readings really taken, each bench with the set in one state.',
    'bench "first power-up" { reading A+ 1.25 A }',
    'bench "<first power-up>" {\n  meter <1000 ohms per volt> <2 %>\n  reading <V1.plate> <66 V> on <250 V>\n}',
  ),
  said(
    'suppose',
    'receiver',
    'A what-if: the set with these faults or changes.',
    'suppose "bypass open" { open C5 }',
    'suppose "<bypass open>" {\n  <open> <C5>\n}',
  ),
  said(
    'meant',
    ['receiver', 'stage', 'battery', 'eliminator', 'coil', 'transformer', 'tube', 'other'],
    'Says that a departure from the textbook is on purpose. The finding is silent there and is printed in the service sheet.',
    'meant grid-biased-positive "turned up it is the volume control"',
    'meant <check> "<why>"',
  ),

  said(
    'tap',
    ['battery', 'eliminator'],
    'A tap, in volts above the supply’s own zero. The volts may be left out where the name states them.',
    'tap B+67 67.5 V',
    'tap <B+45> <45 V>',
  ),
  said(
    'capacity',
    'battery',
    'What the battery holds when fresh.',
    'capacity 100 Ah',
    'capacity <100 Ah>',
  ),
  said(
    'resistance',
    ['battery', 'eliminator'],
    'The resistance inside the supply as it is now.',
    'resistance 30 ohms',
    'resistance <30 ohms>',
  ),
  said(
    'earthed',
    'eliminator',
    'Which tap is joined to the earth of the mains.',
    'earthed E-',
    'earthed <E->',
  ),

  said(
    'form',
    'coil',
    'The tube that the coil is wound on: its diameter, and its length where that matters.',
    'form 2 3/4 in by 4 in',
    'form <3 in>',
  ),
  said(
    'winding',
    ['coil', 'transformer'],
    'One winding, by its turns and wire or by its value. All run the same way round unless `reversed`.',
    'winding grid 56 turns of 26 DCC',
    'winding <grid> <56> turns of <26 DCC> from <GND>',
  ),
  said(
    'coupling',
    ['coil', 'transformer'],
    'How closely two windings couple, where it was measured.',
    'coupling aerial with grid 30 %',
    'coupling <aerial> with <grid> <30 %>',
  ),
  said(
    'tuned',
    ['coil', 'transformer'],
    'The frequency that it should resonate at.',
    'tuned 45 kc',
    'tuned <45 kc>',
  ),

  said(
    'filament',
    'tube',
    'Where the filament goes: `from` is the F− end, `to` the F+ end.',
    'filament from RH1 to A+',
    'filament from <RH1> to <A+>',
  ),
  said(
    'heater',
    'tube',
    'Where the heater of a tube with a cathode goes.',
    'heater from H1 to H2',
    'heater from <A-> to <A+>',
  ),
  said('plate', 'tube', 'Where the plate goes.', 'plate to L2.start', 'plate to <L2.start>'),
  said('grid', 'tube', 'Where the control grid goes.', 'grid to L1.finish', 'grid to <L1.finish>'),
  said('screen', 'tube', 'Where the screen grid goes.', 'screen to B+45', 'screen to <B+45>'),
  said('cathode', 'tube', 'Where the cathode goes.', 'cathode to A-', 'cathode to <A->'),

  said('base', 'type', 'The base of the tube.', 'base UX', 'base <UX>'),
  said(
    'filament',
    'type',
    'Rated volts and amperes.',
    'filament 5 V .25 A',
    'filament <5 V .25 A>',
  ),
  said(
    'heater',
    'type',
    'Rated volts and amperes of the heater.',
    'heater 2.5 V 1.75 A',
    'heater <2.5 V 1.75 A>',
  ),
  said('soft', 'type', 'A gas detector.', 'soft'),
  said('screen', 'type', '`screen grid`: the type has one.', 'screen grid', 'screen grid'),
  said('pentode', 'type', 'The type has a screen and a suppressor.', 'pentode'),
  said(
    'amplification',
    'type',
    'The amplification factor.',
    'amplification 8',
    'amplification <8>',
  ),
  said(
    'point',
    'type',
    'One published working point. The current law is fitted to all of them.',
    'point plate 90 V grid -4.5 V current 2.5 mA resistance 11000 ohms',
    'point plate <90 V> grid <-4.5 V> current <2.5 mA>',
  ),
  said(
    'capacitance',
    'type',
    'The capacity between two electrodes.',
    'capacitance grid plate 8.1 mmfd',
    'capacitance <grid> <plate> <8.1 mmfd>',
  ),
  said(
    'limit',
    'type',
    'The most volts an electrode stands.',
    'limit plate 135 V',
    'limit plate <135 V>',
  ),
  said(
    'detector',
    'type',
    'How the type is best used as a detector.',
    'detector plate 45 V return A+',
    'detector plate <45 V> return <A+|A->',
  ),
  said(
    'source',
    'type',
    'Where the figures come from.',
    'source "tube chart of 1926"',
    'source "<>"',
  ),

  said(
    'meter',
    'bench',
    'The meter: ohms per volt, and its accuracy as a percent of full scale.',
    'meter 1000 ohms per volt 2 %',
    'meter <1000 ohms per volt> <2 %>',
  ),
  said(
    'actual',
    'bench',
    'What a supply’s tap gave under load that day.',
    'actual B+45 44 V',
    'actual <B+45> <44 V>',
  ),
  said(
    'reading',
    'bench',
    'A reading with the probe on this terminal; tubes read against their own F−, taps against their battery’s zero, all else against A−.',
    'reading V1.plate 66 V on 250 V',
    'reading <V1.plate> <66 V> on <250 V>',
  ),
  said(
    'heard',
    'bench',
    'What the set does, in a word of the trouble chart.',
    'heard "weak"',
    'heard "<>"',
  ),
  said(
    'click',
    'bench',
    'Whether touching this grid is heard, or only faintly.',
    'click V1 heard',
    'click <V1> <heard|faint|silent>',
  ),
  said('tubes', 'bench', 'Whether the tubes were in their sockets.', 'tubes out', 'tubes <out|in>'),
  said(
    'dial',
    'bench',
    'Where a dial stood, that a station is broad on it (dial D1 broad), or that turning it did nothing (dial D1 no effect).',
    'dial D1 42',
    'dial <D1> <42>',
  ),

  said('open', 'suppose', 'A part, or one end of it, has come off.', 'open C5', 'open <C5>'),
  said('short', 'suppose', 'Both ends of a part touch.', 'short R1', 'short <R1>'),
  said('leaky', 'suppose', 'A condenser leaks.', 'leaky C4 1 meg', 'leaky <C4> <1 meg>'),
  said('weak', 'suppose', 'A tube or battery is worn.', 'weak V3', 'weak <V3>'),
  said('gas', 'suppose', 'A tube has gas in it, and its grid draws current.', 'gas V5', 'gas <V5>'),
  said(
    'change',
    'suppose',
    'A part of another value.',
    'change R3 to 5 meg',
    'change <R3> to <5 meg>',
  ),
  said('set', 'suppose', 'A control stands elsewhere.', 'set RH1 2 ohms', 'set <RH1> <2 ohms>'),
  said('remove', 'suppose', 'A part is taken out.', 'remove V2', 'remove <V2>'),
  said(
    'reverse',
    'suppose',
    'The ends of a part are exchanged.',
    'reverse T1.primary',
    'reverse <T1.primary>',
  ),
  said(
    'swap',
    'suppose',
    'Two terminals are exchanged.',
    'swap V1.grid with V1.plate',
    'swap <V1.grid> with <V1.plate>',
  ),
  said(
    'join',
    'suppose',
    'Two terminals touch, or are joined by some ohms or mfd.',
    'join V1.grid to V1.plate',
    'join <V1.grid> to <V1.plate>',
  ),
  said(
    'turns',
    'suppose',
    'Turns of a winding are shorted.',
    'turns 3 shorted in L1.grid',
    'turns <3> shorted in <L1.grid>',
  ),
  said(
    'damped',
    'suppose',
    'A winding is damped to a Q.',
    'damped L1.grid to Q 20',
    'damped <L1.grid> to Q <20>',
  ),
  said(
    'plug',
    'suppose',
    'Something is plugged into a jack.',
    'plug PH1 into J1',
    'plug <PH1> into <J1>',
  ),
  said('intermittent', 'suppose', 'A part comes and goes.', 'intermittent S1', 'intermittent <S1>'),
  said(
    'microphonic',
    'suppose',
    'A tube rings when it is tapped.',
    'microphonic V3',
    'microphonic <V3>',
  ),
];

const kindsOfWords: Readonly<Record<string, BlockKind>> = {
  receiver: 'receiver',
  radio: 'stage',
  detector: 'stage',
  audio: 'stage',
  output: 'stage',
  mixer: 'stage',
  oscillator: 'stage',
  intermediate: 'stage',
  battery: 'battery',
  eliminator: 'eliminator',
  coil: 'coil',
  transformer: 'transformer',
  tube: 'tube',
  bench: 'bench',
  suppose: 'suppose',
};

/** The kind of a block by the words that lead it; of the file itself where there are none. */
export function blockKind(words: readonly string[] | undefined): BlockKind {
  if (!words) return 'file';
  const [first = '', second] = words;
  if (first === 'tube' && second === 'type') return 'type';
  return kindsOfWords[first] ?? 'other';
}
