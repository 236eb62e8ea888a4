import {
  type Circuit,
  type Conduction,
  directPath,
  type Finding,
  type Fix,
  type Part,
  type Settings,
} from '@setwright/circuit';
import type { Check } from '../check.ts';
import { bridged } from '../fixes/edits.ts';
import type { Study } from '../study.ts';
import { outsideBridges } from '../wiring/outside.ts';
import { judgedOverPositions, standingWords } from '../wiring/positions.ts';
import { regionsOf } from '../wiring/regions.ts';
import { isUnwired } from '../wiring/unwired.ts';
import { alsoPart, finding } from '../words/finding.ts';

const set = (bypass: string) => `receiver "Cove Raft" {
  post ANT aerial
  post GND ground
  coil L1 {
    winding aerial 60 uH from GND to ANT
    winding secondary 200 uH from GND
  }
  condenser C1 variable 20 to 500 mmfd rotor to L1.secondary.start stator to L1.secondary.finish
  detector stage DET {
    crystal CR1 from L1.secondary.finish to DET1
    bus DET1 "crystal's far end"
    condenser C2 .001 mfd from DET1 to OUT
    ${bypass}
    bus OUT "phones"
    phones PH1 2000 ohms from OUT to GND
  }
}
`;

/** A crystal whose current cannot go round. */
export const crystalWithoutDcPath: Check = {
  id: 'crystal-without-dc-path',
  group: 'DC returns',
  severity: 'error',
  summary: 'A crystal detector with no closed path for direct current.',
  why: 'A crystal rectifies only while its direct current can go round; behind a condenser it charges up and falls silent.',
  silent: [
    'A stopping condenser with a leak or a resistance of its own across it.',
    'A path through phones, a choke, a transformer or a bias cell.',
    'Phones that the text does not draw are taken as hooked to their posts.',
    'A crystal with an end that nothing is wired to has another fault.',
    'What another position of a switch, jack or selector cures is information.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: set('// nothing across it'),
  passes: set('choke CH1 1000 ohms across C2'),
  find(study) {
    const crystals = study.circuit.parts.filter(({ kind }) => kind === 'crystal');
    if (crystals.length === 0) return [];
    const judged = judgedOverPositions(study, (conduction) => openCrystals(conduction, crystals));
    return [...judged].map(([crystal, { curedBy }]) => told(study, crystal, curedBy));
  },
};

/** The crystals from whose one end no direct current comes to the other by another way. */
function openCrystals(conduction: Conduction, crystals: readonly Part[]): ReadonlySet<Part> {
  const names = new Set(crystals.map(({ name }) => name));
  const regions = regionsOf(
    conduction,
    ({ part, direct }) => direct.kind !== 'blocks' && !names.has(part),
    outsideBridges(conduction.circuit),
  );
  return new Set(
    crystals.filter((crystal) => {
      const [mineral, whisker] = crystal.ends;
      if (!mineral || !whisker) return false;
      if (isUnwired(conduction, mineral) || isUnwired(conduction, whisker)) return false;
      if (regions[mineral.junction] === regions[whisker.junction]) return false;
      return crystals.length === 1 || !isClosedByOthers(crystal, crystals, regions);
    }),
  );
}

/** Whether other crystals close the way, as in a full-wave pair. */
function isClosedByOthers(
  crystal: Part,
  crystals: readonly Part[],
  regions: readonly number[],
): boolean {
  const at = (part: Part) => part.ends.map((end) => regions[end.junction] ?? -1);
  const [start, goal] = at(crystal);
  const seen = new Set([start]);
  for (const region of seen) {
    if (region === goal) return true;
    for (const other of crystals) {
      const ends = at(other);
      if (other !== crystal && ends.includes(region ?? -1)) for (const end of ends) seen.add(end);
    }
  }
  return false;
}

/** Ohms across a condenser that carry a crystal's direct current. Common practice. */
const CRYSTAL_LEAK = '50 kilohms';

function leaked(circuit: Circuit, condenser: Part): readonly Fix[] {
  const [from, to] = condenser.ends;
  const what = { kind: 'resistor', letter: 'R', size: CRYSTAL_LEAK };
  return bridged(circuit, condenser, what, from?.id, to?.id);
}

function told(study: Study, crystal: Part, curedBy: Settings | undefined): Finding {
  const { circuit, conduction } = study;
  const [mineral, whisker] = crystal.ends;
  const path = directPath(
    conduction,
    mineral?.junction ?? -1,
    (junction) => junction === whisker?.junction,
    { skip: new Set([crystal.name]) },
  );
  const blockers = path.found
    ? []
    : path.blockers.filter(
        ({ part, goalBeyond }) => goalBeyond && circuit.partNamed.get(part)?.kind !== 'tube',
      );
  const blocker =
    blockers.find(({ part }) => !circuit.partNamed.get(part)?.words.has('variable')) ?? blockers[0];
  const blocking = blocker && circuit.partNamed.get(blocker.part);
  const isCondenser = blocking?.kind === 'condenser';
  const because = !blocking
    ? 'nothing leads from its one end to the other'
    : isCondenser
      ? `${blocking.name} blocks direct current`
      : `the contact of ${blocking.name} is open`;
  return finding({
    check: 'crystal-without-dc-path',
    severity: curedBy ? 'information' : 'error',
    message: `The direct current of ${crystal.name} cannot go round${curedBy ? ' as drawn' : ''}: ${because}.`,
    why: 'A crystal that cannot pass direct current charges what is behind it and falls silent.',
    cure: curedBy
      ? `Nothing, if it is meant: it goes round with ${standingWords(circuit, study.on.settings, curedBy)}.`
      : blocking
        ? `Put phones, a choke or a leak of 50 kilohms across ${blocking.name}.`
        : `Join phones, a choke or a transformer from the far end of ${crystal.name} back to its coil.`,
    place: crystal.place,
    related: blocking ? [alsoPart(blocking, because)] : [],
    parts: [crystal.name],
    fixes:
      curedBy || !isCondenser || blocking.words.has('variable') ? [] : leaked(circuit, blocking),
  });
}
