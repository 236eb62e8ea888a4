import { type Circuit, emitterOf, type Part, rolesOf } from '@setwright/circuit';
import { type CatalogueRow, type FaultSaid, PRACTICE } from '../fault.ts';
import { endOf, joined, opened, share } from './say.ts';

/** Whether a tube stands behind the detector. */
function isAudio(part: Part, circuit: Circuit): boolean {
  const roles = rolesOf(circuit, part);
  return roles.includes('audio') || roles.includes('output');
}

/** Tubes and their sockets. */
export const tubeFaults: readonly CatalogueRow[] = [
  {
    kind: 'open-filament',
    source: PRACTICE,
    happensTo: (part) =>
      part.kind === 'tube'
        ? [
            {
              words: part.tubeType?.heated
                ? `the heater of ${part.name} is burnt out`
                : `the filament of ${part.name} is burnt out`,
              edits: opened(part.name),
              prior: 'very common',
            },
          ]
        : [],
  },
  {
    kind: 'weak-emission',
    source: PRACTICE,
    happensTo: (part) =>
      part.kind === 'tube' && part.tubeType?.points[0]?.plateAmperes !== undefined
        ? [
            {
              words: `${part.name} is tired: it gives half its plate current`,
              edits: [{ verb: 'weak', target: part.name, amount: share(0.5) }],
              prior: 'very common',
            },
          ]
        : [],
  },
  {
    kind: 'gassy',
    source: PRACTICE,
    happensTo: (part, circuit) =>
      part.kind === 'tube' && part.tubeType?.points[0]?.plateAmperes !== undefined
        ? [
            {
              words: `${part.name} is gassy`,
              edits: [{ verb: 'gas', target: part.name }],
              prior: 'common',
              // The gas comes as the tube warms, and loud notes drive it.
              ...(isAudio(part, circuit) ? { heard: ['distorts loud'] } : {}),
            },
          ]
        : [],
  },
  {
    kind: 'microphonic',
    source: PRACTICE,
    happensTo: (part) =>
      part.kind === 'tube'
        ? [
            {
              words: `${part.name} rings when it is tapped`,
              edits: [{ verb: 'microphonic', target: part.name }],
              prior: 'common',
              heard: ['microphonic'],
            },
          ]
        : [],
  },
  {
    kind: 'electrodes-touch',
    source: PRACTICE,
    happensTo: (part) => {
      const [grid, plate] = [endOf(part, 'grid'), endOf(part, 'plate')];
      const emitter = emitterOf(part)?.id;
      if (part.kind !== 'tube') return [];
      const touch = (one: string | undefined, other: string | undefined, words: string) =>
        one === undefined || other === undefined
          ? []
          : [
              {
                words: `in ${part.name} ${words}`,
                edits: joined(one, other),
                prior: 'rare',
              } satisfies FaultSaid,
            ];
      return [
        ...touch(grid, plate, 'the grid touches the plate'),
        ...touch(grid, emitter, 'the grid touches the filament'),
        ...touch(plate, emitter, 'the plate touches the filament'),
      ];
    },
  },
  {
    kind: 'socket-contact',
    source: PRACTICE,
    happensTo: (part) => {
      if (part.kind !== 'tube') return [];
      return ['grid', 'plate', 'screen', 'filament+'].flatMap((name): FaultSaid[] => {
        const end = endOf(part, name);
        if (end === undefined) return [];
        return [
          {
            words: `a spring of the socket of ${part.name} misses its ${pinOf(part, name)} pin`,
            edits: opened(end),
            prior: name === 'screen' ? 'common' : 'very common',
            heard: ['comes and goes'],
          },
        ];
      });
    },
  },
  {
    kind: 'wrong-tube',
    source: PRACTICE,
    happensTo: (part, circuit) => {
      const others = circuit.parts.filter(
        ({ kind, typeName }) => kind === 'tube' && typeName !== part.typeName,
      );
      const last = others.at(-1);
      if (
        part.kind !== 'tube' ||
        !last ||
        circuit.parts.indexOf(last) < circuit.parts.indexOf(part)
      )
        return [];
      return [
        {
          words: `${part.name} and ${last.name} stand in each other's socket`,
          edits: [{ verb: 'swap', target: part.name, other: last.name }],
          prior: 'common',
        },
      ];
    },
  },
];

function pinOf(part: Part, name: string): string {
  if (name !== 'filament+') return name;
  return part.tubeType?.heated ? 'heater' : 'filament';
}
