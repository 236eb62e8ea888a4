import { type CatalogueRow, PRACTICE } from '../fault.ts';
import { opened, shorted } from './say.ts';

const SOUNDING: ReadonlySet<string> = new Set(['phones', 'horn', 'speaker']);

/** Phones, loudspeakers, crystals. */
export const soundingFaults: readonly CatalogueRow[] = [
  {
    kind: 'open-speaker',
    source: PRACTICE,
    happensTo: (part) =>
      SOUNDING.has(part.kind)
        ? [
            {
              words: `${part.name} is open, in its winding, cord or plug`,
              edits: opened(part.name),
              prior: 'very common',
            },
          ]
        : [],
  },
  {
    kind: 'shorted-cord',
    source: PRACTICE,
    happensTo: (part) =>
      SOUNDING.has(part.kind)
        ? [
            {
              words: `${part.name} or its cord is shorted`,
              edits: shorted(part.name),
              prior: 'common',
            },
          ]
        : [],
  },
  {
    kind: 'weak-magnet',
    source: PRACTICE,
    happensTo: (part) =>
      SOUNDING.has(part.kind)
        ? [
            {
              words: `the magnet of ${part.name} is weak`,
              edits: [{ verb: 'weak', target: part.name }],
              prior: 'common',
              heard: ['weak'],
            },
          ]
        : [],
  },
  {
    kind: 'diaphragm',
    source: PRACTICE,
    happensTo: (part) =>
      SOUNDING.has(part.kind)
        ? [
            {
              words: `the armature or diaphragm of ${part.name} is off centre or rusted`,
              edits: [],
              prior: 'very common',
              heard: ['distorts loud', 'weak'],
            },
          ]
        : [],
  },
  {
    kind: 'crystal',
    source: PRACTICE,
    happensTo: (part) =>
      part.kind === 'crystal'
        ? [
            {
              words: `${part.name} is at a dead spot, or worn`,
              edits: [{ verb: 'weak', target: part.name }],
              prior: 'very common',
              heard: ['comes and goes'],
            },
            {
              words: `the whisker of ${part.name} does not touch`,
              edits: opened(part.name),
              prior: 'very common',
              heard: ['comes and goes'],
            },
          ]
        : [],
  },
];
