export { type Item, itemsOf } from './format/items.ts';
export { type Formatted, formatText } from './format.ts';
export { builtInTubeTypes, libraryFile, tubeLibraryText } from './library.ts';
export { symptoms } from './lower/bench.ts';
export type { Mention } from './lower/references.ts';
export { type ReadText, readText } from './read.ts';
export { type ReadFile, readReceivers } from './receivers.ts';
export { connectingWords, statementWords } from './words.ts';
