import type { Dimension } from '@setwright/units';
import {
  blocks,
  type Conduct,
  conducts,
  conductsThroughTaps,
  contacts,
  nothingBetween,
  potentiometer,
  rheostat,
  supply,
  tube,
} from './conduct.ts';
import type { PartKindName } from './model.ts';

/** What a detail of a statement may be, besides amounts, plain words and named ends. */
export type DetailName =
  | 'from'
  | 'to'
  | 'across'
  | 'set'
  | 'taps'
  | 'winding'
  | 'contacts'
  | 'through'
  | 'into'
  | 'around'
  | 'law'
  | 'ratio'
  | 'like';

/**
 * One kind of part: everything the rest of the tool needs to know of it. Adding a kind is adding
 * its keyword to the grammar and one entry here.
 */
export interface PartKind {
  /** What a restorer calls it. */
  readonly noun: string;
  /** What it is, in a sentence. */
  readonly sentence: string;
  /** Its ends in order; `from … to …` and `across` speak of the first two. */
  readonly ends: readonly string[];
  /** Ends that are joined by their own name: `rotor to X`, `arm to X`. */
  readonly namedEnds: readonly string[];
  /** Quantities that stand on its line, by slot, in the order they are allotted by dimension. */
  readonly amounts: Readonly<Record<string, Dimension>>;
  /** Slots that may hold a range such as `14 to 365 mmfd`. */
  readonly ranges: readonly string[];
  /** Plain words it takes. */
  readonly words: readonly string[];
  readonly details: readonly DetailName[];
  /** What it does at direct current. */
  readonly conduct: Conduct;
  /** What it does at direct current and at radio frequency, in words. */
  readonly atDirectCurrent: string;
  readonly atRadioFrequency: string;
}

const twoEnds = ['start', 'finish'] as const;
const wired = ['from', 'to', 'across', 'like'] as const;

/** What turns current to sound: a winding with a polarity, on a cord that may end in a plug. */
function soundPart(
  noun: string,
  sentence: string,
  because = 'its winding is one length of wire',
): PartKind {
  return {
    noun,
    sentence,
    ends: twoEnds,
    namedEnds: ['start', 'finish', 'positive', 'negative'],
    amounts: {
      resistance: 'resistance',
      inductance: 'inductance',
      ratedCurrent: 'current',
      tolerance: 'percent',
    },
    ranges: [],
    words: [],
    details: [...wired, 'into'],
    conduct: conducts(because),
    atDirectCurrent: 'conducts with the resistance of its winding',
    atRadioFrequency: 'opposes, but for the capacity of its cord',
  };
}

