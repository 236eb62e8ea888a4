import type {
  Page,
  PagePart,
  PageTable,
  PartFinding,
  Position,
  Range,
  TourStep,
  ViewChoice,
} from './protocol.ts';
import { pageNames } from './protocol.ts';
import { isCount, isFields, isFlag, isListOf, isOneOf, isRecordOf, isText } from './valid.ts';

const isTexts = isListOf(isText);

const isPosition = (value: unknown): value is Position =>
  isFields(value) && isCount(value.line) && isCount(value.character);

const isRange = (value: unknown): value is Range =>
  isFields(value) && isPosition(value.start) && isPosition(value.end);

const isFinding = (value: unknown): value is PartFinding =>
  isFields(value) &&
  isOneOf(['error', 'warning', 'information', 'hint'])(value.severity) &&
  isText(value.message);

const isPart = (value: unknown): value is PagePart =>
  isFields(value) &&
  isRange(value.range) &&
  isText(value.hover) &&
  isText(value.spoken) &&
  isListOf(isFinding)(value.findings);

const isTable = (value: unknown): value is PageTable =>
  isFields(value) &&
  isText(value.title) &&
  isTexts(value.heading) &&
  isListOf(isTexts)(value.rows) &&
  (value.about === undefined || isTexts(value.about));

const isView = (value: unknown): value is ViewChoice =>
  isFields(value) && isText(value.id) && isText(value.title);

const isStep = (value: unknown): value is TourStep =>
  isFields(value) &&
  isText(value.title) &&
  isTexts(value.words) &&
  isTexts(value.parts) &&
  isListOf(isCount)(value.dimmed) &&
  isText(value.spoken);

/** True for a page as the protocol says it; an answer that is none must not be painted. */
export const isPage = (value: unknown): value is Page =>
  isFields(value) &&
  isText(value.uri) &&
  Number.isSafeInteger(value.version) &&
  isOneOf(pageNames)(value.page) &&
  isCount(value.receiver) &&
  isTexts(value.receivers) &&
  isListOf(isView)(value.views) &&
  isText(value.view) &&
  isFlag(value.broken) &&
  (value.svg === undefined || value.svg === null || isText(value.svg)) &&
  isListOf(isTable)(value.tables) &&
  isTexts(value.notes) &&
  isRecordOf(isPart)(value.parts) &&
  (value.steps === undefined || isListOf(isStep)(value.steps));
