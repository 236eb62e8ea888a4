export { applyDifferences } from './apply.ts';
export { type BothStates, bothStates } from './both-states.ts';
export { renaming } from './carried-over.ts';
export type {
  Added,
  Changed,
  Differences,
  EndAdded,
  EndRemoved,
  Moved,
  Removed,
  Renamed,
} from './differences.ts';
export { isSame } from './differences.ts';
export { differencesOf } from './differences-of.ts';
export { type FindingsChanged, findingsChanged } from './findings-changed.ts';
export { inNaturalOrder } from './plain/natural-order.ts';
export type { Amount, Facts, Phrase, Word } from './plain/phrase.ts';
export { calledBy, type PlainSet, type Thing, type ThingKind } from './plain/plain-set.ts';
export { plainSetOf } from './plain/plain-set-of.ts';
export { type PairedSets, pairedSets } from './receivers.ts';
export { equalSets, jointsOf } from './same.ts';
