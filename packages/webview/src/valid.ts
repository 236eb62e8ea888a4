/** What came from outside is unknown until one of these has looked at it. Pure; never throws. */

export type Fields = Readonly<Record<string, unknown>>;

export const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

export const isText = (value: unknown): value is string => typeof value === 'string';

export const isFlag = (value: unknown): value is boolean => typeof value === 'boolean';

/** A whole number from 0. */
export const isCount = (value: unknown): value is number =>
  typeof value === 'number' && Number.isSafeInteger(value) && value >= 0;

/** A number that is one. */
export const isMeasure = (value: unknown): value is number =>
  typeof value === 'number' && Number.isFinite(value);

export const isOneOf =
  <Word extends string>(words: readonly Word[]) =>
  (value: unknown): value is Word =>
    words.includes(value as Word);

export const isListOf =
  <Item>(isItem: (value: unknown) => value is Item) =>
  (value: unknown): value is readonly Item[] =>
    Array.isArray(value) && value.every(isItem);

export const isRecordOf =
  <Item>(isItem: (value: unknown) => value is Item) =>
  (value: unknown): value is Readonly<Record<string, Item>> =>
    isFields(value) && Object.values(value).every(isItem);
