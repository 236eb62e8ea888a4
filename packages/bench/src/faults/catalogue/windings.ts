import { type Circuit, isSupply, type Part } from '@setwright/circuit';
import { turnsOf } from '../../edits/turns-shorted.ts';
import { LEAKY_TRANSFORMER } from '../../edits/usual-faults.ts';
import { type CatalogueRow, type FaultSaid, PRACTICE } from '../fault.ts';
import { changed, endOf, joined, ohms, opened, said, shorted } from './say.ts';

function ownerOf(part: Part, circuit: Circuit): Part | undefined {
  return part.kind === 'winding' ? circuit.partNamed.get(part.owner ?? '') : undefined;
}

function isIron(part: Part, circuit: Circuit): boolean {
  const owner = ownerOf(part, circuit);
  return owner?.kind === 'transformer' && !owner.words.has('air');
}

function isAir(part: Part, circuit: Circuit): boolean {
  return ownerOf(part, circuit) !== undefined && !isIron(part, circuit);
}

/** Whether plate current flows through it: from a plate, straight or by tickler, choke or jack. */
function carriesPlate(part: Part, circuit: Circuit): boolean {
  const supplied = new Set(
    circuit.parts.filter(isSupply).flatMap(({ ends }) => ends.map(({ junction }) => junction)),
  );
  const way = new Set(
    circuit.parts.flatMap(({ kind, ends }) =>
      kind === 'tube'
        ? ends.flatMap(({ name, junction }) => (name === 'plate' ? junction : []))
        : [],
    ),
  );
  const passing = circuit.parts.filter(
    (each) =>
      each !== part && (each.kind === 'choke' || each.kind === 'jack' || isAir(each, circuit)),
  );
  for (const junction of way) {
    if (supplied.has(junction)) continue;
    for (const { ends } of passing)
      if (ends.some((end) => end.junction === junction))
        for (const end of ends) way.add(end.junction);
  }
  return part.ends.some(({ junction }) => way.has(junction) && !supplied.has(junction));
}

/** Whether its inductance is told, or enough to reckon it from. */
function isOfKnownMake({ values, winding }: Part): boolean {
  return values.inductance !== undefined || (winding?.turns ?? values.turns) !== undefined;
}

/** Whether the aerial's current flows through it, straight or by a selector's arm. */
function isOnAerial(part: Part, circuit: Circuit): boolean {
  const aerials = circuit.parts.flatMap(({ kind, words, ends }) =>
    kind === 'post' && words.has('aerial') ? (ends[0]?.junction ?? []) : [],
  );
  const beyond = circuit.parts.flatMap(({ kind, contacts, ends }) =>
    kind === 'selector' && ends.some(({ junction }) => aerials.includes(junction))
      ? contacts.flatMap(({ to }) => circuit.endNamed.get(to)?.junction ?? [])
      : [],
  );
  const reached = new Set([...aerials, ...beyond]);
  return part.kind === 'winding' && part.ends.some(({ junction }) => reached.has(junction));
}

/** Whether a variable or fixed condenser tunes it. */
function isTuned(part: Part, circuit: Circuit): boolean {
  const [from, to] = [part.ends[0]?.junction, part.ends[1]?.junction];
  return circuit.parts.some(
    ({ kind, ends }) =>
      kind === 'condenser' &&
      ends.length === 2 &&
      [from, to].every((at) => ends.some(({ junction }) => junction === at)),
  );
}

/** A coil that is damp or whose form leaks: from a Q of a hundred and more down to this. */
const DAMP_Q = 20;
/** A joint that has gone green in a plate lead. */
const GREEN_JOINT = 30e3;

