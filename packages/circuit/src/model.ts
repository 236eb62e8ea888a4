import type { Dimension } from '@setwright/units';

/** Where something stands in a text: offsets (UTF-16 code units) into the named file. */
export interface Place {
  readonly file: string;
  readonly start: number;
  readonly end: number;
  /** Where the words themselves stand, where this place takes them from a file that it uses. */
  readonly written?: Omit<Place, 'written'>;
}

export type Severity = 'error' | 'warning' | 'information' | 'hint';

/** A change to the text that cures a finding. */
export interface Fix {
  readonly title: string;
  readonly edits: readonly { readonly place: Place; readonly text: string }[];
  /** It adds something that is not on the set's list of parts yet: never made without a word. */
  readonly adds?: boolean;
}

/** Something to tell the restorer: what is wrong, why it matters, what to do. */
export interface Finding {
  /** The id of the check that speaks, such as `grid-without-dc-return`. */
  readonly check: string;
  readonly severity: Severity;
  /** One sentence: what is wrong, in the user's own names with the actual value. */
  readonly message: string;
  /** One sentence: why it matters to the set. */
  readonly why: string;
  /** One sentence: what to do. */
  readonly cure: string;
  readonly place: Place;
  /** Every other line that takes part. */
  readonly related: readonly { readonly place: Place; readonly message: string }[];
  /** Names of the parts that take part; precedence and waivers go by them. */
  readonly parts: readonly string[];
  readonly fixes: readonly Fix[];
}

/** A quantity as written, with what it means. */
export interface Value {
  /** SI value; percent as a fraction (20 % is 0.2); plain numbers as they are. */
  readonly value: number;
  readonly dimension: Dimension;
  /** As the author wrote it. */
  readonly text: string;
  readonly place: Place;
}

/** A quantity that spans a range, such as a variable condenser's 14 to 365 mmfd. */
export interface Range {
  readonly low: Value;
  readonly high: Value;
}

/** One end of a part: a terminal. */
export interface End {
  /** The end's own name: `start`, `finish`, `tap4`, `grid`, `filament-` … */
  readonly name: string;
  /** The terminal's full name, unique in the set: `L1.grid.start`, `V1.filament-`. */
  readonly id: string;
  /** Index into `Circuit.junctions`. */
  readonly junction: number;
  /** Places in the text that join this end to something. Empty: nothing does. */
  readonly joins: readonly Place[];
}

/** A set of terminals joined by wire: electrically one point. */
export interface Junction {
  readonly index: number;
  /** Ids of the terminals that meet here, in order of the text. */
  readonly terminals: readonly string[];
  /** What a restorer would call it: a tap, post or bus if one is here, else the first terminal. */
  readonly name: string;
}

/** Where the text says that two terminals are joined. */
export interface Join {
  readonly from: string;
  readonly to: string;
  readonly place: Place;
  /** The words that say it: `from`, `to`, `across`, `wire`, `tap` … */
  readonly said: string;
}

/** A pair of terminals joined at certain positions of a switch, selector or jack. */
export interface Contact {
  readonly from: string;
  readonly to: string;
  /** Positions (indices into `Part.positions`) at which the contact is closed. */
  readonly closedAt: readonly number[];
  readonly place: Place;
}

/** A tap of a winding or resistor. */
export interface WindingTap {
  /** The end's name: `tap4`, `centre`. */
  readonly end: string;
  /** How far along from the start, as a fraction 0 to 1; undefined when it cannot be told. */
  readonly fraction: number | undefined;
  /** Turns from the start, where counted in turns. */
  readonly turns: number | undefined;
  readonly place: Place;
}

/** How a winding is made, where the text says so. */
export interface WindingMake {
  readonly turns: Value | undefined;
  readonly gauge:
    | { readonly number: number; readonly table: 'B&S' | 'SWG'; readonly place: Place }
    | undefined;
  readonly covering: 'bare' | 'enamel' | 'SSC' | 'DSC' | 'SCC' | 'DCC' | undefined;
  readonly length: Value | undefined;
  /** Diameter of the form it is wound on: its own (`on form`) or its coil's. */
  readonly form: Value | undefined;
  readonly reversed: boolean;
  /** Where it stands with regard to another winding of the same coil. */
  readonly beside: string | undefined;
  readonly over: string | undefined;
  readonly inside: string | undefined;
  /** `start`, `finish` or `centre` of the winding it lies over. */
  readonly at: string | undefined;
  readonly spaced: Value | undefined;
  readonly paper: Value | undefined;
}

