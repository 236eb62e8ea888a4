import { partKinds } from '@setwright/circuit';
import { type Dimension, readQuantity } from '@setwright/units';
import { CompletionItemKind } from 'vscode-languageserver-protocol';
import type { BlockKind } from '../../words/statements.ts';
import type { Entry } from './entry.ts';

/** The units that a quantity is usually written in, and what they are called. */
const unitsFor: Readonly<Record<Dimension, readonly (readonly [string, string])[]>> = {
  voltage: [
    ['V', 'volts'],
    ['mV', 'millivolts'],
  ],
  current: [
    ['A', 'amperes'],
    ['mA', 'milliamperes'],
    ['uA', 'microamperes'],
  ],
  resistance: [
    ['ohms', 'ohms'],
    ['kilohms', 'thousands of ohms'],
    ['meg', 'millions of ohms'],
  ],
  capacitance: [
    ['mfd', 'microfarads'],
    ['mmfd', 'micro-microfarads, as picofarads were called'],
    ['pF', 'picofarads'],
    ['nF', 'nanofarads'],
    ['cm', 'centimeters of capacity'],
  ],
  inductance: [
    ['uH', 'microhenries'],
    ['mH', 'millihenries'],
    ['H', 'henries'],
  ],
  frequency: [
    ['kc', 'kilocycles a second'],
    ['Mc', 'megacycles a second'],
    ['meters', 'by its wavelength'],
    ['kHz', 'kilohertz'],
    ['MHz', 'megahertz'],
  ],
  wavelength: [
    ['meters', 'meters'],
    ['kc', 'by its frequency'],
  ],
  length: [
    ['in', 'inches'],
    ['mm', 'millimeters'],
    ['cm', 'centimeters'],
    ['ft', 'feet'],
    ['mil', 'thousandths of an inch'],
  ],
  turns: [['turns', 'turns of a winding']],
  plates: [['plates', 'plates of a condenser']],
  charge: [['Ah', 'ampere-hours']],
  power: [['W', 'watts']],
  percent: [['%', 'percent']],
  ratio: [],
  number: [],
};

/** Dimensions of the numbers of statements that are no parts. */
const ofStatements: Readonly<Record<string, readonly Dimension[]>> = {
  tunes: ['frequency'],
  tuned: ['frequency'],
  form: ['length'],
  tap: ['voltage'],
  capacity: ['charge'],
  resistance: ['resistance'],
  filament: ['voltage', 'current'],
  heater: ['voltage', 'current'],
  capacitance: ['capacitance'],
  limit: ['voltage'],
  wire: ['resistance'],
  actual: ['voltage'],
  reading: ['voltage', 'current', 'resistance'],
  meter: ['resistance', 'percent'],
  leaky: ['resistance'],
  weak: ['percent', 'voltage'],
  gas: ['current'],
  set: ['percent', 'resistance', 'capacitance'],
  coupling: ['percent'],
  change: ['resistance', 'capacitance', 'inductance', 'voltage'],
  join: ['resistance', 'capacitance'],
};

/** Dimensions of numbers behind a word that leads a detail. */
const ofDetails: Readonly<Record<string, readonly Dimension[]>> = {
  spaced: ['length'],
  paper: ['length'],
  length: ['length'],
  by: ['length'],
  form: ['length'],
  set: ['percent', 'resistance'],
  tap: ['percent', 'turns'],
  taps: ['turns'],
  resistance: ['resistance'],
  grid: ['voltage'],
  plate: ['voltage'],
  screen: ['voltage'],
  current: ['current'],
  through: ['resistance'],
  leak: ['resistance'],
  condenser: ['capacitance'],
};

const coverings = ['DCC', 'SCC', 'DSC', 'SSC', 'enamel', 'bare', 'swg'] as const;

/**
 * Units behind a number.
 *
 * @param words the statement up to the number, that one too
 */
export function unitsBehind(words: readonly string[], block: BlockKind): readonly Entry[] {
  const before = words.at(-2) ?? '';
  if (before === 'of') return coveringEntries();
  const head = words[0] ?? '';
  const dimensions =
    (before === 'transconductance' ? [] : ofDetails[before]) ?? ofStatement(head, block, words);
  const number = words.at(-1) ?? '';
  const all = dimensions.flatMap((dimension) =>
    unitsFor[dimension].filter(([unit]) => readQuantity(number, unit, dimension).ok),
  );
  return all.map(([label, detail]) => ({ label, detail, kind: CompletionItemKind.Unit }));
}

function ofStatement(
  head: string,
  block: BlockKind,
  words: readonly string[],
): readonly Dimension[] {
  if (head === 'dial' || head === 'year' || head === 'gang') return [];
  if (head === 'tap' && words.at(-2) === 'at') return ['current'];
  const kind = partKinds[head as keyof typeof partKinds] as (typeof partKinds)['tube'] | undefined;
  const isPart = kind !== undefined && block !== 'suppose' && block !== 'bench' && block !== 'type';
  return isPart ? [...new Set(Object.values(kind.amounts))] : (ofStatements[head] ?? []);
}

function coveringEntries(): readonly Entry[] {
  return coverings.map((label) => ({
    label,
    kind: CompletionItemKind.EnumMember,
    detail: {
      DCC: 'double cotton covered',
      SCC: 'single cotton covered',
      DSC: 'double silk covered',
      SSC: 'single silk covered',
      enamel: 'enamelled',
      bare: 'bare wire',
      swg: 'by the British gauge',
    }[label],
  }));
}