/** What each kind of part is and does: the one table. */
export const partKinds: Readonly<Record<PartKindName, PartKind>> = {
  battery: {
    noun: 'battery',
    sentence: 'A battery of cells with its taps, measured from its own zero.',
    ends: [],
    namedEnds: [],
    amounts: { resistance: 'resistance', capacity: 'charge' },
    ranges: [],
    words: ['storage', 'dry'],
    details: ['like'],
    conduct: supply,
    atDirectCurrent: 'drives current from its higher taps to its lower ones',
    atRadioFrequency: 'passes radio current through its own resistance and its leads',
  },
  eliminator: {
    noun: 'eliminator',
    sentence: 'A supply run from the mains that stands in place of batteries.',
    ends: [],
    namedEnds: [],
    amounts: { resistance: 'resistance' },
    ranges: [],
    words: [],
    details: ['like'],
    conduct: supply,
    atDirectCurrent: 'drives current from its higher taps to its lower ones',
    atRadioFrequency: 'passes radio current through its filter condensers',
  },
  post: {
    noun: 'post',
    sentence: 'A binding post, where something outside the set is joined to it.',
    ends: ['post'],
    namedEnds: [],
    amounts: { capacitance: 'capacitance', resistance: 'resistance' },
    ranges: [],
    words: ['aerial', 'ground', 'loop', 'speaker', 'phones', 'alternative'],
    details: ['to'],
    conduct: nothingBetween,
    atDirectCurrent: 'is one point',
    atRadioFrequency: 'is one point',
  },
  bus: {
    noun: 'bus',
    sentence: 'A named junction, such as the negative filament wire.',
    ends: ['bus'],
    namedEnds: [],
    amounts: {},
    ranges: [],
    words: [],
    details: ['to'],
    conduct: nothingBetween,
    atDirectCurrent: 'is one point',
    atRadioFrequency: 'is one point',
  },
  lead: {
    noun: 'lead',
    sentence: 'A wire whose resistance counts.',
    ends: twoEnds,
    namedEnds: [],
    amounts: { resistance: 'resistance' },
    ranges: [],
    words: [],
    details: [],
    conduct: conducts('it is a wire'),
    atDirectCurrent: 'conducts',
    atRadioFrequency: 'conducts',
  },
  coil: {
    noun: 'coil',
    sentence: 'Air-core windings on one form.',
    ends: [],
    namedEnds: [],
    amounts: {},
    ranges: [],
    words: [],
    details: ['like'],
    conduct: nothingBetween,
    atDirectCurrent: 'its windings conduct; nothing passes from one to another',
    atRadioFrequency: 'its windings hand the signal on by their field',
  },
  transformer: {
    noun: 'transformer',
    sentence: 'Windings on one iron core, or on air when it says so.',
    ends: [],
    namedEnds: [],
    amounts: {},
    ranges: [],
    words: ['air'],
    details: ['ratio', 'like'],
    conduct: nothingBetween,
    atDirectCurrent: 'its windings conduct; nothing passes from one to another',
    atRadioFrequency: 'its windings hand the signal on by their field',
  },
  winding: {
    noun: 'winding',
    sentence: 'One winding of a coil or transformer.',
    ends: twoEnds,
    namedEnds: ['start', 'finish'],
    amounts: {
      turns: 'turns',
      inductance: 'inductance',
      resistance: 'resistance',
      ratedCurrent: 'current',
      tolerance: 'percent',
    },
    ranges: [],
    words: ['reversed'],
    details: ['from', 'to', 'across', 'set', 'taps', 'winding'],
    conduct: conductsThroughTaps('the winding is one length of wire'),
    atDirectCurrent: 'conducts with the resistance of its wire',
    atRadioFrequency: 'opposes the current and hands it on by its field',
  },
  variometer: {
    noun: 'variometer',
    sentence: 'Two windings in series, one turning inside the other.',
    ends: twoEnds,
    namedEnds: ['start', 'finish'],
    amounts: { inductance: 'inductance', resistance: 'resistance', tolerance: 'percent' },
    ranges: ['inductance'],
    words: ['insulated'],
    details: [...wired, 'set'],
    conduct: conducts('its windings are one length of wire'),
    atDirectCurrent: 'conducts with the resistance of its wire',
    atRadioFrequency: 'opposes the current, more or less as it is turned',
  },
  loop: {
    noun: 'loop',
    sentence: 'A loop aerial: a large winding that is aerial and coil in one.',
    ends: twoEnds,
    namedEnds: ['start', 'finish'],
    amounts: {
      inductance: 'inductance',
      resistance: 'resistance',
      turns: 'turns',
      tolerance: 'percent',
    },
    ranges: [],
    words: ['centre'],
    details: [...wired, 'taps'],
    conduct: conductsThroughTaps('the loop is one length of wire'),
    atDirectCurrent: 'conducts with the resistance of its wire',
    atRadioFrequency: 'picks up the signal and tunes it',
  },
  tube: {
    noun: 'tube',
    sentence: 'A vacuum tube in its socket.',
    ends: ['grid', 'plate', 'filament-', 'filament+'],
    namedEnds: ['grid', 'plate', 'screen', 'cathode'],
    amounts: {},
    ranges: [],
    words: [],
    details: ['like'],
    conduct: tube,
    atDirectCurrent:
      'its filament conducts; current flows from plate to filament only while the filament is hot',
    atRadioFrequency: 'its grid steers the plate current; small capacities join its electrodes',
  },
  condenser: {
    noun: 'condenser',
    sentence: 'Two plates that hold a charge.',
    ends: twoEnds,
    namedEnds: ['rotor', 'stator', 'positive', 'negative', 'start', 'finish'],
    amounts: {
      capacitance: 'capacitance',
      ratedVoltage: 'voltage',
      tolerance: 'percent',
      plates: 'plates',
    },
    ranges: ['capacitance'],
    words: [
      'variable',
      'trimmer',
      'neutralizing',
      'electrolytic',
      'mica',
      'paper',
      'air',
      'insulated',
    ],
    details: [...wired, 'law', 'set'],
    conduct: blocks('a condenser blocks direct current'),
    atDirectCurrent: 'blocks',
    atRadioFrequency: 'passes, the more easily the larger it is and the higher the frequency',
  },
  resistor: {
    noun: 'resistor',
    sentence: 'A fixed resistance.',
    ends: twoEnds,
    namedEnds: ['start', 'finish'],
    amounts: { resistance: 'resistance', ratedPower: 'power', tolerance: 'percent' },
    ranges: [],
    words: ['variable', 'centre'],
    details: [...wired, 'taps', 'set'],
    conduct: conductsThroughTaps('a resistance conducts'),
    atDirectCurrent: 'conducts with its resistance',
    atRadioFrequency: 'conducts with its resistance',
  },
  leak: {
    noun: 'leak',
    sentence: 'A high resistance that lets a grid find its resting point.',
    ends: twoEnds,
    namedEnds: ['start', 'finish'],
    amounts: { resistance: 'resistance', ratedPower: 'power', tolerance: 'percent' },
    ranges: ['resistance'],
    words: ['variable'],
    details: [...wired, 'set'],
    conduct: conducts('a leak conducts, however little'),
    atDirectCurrent: 'conducts with its resistance',
    atRadioFrequency: 'conducts with its resistance',
  },
  rheostat: {
    noun: 'rheostat',
    sentence: 'A variable resistance in a filament lead.',
    ends: twoEnds,
    namedEnds: ['start', 'finish'],
    amounts: {
      resistance: 'resistance',
      ratedCurrent: 'current',
      ratedPower: 'power',
      tolerance: 'percent',
    },
    ranges: [],
    words: ['insulated'],
    details: [...wired, 'set'],
    conduct: rheostat,
    atDirectCurrent: 'conducts with the part of its wire that is in use',
    atRadioFrequency: 'conducts with the part of its wire that is in use',
  },
  potentiometer: {
    noun: 'potentiometer',
    sentence: 'A resistance with an arm that picks off a part of it.',
    ends: ['start', 'finish', 'arm'],
    namedEnds: ['arm', 'start', 'finish'],
    amounts: { resistance: 'resistance', ratedPower: 'power', tolerance: 'percent' },
    ranges: [],
    words: ['insulated'],
    details: [...wired, 'set'],
    conduct: potentiometer,
    atDirectCurrent: 'conducts, and its arm stands between the volts of its ends',
    atRadioFrequency: 'conducts with its resistance',
  },
  ballast: {
    noun: 'ballast',
    sentence: 'A cartridge that keeps a filament current steady.',
    ends: twoEnds,
    namedEnds: ['start', 'finish'],
    amounts: { volts: 'voltage', ratedCurrent: 'current', resistance: 'resistance' },
    ranges: [],
    words: [],
    details: wired,
    conduct: conducts('a ballast conducts'),
    atDirectCurrent: 'conducts, and drops what its filaments do not want',
    atRadioFrequency: 'conducts',
  },
  choke: {
    noun: 'choke',
    sentence: 'A winding that passes direct current and opposes the signal.',
    ends: twoEnds,
    namedEnds: ['start', 'finish'],
    amounts: {
      inductance: 'inductance',
      resistance: 'resistance',
      ratedCurrent: 'current',
      tolerance: 'percent',
    },
    ranges: [],
    words: ['air', 'centre'],
    details: [...wired, 'taps'],
    conduct: conductsThroughTaps('the choke is one length of wire'),
    atDirectCurrent: 'conducts with the resistance of its wire',
    atRadioFrequency: 'opposes',
  },
  phones: {
    ...soundPart('phones', 'A pair of headphones.', 'their windings are one length of wire'),
    atDirectCurrent: 'conduct with the resistance of their windings',
    atRadioFrequency: 'oppose, but for the capacity of their cord',
  },
  horn: soundPart('horn', 'A horn loudspeaker with its driver.'),
  speaker: soundPart('loudspeaker', 'A cone or other loudspeaker.'),
  crystal: {
    noun: 'crystal',
    sentence: 'A mineral and a whisker that pass current one way better than the other.',
    ends: ['mineral', 'whisker'],
    namedEnds: ['mineral', 'whisker', 'start', 'finish'],
    amounts: {},
    ranges: [],
    words: [],
    details: wired,
    conduct: conducts('a crystal passes direct current, one way better than the other'),
    atDirectCurrent: 'conducts one way better than the other',
    atRadioFrequency: 'rectifies',
  },
  switch: {
    noun: 'switch',
    sentence: 'Opens and closes a lead.',
    ends: twoEnds,
    namedEnds: ['start', 'finish'],
    amounts: { ratedCurrent: 'current' },
    ranges: [],
    words: ['open', 'closed'],
    details: [...wired, 'contacts'],
    conduct: contacts,
    atDirectCurrent: 'conducts when closed',
    atRadioFrequency: 'conducts when closed',
  },
  selector: {
    noun: 'selector',
    sentence: 'An arm that picks one of several studs.',
    ends: ['arm'],
    namedEnds: ['arm'],
    amounts: {},
    ranges: [],
    words: [],
    details: ['from', 'to', 'set', 'like'],
    conduct: contacts,
    atDirectCurrent: 'conducts from the arm to the stud it stands on',
    atRadioFrequency: 'conducts from the arm to the stud it stands on',
  },
  lamp: {
    noun: 'lamp',
    sentence: 'A small lamp, as pilot or as protection.',
    ends: twoEnds,
    namedEnds: ['start', 'finish'],
    amounts: {
      volts: 'voltage',
      ratedCurrent: 'current',
      ratedPower: 'power',
      resistance: 'resistance',
    },
    ranges: [],
    words: [],
    details: wired,
    conduct: conducts('a lamp conducts'),
    atDirectCurrent: 'conducts, less the hotter it is',
    atRadioFrequency: 'conducts',
  },
  fuse: {
    noun: 'fuse',
    sentence: 'A wire that melts before anything dearer does.',
    ends: twoEnds,
    namedEnds: ['start', 'finish'],
    amounts: { ratedCurrent: 'current', resistance: 'resistance' },
    ranges: [],
    words: [],
    details: wired,
    conduct: conducts('a whole fuse conducts'),
    atDirectCurrent: 'conducts until it melts',
    atRadioFrequency: 'conducts',
  },
  shield: {
    noun: 'shield',
    sentence: 'A metal can or plate that keeps fields apart.',
    ends: ['shield'],
    namedEnds: [],
    amounts: {},
    ranges: [],
    words: [],
    details: ['to', 'around', 'like'],
    conduct: nothingBetween,
    atDirectCurrent: 'is one point',
    atRadioFrequency: 'keeps fields apart',
  },
  jack: {
    noun: 'jack',
    sentence: 'A socket for a plug, with springs that the plug moves.',
    ends: ['tip', 'sleeve'],
    namedEnds: ['tip', 'sleeve'],
    amounts: {},
    ranges: [],
    words: [],
    details: ['from', 'to', 'contacts', 'through', 'like'],
    conduct: contacts,
    atDirectCurrent: 'conducts through its springs when empty, through the plug when plugged',
    atRadioFrequency: 'conducts as at direct current',
  },
};