export type PartKindName =
  | 'battery'
  | 'eliminator'
  | 'post'
  | 'bus'
  | 'lead'
  | 'coil'
  | 'transformer'
  | 'winding'
  | 'variometer'
  | 'loop'
  | 'tube'
  | 'condenser'
  | 'resistor'
  | 'leak'
  | 'rheostat'
  | 'potentiometer'
  | 'ballast'
  | 'choke'
  | 'phones'
  | 'horn'
  | 'speaker'
  | 'crystal'
  | 'switch'
  | 'selector'
  | 'lamp'
  | 'fuse'
  | 'shield'
  | 'jack';

/** How a control stands. */
export type Setting =
  | { readonly kind: 'fraction'; readonly fraction: number; readonly place: Place }
  | { readonly kind: 'ohms'; readonly ohms: number; readonly place: Place }
  | { readonly kind: 'off'; readonly place: Place };

/** A tap of a battery or eliminator. */
export interface SupplyTap {
  /** The tap's name, which is also its end's name: `B+67`. */
  readonly end: string;
  /** Volts above the supply's own zero; undefined when neither said nor plain from the name. */
  readonly volts: number | undefined;
  /** The volts as written; undefined when they come from the name. */
  readonly said: Value | undefined;
  /** Source resistance of this tap in ohms (eliminators). */
  readonly resistance: number | undefined;
  /** The load at which the stated volts hold, in amperes (eliminators). */
  readonly atLoad: number | undefined;
  readonly place: Place;
}

/** A part, or one winding of a coil or transformer. */
export interface Part {
  /** As the user calls it: `C1`, `L1.grid`. */
  readonly name: string;
  readonly kind: PartKindName;
  readonly title: string | undefined;
  /** The coil or transformer that a winding belongs to. */
  readonly owner: string | undefined;
  /** The name of the stage that holds it, for drawing and words only. */
  readonly stage: string | undefined;
  /** The statement, without its block. */
  readonly place: Place;
  readonly namePlace: Place;
  readonly ends: readonly End[];
  /** Single values by slot: `capacitance`, `resistance`, `ratedVoltage`, `tolerance`, `found` … */
  readonly values: Readonly<Record<string, Value>>;
  /** Ranges by slot: `capacitance` of a variable condenser, `inductance` of a variometer. */
  readonly ranges: Readonly<Record<string, Range>>;
  /** Plain words: `variable`, `insulated`, `dry`, `storage`, `aerial`, `found open` … */
  readonly words: ReadonlySet<string>;
  /** How a rheostat, potentiometer, movable winding or variometer is set, where said. */
  readonly setting: Setting | undefined;
  /** Names of the discrete positions of a switch, selector or jack; empty for everything else. */
  readonly positions: readonly string[];
  /** Index into `positions` as drawn. */
  readonly drawnAt: number;
  readonly contacts: readonly Contact[];
  readonly taps: readonly WindingTap[];
  readonly supplyTaps: readonly SupplyTap[];
  readonly winding: WindingMake | undefined;
  /** The name of a tube's type, as written. */
  readonly typeName: string | undefined;
  /** The tube type's data; undefined when the type is not known. */
  readonly tubeType: TubeType | undefined;
  /** Whether the text says which end of a variable condenser is its rotor. */
  readonly sidesKnown: boolean;
  /** Names of parts or windings it belongs with: a jack's `through`, a shield's `around`. */
  readonly companions: readonly string[];
  /** True when part of its line could not be read: its values and ends may be incomplete. */
  readonly unread: boolean;
}

/** One published working point of a tube type. */
export interface TubePoint {
  /** Volts at the plate itself, behind any resistor that the point is given with. */
  readonly plateVolts: number;
  readonly screenVolts: number | undefined;
  readonly gridVolts: number;
  readonly plateAmperes: number | undefined;
  readonly screenAmperes: number | undefined;
  readonly plateResistance: number | undefined;
  /** Siemens. */
  readonly transconductance: number | undefined;
  readonly source: string | undefined;
  readonly place: Place;
}

