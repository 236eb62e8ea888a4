/**
 * What the client and the preview say to one another, and how each makes sure of what it heard:
 * the preview shows text that anybody may have written, so neither trusts the other's messages.
 */
import type { Page, PageName, PageRequest } from './protocol.ts';
import { pageNames } from './protocol.ts';
import { isCount, isFields, isFlag, isListOf, isMeasure, isOneOf, isText } from './valid.ts';
import { isPage } from './valid-page.ts';

export { isPage } from './valid-page.ts';

/** What the reader has chosen to see. */
export type Choice = Pick<PageRequest, 'page' | 'receiver' | 'view' | 'symbols' | 'values'>;

/** How a drawing may be kept. */
export const exportFormats = [
  'svg-light',
  'svg-dark',
  'svg-transparent',
  'png',
  'copy-picture',
  'copy-svg',
] as const;
export type ExportFormat = (typeof exportFormats)[number];

/**
 * Client to preview. `heard` is the number of the last choice that the client has heard of: what it
 * says of an older one has been overtaken by the reader.
 */
export type ToPreview =
  /** What the preview is about from now on; pages of anything else are dropped. */
  | {
      readonly kind: 'subject';
      readonly uri: string;
      /** The file's name, for people. */
      readonly title: string;
      readonly choice: Choice;
      readonly pinned: boolean;
      readonly heard: number;
    }
  | { readonly kind: 'page'; readonly page: Page; readonly heard: number }
  /** The server has no page to give; the last good picture stays. */
  | { readonly kind: 'failed'; readonly uri: string; readonly message: string }
  /** Parts at the cursor of the source. */
  | { readonly kind: 'lit'; readonly uri: string; readonly parts: readonly string[] }
  /** Turn this SVG into a picture of points and send it back, or put it on the clipboard. */
  | {
      readonly kind: 'points';
      readonly id: number;
      readonly svg: string;
      readonly to: 'file' | 'clipboard';
    };

/** Preview to client. */
export type FromPreview =
  /** The script runs and listens. */
  | { readonly kind: 'ready' }
  /** Choices are numbered from 1 on; the numbers begin anew with `ready`. */
  | { readonly kind: 'choose'; readonly choice: Choice; readonly id: number }
  | { readonly kind: 'pin'; readonly pinned: boolean }
  /** Show where a part is declared; `stay` leaves the focus in the preview. */
  | {
      readonly kind: 'reveal';
      readonly uri: string;
      readonly part: string;
      readonly stay: boolean;
    }
  | { readonly kind: 'export'; readonly format: ExportFormat }
  /** The picture asked for, PNG in base 64; or why there is none. */
  | {
      readonly kind: 'points';
      readonly id: number;
      readonly png: string | undefined;
      readonly trouble: string | undefined;
    }
  | { readonly kind: 'trouble'; readonly message: string };

/** What survives a reload of the window: what was shown, and where the reader stood. */
export interface Kept {
  readonly uri: string;
  readonly title: string;
  readonly choice: Choice;
  readonly pinned: boolean;
  /** By page and receiver, such as `diagram 0`. */
  readonly cameras: Readonly<Record<string, KeptCamera>>;
  readonly list: boolean;
  /** Of the tour. */
  readonly step: number;
  /** Whether what the tour draws runs along its way. */
  readonly runs: boolean;
}

/**
 * The middle of what is seen, in the drawing's units, and points of the screen a unit: that is the
 * same in a window of any size, as a corner is not.
 */
export interface KeptCamera {
  readonly middle: { readonly x: number; readonly y: number };
  readonly scale: number;
  /** True while the whole drawing is kept in sight. */
  readonly fitted: boolean;
}

export const isPageName: (value: unknown) => value is PageName = isOneOf(pageNames);

const isChoice = (value: unknown): value is Choice =>
  isFields(value) &&
  isPageName(value.page) &&
  isCount(value.receiver) &&
  isText(value.view) &&
  isOneOf(['modern', 'period'])(value.symbols) &&
  isFlag(value.values);

const isCamera = (value: unknown): value is KeptCamera =>
  isFields(value) &&
  isFields(value.middle) &&
  isMeasure(value.middle.x) &&
  isMeasure(value.middle.y) &&
  isMeasure(value.scale) &&
  value.scale > 0 &&
  isFlag(value.fitted);

/** What was kept before a reload, as far as it can be trusted. */
export function keptFrom(value: unknown): Kept | undefined {
  if (!isFields(value)) return undefined;
  const { uri, title, choice, pinned, cameras, list, step, runs } = value;
  if (!isText(uri) || !isText(title) || !isChoice(choice) || !isFlag(pinned)) return undefined;
  const sound = isFields(cameras)
    ? Object.entries(cameras).flatMap(([key, each]) =>
        isCamera(each) ? [[key, each] as const] : [],
      )
    : [];
  return {
    uri,
    title,
    choice,
    pinned,
    cameras: Object.fromEntries(sound),
    list: list === true,
    step: isCount(step) ? step : 0,
    runs: runs !== false,
  };
}

/** A message to the preview, or undefined for anything else. */
export function heardByPreview(value: unknown): ToPreview | undefined {
  if (!isFields(value)) return undefined;
  const { kind } = value;
  const sound =
    (kind === 'subject' &&
      isText(value.uri) &&
      isText(value.title) &&
      isChoice(value.choice) &&
      isFlag(value.pinned) &&
      isCount(value.heard)) ||
    (kind === 'page' && isPage(value.page) && isCount(value.heard)) ||
    (kind === 'failed' && isText(value.uri) && isText(value.message)) ||
    (kind === 'lit' && isText(value.uri) && isListOf(isText)(value.parts)) ||
    (kind === 'points' &&
      isCount(value.id) &&
      isText(value.svg) &&
      isOneOf(['file', 'clipboard'])(value.to));
  return sound ? (value as unknown as ToPreview) : undefined;
}

/** A message from the preview, or undefined for anything else. */
export function heardByClient(value: unknown): FromPreview | undefined {
  if (!isFields(value)) return undefined;
  const { kind } = value;
  const sound =
    kind === 'ready' ||
    (kind === 'choose' && isChoice(value.choice) && isCount(value.id)) ||
    (kind === 'pin' && isFlag(value.pinned)) ||
    (kind === 'reveal' && isText(value.uri) && isText(value.part) && isFlag(value.stay)) ||
    (kind === 'export' && isOneOf(exportFormats)(value.format)) ||
    (kind === 'points' &&
      isCount(value.id) &&
      (value.png === undefined || isText(value.png)) &&
      (value.trouble === undefined || isText(value.trouble))) ||
    (kind === 'trouble' && isText(value.message));
  return sound ? (value as unknown as FromPreview) : undefined;
}
