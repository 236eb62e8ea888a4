import {
  isBias,
  isFilamentSupply,
  isSupply,
  lowestTap,
  type Part,
  zeroTap,
} from '@setwright/circuit';
import { tired } from '../../edits/usual-faults.ts';
import { type CatalogueRow, type FaultSaid, PRACTICE } from '../fault.ts';
import { changed, endOf, joined, ohms, opened, said, shorted, volts } from './say.ts';

function taps(
  part: Part,
): readonly { readonly name: string; readonly id: string; readonly volts: number }[] {
  return part.supplyTaps
    .flatMap(({ end, volts: at }) => {
      const id = endOf(part, end);
      return id === undefined || at === undefined ? [] : [{ name: end, id, volts: at }];
    })
    .sort((a, b) => a.volts - b.volts);
}

const lights = (part: Part): boolean => isSupply(part) && isFilamentSupply(part) && !isBias(part);
const feeds = (part: Part): boolean => isSupply(part) && !isFilamentSupply(part) && !isBias(part);

/** Batteries, eliminators and the leads to them. */
export const supplyFaults: readonly CatalogueRow[] = [
  {
    kind: 'corroded-lead',
    source: PRACTICE,
    happensTo: (part) =>
      lights(part)
        ? taps(part).map(({ name, id }) => ({
            words: `the ${name} lead or post is green, half an ohm in it`,
            edits: changed(id, ohms(0.5)),
            prior: 'very common',
            heard: ['comes and goes'],
          }))
        : [],
  },
  {
    kind: 'low-battery',
    source: PRACTICE,
    happensTo: (part) => {
      if (!isSupply(part)) return [];
      const { share: left } = tired(part);
      const whole = taps(part).at(-1)?.volts ?? 0;
      const low = taps(part)[0]?.volts ?? 0;
      const to = volts((whole - low) * left);
      if (isBias(part))
        return [
          {
            words: `${part.name} is flat`,
            edits: [{ verb: 'weak', target: part.name, amount: volts(0) }],
            prior: 'very common',
          },
        ];
      return [
        {
          words: `${part.name} is down to ${said(to)}`,
          edits: [{ verb: 'weak', target: part.name, amount: to }],
          prior: lights(part) ? 'common' : 'very common',
        },
      ];
    },
  },
  {
    kind: 'tired-block',
    source: PRACTICE,
    happensTo: (part) => {
      const all = feeds(part) && part.kind === 'battery' ? taps(part) : [];
      if (all.length < 3) return [];
      return all.slice(1).map(({ name, id }, at) => ({
        words: `the block of ${part.name} below ${name} is tired`,
        edits: [{ verb: 'weak', target: id }],
        prior: at === 0 ? 'very common' : 'common',
      }));
    },
  },
  {
    kind: 'open-battery-lead',
    source: PRACTICE,
    happensTo: (part, circuit) => {
      if (!isSupply(part)) return [];
      const isLed = (id: string): boolean => {
        const junction = circuit.endNamed.get(id)?.junction ?? -1;
        return (circuit.junctions[junction]?.terminals.length ?? 0) > 1;
      };
      const zero = zeroTap(part)?.end;
      const lowest = lowestTap(part)?.end;
      const led = taps(part).filter(({ id }) => isLed(id));
      return led.map(({ name, id }): FaultSaid => {
        const isCommon = name === zero || name === lowest;
        return {
          words:
            isCommon && feeds(part)
              ? `the ${name} lead, or the strap from it to the filaments, is off`
              : `the ${name} lead is off`,
          edits: opened(id),
          prior: 'common',
        };
      });
    },
  },
  {
    kind: 'reversed-battery',
    source: PRACTICE,
    happensTo: (part) =>
      part.kind === 'battery'
        ? [
            {
              words: `${part.name} is the wrong way round`,
              edits: [{ verb: 'reverse', target: part.name }],
              prior: isBias(part) ? 'common' : 'rare',
            },
          ]
        : [],
  },
  {
    kind: 'taps-exchanged',
    source: PRACTICE,
    happensTo: (part) => {
      const all = feeds(part) ? taps(part).slice(1) : [];
      return all.slice(1).flatMap(({ name, id }, at) => {
        const below = all[at];
        return below
          ? [
              {
                words: `the ${below.name} and ${name} leads are exchanged`,
                edits: [{ verb: 'swap', target: below.id, other: id }],
                prior: 'rare',
              } satisfies FaultSaid,
            ]
          : [];
      });
    },
  },
  {
    kind: 'cable-touches',
    source: PRACTICE,
    happensTo: (part, circuit) => {
      const filaments = circuit.parts.find(lights);
      const plus = filaments && taps(filaments).at(-1);
      if (!feeds(part) || !plus) return [];
      return taps(part)
        .filter(({ volts: at }) => at > 0)
        .slice(0, 1)
        .map(({ name, id }) => ({
          words: `the rubber of the cable has perished and ${name} touches ${plus.name}`,
          edits: joined(id, plus.id),
          prior: 'rare',
          note: 'With A off its posts, or a B of little resistance, every tube is lost at a stroke.',
        }));
    },
  },
  {
    kind: 'shorted-filter',
    source: PRACTICE,
    happensTo: (part) =>
      part.kind === 'eliminator'
        ? [
            {
              words: `a filter condenser of ${part.name} is shorted`,
              edits: shorted(part.name),
              prior: 'common',
              note: 'The rectifier overheats: switch off.',
            },
          ]
        : [],
  },
  {
    kind: 'dry-filter',
    source: PRACTICE,
    happensTo: (part) =>
      part.kind === 'eliminator'
        ? [
            {
              words: `a filter condenser of ${part.name} is dry`,
              edits: [],
              prior: 'very common',
              heard: ['hums'],
            },
            {
              words: `the condenser at a tap of ${part.name} is open`,
              edits: [],
              prior: 'common',
              heard: ['putters'],
            },
          ]
        : [],
  },
];