/** A tube type's published data, as its `tube type` statement gives them. */
export interface TubeType {
  readonly name: string;
  readonly title: string | undefined;
  readonly place: Place;
  /** True for the library that comes with the tool. */
  readonly builtIn: boolean;
  readonly base: string | undefined;
  readonly filamentVolts: number | undefined;
  readonly filamentAmperes: number | undefined;
  /** True when a heater warms a separate cathode. */
  readonly heated: boolean;
  readonly amplification: number | undefined;
  readonly points: readonly TubePoint[];
  /** Farads, by the two electrodes: `grid plate`, `grid filament`, `plate filament`. */
  readonly capacitances: Readonly<Record<string, number>>;
  readonly plateLimit: number | undefined;
  readonly screenLimit: number | undefined;
  readonly detector:
    | {
        readonly plateVolts: number | undefined;
        readonly returnTo: 'A+' | 'A-' | 'cathode' | undefined;
        readonly leak: readonly [number, number] | undefined;
        readonly condenser: number | undefined;
      }
    | undefined;
  /** A gas ("soft") detector. */
  readonly soft: boolean;
  readonly screen: boolean;
  readonly pentode: boolean;
  readonly source: string | undefined;
}

export interface Stage {
  readonly name: string;
  readonly title: string | undefined;
  /** `radio`, `detector`, `audio`, `output`, `mixer`, `oscillator`, `intermediate`. */
  readonly roles: readonly string[];
  readonly place: Place;
  readonly namePlace: Place;
  readonly parts: readonly string[];
}

export interface Gang {
  readonly name: string;
  readonly members: readonly string[];
  readonly place: Place;
}

export interface Dial {
  readonly name: string;
  readonly title: string | undefined;
  readonly low: number;
  readonly high: number;
  readonly reversed: boolean;
  readonly drives: readonly string[];
  readonly place: Place;
}

/** `meant CHECK "why"`: this departure from the textbook is on purpose. */
export interface Waiver {
  readonly check: string;
  readonly reason: string;
  /** The part or stage it stands in; undefined for the whole set. */
  readonly within: string | undefined;
  /** Names of the parts it speaks for; empty for the whole set. */
  readonly parts: readonly string[];
  readonly place: Place;
}

/** One line of a bench: kept as said, with the terminal it speaks of. */
export interface BenchEntry {
  readonly kind:
    | 'meter'
    | 'actual'
    | 'reading'
    | 'heard'
    | 'click'
    | 'dial'
    | 'tubes-out'
    | 'state';
  readonly at: string | undefined;
  readonly to: string | undefined;
  readonly value: Value | undefined;
  readonly range: Value | undefined;
  readonly words: readonly string[];
  readonly text: string | undefined;
  readonly place: Place;
}

export interface Bench {
  readonly title: string;
  readonly entries: readonly BenchEntry[];
  readonly place: Place;
}

/** One edit of a `suppose`: a verb and what it acts on. */
export interface SupposeEdit {
  readonly verb: string;
  readonly target: string | undefined;
  readonly other: string | undefined;
  readonly value: Value | undefined;
  readonly words: readonly string[];
  readonly place: Place;
}

export interface Suppose {
  readonly title: string;
  readonly edits: readonly SupposeEdit[];
  readonly place: Place;
}

/** One receiver: plain data, everything that the text says, and where it says it. */
export interface Circuit {
  readonly title: string;
  readonly place: Place;
  readonly namePlace: Place;
  readonly year: Value | undefined;
  /** Hertz. */
  readonly tunes: Range | undefined;
  readonly notes: readonly { readonly text: string; readonly place: Place }[];
  readonly parts: readonly Part[];
  readonly partNamed: ReadonlyMap<string, Part>;
  /** Every end of every part, by its full name. */
  readonly endNamed: ReadonlyMap<string, End>;
  /** The part that an end belongs to, by the end's full name. */
  readonly partOfEnd: ReadonlyMap<string, Part>;
  readonly junctions: readonly Junction[];
  readonly joins: readonly Join[];
  readonly stages: readonly Stage[];
  readonly gangs: readonly Gang[];
  readonly dials: readonly Dial[];
  readonly waivers: readonly Waiver[];
  readonly benches: readonly Bench[];
  readonly supposes: readonly Suppose[];
  /** Findings made while reading the text: unknown names, units, words. */
  readonly remarks: readonly Finding[];
  /**
   * Places that could not be read. What they would have joined is unknown, so a check that looks
   * for something missing keeps silent while there are any.
   */
  readonly unread: readonly Place[];
}
