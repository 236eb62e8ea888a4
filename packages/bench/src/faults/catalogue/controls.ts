import type { Part } from '@setwright/circuit';
import { DIRTY_CONTACT } from '../../edits/usual-faults.ts';
import { type CatalogueRow, type FaultSaid, PRACTICE } from '../fault.ts';
import { changed, endOf, ohms, opened, said, shorted } from './say.ts';

/** Ohms of a dirty contact where only milliamperes pass. */
const DIRTY_PLATE_CONTACT = 500;

const firstEnd = (part: Part): string | undefined => part.ends[0]?.id;

/** Switches, jacks, selectors, rheostats, potentiometers, and what else stands in a filament lead. */
export const controlFaults: readonly CatalogueRow[] = [
  {
    kind: 'dirty-switch',
    source: PRACTICE,
    happensTo: (part) =>
      part.kind === 'switch'
        ? [
            {
              words: `the contact of ${part.name} is dirty, ${said(ohms(DIRTY_CONTACT))} in it`,
              edits: changed(part.name, ohms(DIRTY_CONTACT)),
              prior: 'very common',
              heard: ['crackles', 'comes and goes'],
            },
            {
              words: `${part.name} does not close`,
              edits: opened(part.name),
              prior: 'common',
            },
          ]
        : [],
  },
  {
    kind: 'dirty-jack',
    source: PRACTICE,
    happensTo: (part) =>
      part.kind === 'jack'
        ? [
            {
              words: `the springs of ${part.name} are dirty, ${said(ohms(DIRTY_PLATE_CONTACT))} in them`,
              edits: changed(part.name, ohms(DIRTY_PLATE_CONTACT)),
              prior: 'very common',
              heard: ['crackles', 'comes and goes'],
            },
            {
              words: `a spring of ${part.name} is bent and does not touch`,
              edits: opened(part.name),
              prior: 'common',
              heard: ['comes and goes'],
            },
          ]
        : [],
  },
  {
    kind: 'dirty-selector',
    source: PRACTICE,
    happensTo: (part) =>
      part.kind === 'selector'
        ? [
            {
              words: `the arm of ${part.name} does not touch its stud`,
              edits: opened(firstEnd(part) ?? part.name),
              prior: 'common',
              heard: ['crackles', 'comes and goes'],
            },
          ]
        : [],
  },
  {
    kind: 'rheostat',
    source: PRACTICE,
    happensTo: (part) => {
      const start = firstEnd(part);
      if (part.kind !== 'rheostat' || start === undefined) return [];
      return [
        {
          words: `the arm of ${part.name} is dirty, 2 ohms in it`,
          edits: changed(start, ohms(2)),
          prior: 'very common',
          heard: ['crackles', 'comes and goes'],
        },
        {
          words: `${part.name} is open: its arm is lifted, or its wire broken at the stud`,
          edits: opened(part.name),
          prior: 'common',
        },
        {
          words: `${part.name} is shorted, or left with no resistance in`,
          edits: shorted(part.name),
          prior: 'common',
        },
      ];
    },
  },
  {
    kind: 'potentiometer',
    source: PRACTICE,
    happensTo: (part) => {
      if (part.kind !== 'potentiometer') return [];
      return (['start', 'finish', 'arm'] as const).flatMap((name): FaultSaid[] => {
        const end = endOf(part, name);
        if (end === undefined) return [];
        return [
          {
            words:
              name === 'arm'
                ? `the arm of ${part.name} does not touch its wire`
                : `${part.name} is open at its ${name}`,
            edits: opened(end),
            prior: 'common',
            ...(name === 'arm' ? { heard: ['crackles'] as const } : {}),
          },
        ];
      });
    },
  },
  {
    kind: 'burnt-out',
    source: PRACTICE,
    happensTo: (part) =>
      part.kind === 'ballast' || part.kind === 'lamp' || part.kind === 'fuse'
        ? [
            {
              words: `${part.name} is burnt out`,
              edits: opened(part.name),
              prior: 'common',
            },
          ]
        : [],
  },
  {
    kind: 'aerial-or-ground',
    source: PRACTICE,
    happensTo: (part) => {
      const isAerial = part.words.has('aerial');
      if (part.kind !== 'post' || !(isAerial || part.words.has('ground'))) return [];
      return [
        {
          words: `the ${isAerial ? 'aerial' : 'ground'} lead is off ${part.name}`,
          edits: opened(part.name),
          prior: 'common',
          // What still comes in by the capacity of the wiring is not reckoned.
          ...(isAerial ? { heard: ['faint'] as const } : {}),
        },
      ];
    },
  },
  {
    kind: 'broken-lead',
    source: PRACTICE,
    happensTo: (part) =>
      part.kind === 'lead'
        ? [{ words: `the lead ${part.name} is broken`, edits: opened(part.name), prior: 'common' }]
        : [],
  },
];
