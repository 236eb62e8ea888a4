import type { Circuit } from '@setwright/circuit';
import type { Chart } from '../chart/chart.ts';
import type { NumberSource } from '../tour/tour.ts';

/** The service sheet of one set, ready to be laid out: made from its circuit alone. */
export interface Sheet {
  readonly circuit: Circuit;
  readonly title: string;
  /** What a restorer calls it, its year, what it tunes, its tubes. */
  readonly facts: readonly SheetFact[];
  readonly sections: readonly SheetSection[];
  /** What it was made by and from, where that was handed in. */
  readonly madeBy: string | undefined;
}

/** One line of the title block. */
export interface SheetFact {
  readonly term: string;
  /** Undefined: a line to write on. */
  readonly cell: SheetCell | undefined;
}

export interface SheetSection {
  /** Unique within the sheet, and fit for a link. */
  readonly id: string;
  readonly heading: string;
  readonly blocks: readonly SheetBlock[];
}

/** What sections are made of. */
export type SheetBlock =
  | { readonly kind: 'words'; readonly tone: Tone; readonly words: string }
  | { readonly kind: 'list'; readonly isOrdered: boolean; readonly items: readonly string[] }
  | { readonly kind: 'table'; readonly table: SheetTable }
  | { readonly kind: 'charts'; readonly charts: readonly Chart[] }
  /** The schematic, which is handed in when the sheet is laid out. */
  | { readonly kind: 'drawing' };

/** `missing` tells what is not known, `note` how figures were had. */
export type Tone = 'plain' | 'caution' | 'missing' | 'note';

export interface SheetTable {
  readonly caption: string | undefined;
  readonly columns: readonly SheetColumn[];
  readonly rows: readonly (readonly SheetCell[])[];
  /** Headings within the table, each before the row of that index. */
  readonly groups: readonly { readonly before: number; readonly words: string }[];
}

export interface SheetColumn {
  readonly words: string;
  /** `name` heads its row; `amount` is kept on one line; `write` is left empty for a pencil. */
  readonly kind: 'name' | 'amount' | 'words' | 'write';
}

/** A cell with the numbers in it, so that whoever doubts one can ask for it again. */
export interface SheetCell {
  readonly text: string;
  readonly numbers: readonly SheetNumber[];
}

export interface SheetNumber {
  /** As it stands in the cell. */
  readonly text: string;
  /** In SI units. */
  readonly value: number;
  readonly source: SheetSource;
}

/** Where a number comes from. */
export type SheetSource =
  | NumberSource
  /** What the text says of how a winding is made. */
  | { readonly from: 'make'; readonly part: string; readonly what: 'turns' | 'form' | 'length' }
  /** Metres along a winding by its make, and metres of wire on it. */
  | { readonly from: 'wound'; readonly part: string; readonly what: 'length' | 'wire' }
  /** Volts of a tap as the text says them. */
  | { readonly from: 'tap'; readonly supply: string; readonly tap: string }
  /** Published data of a tube's type. */
  | {
      readonly from: 'tube-type';
      readonly tube: string;
      readonly what: 'filamentVolts' | 'filamentAmperes' | 'plateLimit';
    }
  /** What a set makes of a station, for one volt in the aerial. */
  | { readonly from: 'station'; readonly at: number; readonly what: StationFigure }
  | { readonly from: 'station'; readonly at: number; readonly what: 'gain'; readonly tube: string }
  /** What a dial reads for a station, for an oscillator so many hertz above it or below. */
  | {
      readonly from: 'dial-side';
      readonly condenser: string;
      readonly at: number;
      readonly above: number;
    }
  /** What was read on the bench. */
  | { readonly from: 'read'; readonly spot: string }
  /** Full scale that a reading is taken on. */
  | { readonly from: 'scale'; readonly spot: string }
  /** What a reading is expected to be with one fault. */
  | { readonly from: 'fault'; readonly fault: string; readonly spot: string };

export type StationFigure = 'detectorVolts' | 'width6' | 'width20';
