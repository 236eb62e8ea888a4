/**
 * What the language server, the editor's client and the preview say to one another. Types and
 * names only: this file runs nowhere. Ranges are those of the Language Server Protocol (lines and
 * UTF-16 characters from zero). Everything is laid out in the server; the preview only paints.
 */

export interface Position {
  readonly line: number;
  readonly character: number;
}

export interface Range {
  readonly start: Position;
  readonly end: Position;
}

/** The pages of the preview. */
export const pageNames = ['diagram', 'dials', 'response', 'bench', 'tour', 'compare'] as const;
export type PageName = (typeof pageNames)[number];

/** Asks the server for a page of the preview: request `setwright/page`. */
export interface PageRequest {
  readonly uri: string;
  readonly page: PageName;
  /** Which receiver of the file, from 0. */
  readonly receiver: number;
  /** A view of the diagram by its id (`whole`, `radio`, `bias` …); others are ignored. */
  readonly view: string;
  readonly symbols: 'modern' | 'period';
  /** Numbers at their parts: volts, bias, bands. */
  readonly values: boolean;
  /** The older text that the page `compare` sets against the document; others ignore it. */
  readonly against?: OlderText;
}

/** A text as it was, and in words when that was: "as saved", "as committed". */
export interface OlderText {
  readonly title: string;
  readonly text: string;
}

/** A view that may be asked for. */
export interface ViewChoice {
  readonly id: string;
  readonly title: string;
}

/** A finding that is shown at its symbol. */
export interface PartFinding {
  readonly severity: 'error' | 'warning' | 'information' | 'hint';
  readonly message: string;
}

/** A part as the preview knows it. */
export interface PagePart {
  /** Where it is declared. */
  readonly range: Range;
  /** The same words as the editor's hover, in Markdown. */
  readonly hover: string;
  /** What it is in one plain line, for a screen reader. */
  readonly spoken: string;
  readonly findings: readonly PartFinding[];
}

/** A page as it is to be painted. */
export interface Page {
  readonly uri: string;
  /** Version of the document that it was made from. */
  readonly version: number;
  readonly page: PageName;
  readonly receiver: number;
  /** Titles of the file's receivers. */
  readonly receivers: readonly string[];
  readonly views: readonly ViewChoice[];
  readonly view: string;
  /** True when lines of the text cannot be read: the page is made from those that can. */
  readonly broken: boolean;
  /** One SVG text, styled by custom properties; undefined where the page has no picture. */
  readonly svg: string | undefined;
  /** Rows of a table shown below the picture, or in its place; every cell is plain text. */
  readonly tables: readonly PageTable[];
  /** Plain sentences: what is missing, cautions. */
  readonly notes: readonly string[];
  /** By name; the keys are what `data-part` says in the SVG. */
  readonly parts: Readonly<Record<string, PagePart>>;
  /** The tour, step by step. Its picture has a layer for each: `<g data-layer="0">` for the first. */
  readonly steps?: readonly TourStep[];
}

export interface TourStep {
  readonly title: string;
  /** Plain paragraphs. */
  readonly words: readonly string[];
  /** Names of the parts that it speaks of; keys of `parts`. */
  readonly parts: readonly string[];
  /** Shapes of the picture that are dimmed while it is read, by what `data-n` says of them. */
  readonly dimmed: readonly number[];
  /** What the picture shows then, for those who hear it. */
  readonly spoken: string;
}

export interface PageTable {
  readonly title: string;
  readonly heading: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** For each row the part that it is about, a key of `parts`; empty where there is none. */
  readonly about?: readonly string[];
}

/** Asks for a drawing to be kept: request `setwright/export`. */
export interface ExportRequest extends PageRequest {
  readonly theme: 'light' | 'dark' | 'transparent';
  /** The diagram on a sheet for print, over its title block; else by itself, cut close. */
  readonly sheet: boolean;
}

/** The answer to `setwright/export`: one self-contained SVG text. */
export interface Exported {
  readonly svg: string;
}

/** Asks for the service sheet of a receiver, ready for print: request `setwright/sheet`. */
export interface SheetRequest {
  readonly uri: string;
  readonly receiver: number;
}

/** The answer to `setwright/sheet`: one self-contained HTML text without scripts. */
export interface Sheet {
  readonly html: string;
}

/** Tells the client that pages of a document are out of date: notification `setwright/changed`. */
export interface Changed {
  readonly uri: string;
  readonly version: number;
}

/** Asks for the page of a check as Markdown: request `setwright/explain`. */
export interface ExplainRequest {
  readonly check: string;
}

/** Asks for a read-only text that comes with the tool: request `setwright/text`. */
export interface TextRequest {
  /** A URI of the scheme `setwright`, such as `setwright:/tubes.receiver`. */
  readonly uri: string;
}

/**
 * Asks the client for a file that a document uses and that is not open: request
 * `setwright/usedText`, from the server.
 */
export interface UsedTextRequest {
  readonly uri: string;
}

/** Its text, or in plain words why it cannot be had; null where there is no such file. */
export type UsedTextAnswer =
  | { readonly text: string }
  | { readonly cause: string; readonly cure: string }
  | null;

/** The answer to `setwright/patterns`, which asks for nothing: sets to begin from. */
export interface PatternChoice {
  /** Its text is that of the URI `setwright:/patterns/<name>.receiver`. */
  readonly name: string;
  readonly title: string;
  readonly words: string;
}

export const requests = {
  page: 'setwright/page',
  export: 'setwright/export',
  explain: 'setwright/explain',
  text: 'setwright/text',
  sheet: 'setwright/sheet',
  patterns: 'setwright/patterns',
  usedText: 'setwright/usedText',
} as const;

export const notifications = { changed: 'setwright/changed' } as const;

/**
 * Commands of the client that the server's lenses, hints and code actions call.
 *
 * - `showPage` takes the document's URI, a page, the number of a receiver and, if need be, a view.
 * - `explain` takes the id of a check.
 * - `showReferences` takes a URI, a position and a list of locations.
 */
export const commands = {
  showPage: 'setwright.showPage',
  explain: 'setwright.explainFinding',
  showReferences: 'setwright.showReferences',
} as const;

/** Kinds of inlay hints, by the names of their settings `setwright.hints.*`. */
export const hintKinds = [
  'inductance',
  'band',
  'bias',
  'plate',
  'filament',
  'drain',
  'ratio',
] as const;
export type HintKind = (typeof hintKinds)[number];