/** Windings on air and on iron, chokes. */
export const windingFaults: readonly CatalogueRow[] = [
  {
    kind: 'open-winding',
    source: PRACTICE,
    happensTo: (part, circuit) => {
      const isWound = part.kind === 'winding' || part.kind === 'choke' || part.kind === 'loop';
      if (!isWound) return [];
      const isPrimary = isIron(part, circuit) && !part.name.endsWith('.secondary');
      const isMoved = part.setting !== undefined || part.name.endsWith('.tickler');
      return [
        {
          words: isMoved ? `${part.name} is open, in its flexible leads` : `${part.name} is open`,
          edits: opened(part.name),
          prior: isPrimary || isMoved ? 'very common' : 'common',
          // What still comes over by the capacity between the windings is not reckoned.
          ...(isOnAerial(part, circuit)
            ? { heard: ['faint'] as const }
            : isIron(part, circuit) && !isPrimary
              ? { heard: ['weak'] as const }
              : {}),
        },
      ];
    },
  },
  {
    kind: 'corroded-winding',
    source: PRACTICE,
    happensTo: (part, circuit) => {
      if (isIron(part, circuit) && carriesPlate(part, circuit))
        return [30e3, 1e6].map(
          (value): FaultSaid => ({
            words: `${part.name} is corroded, ${said(ohms(value))}`,
            edits: changed(part.name, ohms(value)),
            prior: 'common',
            heard: ['crackles'],
          }),
        );
      const start = endOf(part, 'start');
      if (isAir(part, circuit) && carriesPlate(part, circuit) && start !== undefined)
        return [
          {
            words: `a joint of ${part.name} is green, ${said(ohms(GREEN_JOINT))} in it`,
            edits: changed(start, ohms(GREEN_JOINT)),
            prior: 'common',
            heard: ['crackles'],
          },
        ];
      return [];
    },
  },
  {
    kind: 'shorted-turns',
    source: PRACTICE,
    happensTo: (part, circuit) => {
      if (isIron(part, circuit))
        return [
          {
            words: `half the turns of ${part.name} are shorted`,
            edits: [
              {
                verb: 'turns shorted',
                target: part.name,
                amount: {
                  value: Math.round(turnsOf(part, ownerOf(part, circuit)) / 2),
                  dimension: 'turns',
                },
              },
            ],
            prior: part.name.endsWith('.secondary') ? 'rare' : 'common',
          },
        ];
      if (!isAir(part, circuit) || !isTuned(part, circuit)) return [];
      return [
        {
          words: `a turn of ${part.name} is shorted`,
          edits: [
            { verb: 'turns shorted', target: part.name, amount: { value: 1, dimension: 'turns' } },
          ],
          prior: 'rare',
        },
      ];
    },
  },
  {
    kind: 'damp-coil',
    source: PRACTICE,
    happensTo: (part, circuit) =>
      isAir(part, circuit) && isTuned(part, circuit) && isOfKnownMake(part)
        ? [
            {
              words: `${part.name} is damp, or its form leaks: a Q of ${DAMP_Q}`,
              edits: [
                {
                  verb: 'damped',
                  target: part.name,
                  amount: { value: DAMP_Q, dimension: 'number' },
                },
              ],
              prior: 'common',
            },
          ]
        : [],
  },
  {
    kind: 'windings-touch',
    source: PRACTICE,
    happensTo: (part, circuit) => {
      if (part.kind !== 'coil' && part.kind !== 'transformer') return [];
      const [first, second] = circuit.parts.filter(({ owner }) => owner === part.name);
      if (!first || !second) return [];
      const isOnIron = part.kind === 'transformer' && !part.words.has('air');
      const [from, to] = isOnIron
        ? [endOf(first, 'start'), endOf(second, 'finish')]
        : [endOf(first, 'finish'), endOf(second, 'start')];
      if (from === undefined || to === undefined) return [];
      if (!isOnIron)
        return [
          {
            words: `${first.name} touches ${second.name}`,
            edits: joined(from, to),
            prior: 'rare',
          },
        ];
      return [
        {
          words: `${part.name} leaks from ${first.name} to ${second.name}, ${said(ohms(LEAKY_TRANSFORMER))}`,
          edits: joined(from, to, ohms(LEAKY_TRANSFORMER)),
          prior: 'common',
        },
        {
          words: `${first.name} is shorted to ${second.name}, ${said(ohms(1000))}`,
          edits: joined(from, to, ohms(1000)),
          prior: 'rare',
        },
      ];
    },
  },
  {
    kind: 'leaks-to-core',
    source: PRACTICE,
    happensTo: (part, circuit) =>
      isIron(part, circuit) && carriesPlate(part, circuit)
        ? [
            {
              words: `${part.name} leaks to its core, 50 kilohms`,
              edits: [{ verb: 'leaky', target: part.name, amount: ohms(50e3) }],
              prior: 'common',
            },
          ]
        : [],
  },
  {
    kind: 'reversed-winding',
    source: PRACTICE,
    happensTo: (part, circuit) =>
      part.kind === 'winding' && (part.setting !== undefined || part.name.endsWith('.tickler'))
        ? [
            {
              words: `the leads of ${part.name} are exchanged`,
              edits: [{ verb: 'reverse', target: part.name }],
              prior: 'common',
            },
          ]
        : isAir(part, circuit) && carriesPlate(part, circuit) && hasNeutralizing(circuit)
          ? [
              {
                words: `the leads of ${part.name} are exchanged`,
                edits: [{ verb: 'reverse', target: part.name }],
                prior: 'rare',
              },
            ]
          : [],
  },
  {
    kind: 'shorted-choke',
    source: PRACTICE,
    happensTo: (part) =>
      part.kind === 'choke'
        ? [{ words: `${part.name} is shorted`, edits: shorted(part.name), prior: 'rare' }]
        : [],
  },
];

function hasNeutralizing(circuit: Circuit): boolean {
  return circuit.parts.some(({ words }) => words.has('neutralizing'));
}
