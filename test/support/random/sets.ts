import { putAudioStage, putCrystalPhones, putOutput, putPushPull } from './audio.ts';
import { putCoupler, putEntrance, putStabilizer, type TunedCircuit } from './couplers.ts';
import { type Draft, inStage, lineOf, nextName, wire } from './draft.ts';
import { heatTubes } from './filaments.ts';
import { putCrystal, putDetector, putRadioStage, type RadioHabits } from './radio.ts';
import { putReflex } from './reflex.ts';
import { putSuperhet } from './superhet.ts';
import { families, putSupplies, type Supplies } from './supplies.ts';

/** Builds a whole set of a family chosen by chance into a draft. */
export function putSet(draft: Draft): void {
  const { chance } = draft;
  const kind = chance.one([
    'crystal',
    'regenerative',
    'regenerative',
    'tuned',
    'tuned',
    'tuned',
    'tuned',
    'neutralized',
    'reflex',
    'superheterodyne',
    'screen-grid',
  ]);
  if (kind === 'crystal') {
    putCrystalSet(draft);
    return;
  }
  const suitable = families.filter(
    ({ screen, heated }) =>
      (kind !== 'screen-grid' || screen !== undefined) && (kind !== 'reflex' || !heated),
  );
  const supplies = putSupplies(draft, chance.one(suitable));
  const sound = soundOf(draft, supplies, kind);
  putAudio(draft, supplies, sound);
  heatTubes(draft, supplies);
  putDials(draft);
}

function soundOf(draft: Draft, supplies: Supplies, kind: string): string {
  const { chance } = draft;
  if (kind === 'reflex') return putReflex(draft, supplies);
  const stabilizer =
    !supplies.family.heated && kind === 'tuned' && chance.percent(20)
      ? putStabilizer(draft, supplies)
      : undefined;
  const habits: RadioHabits = {
    screened: kind === 'screen-grid',
    neutralized: kind === 'neutralized',
    stabilizer,
  };
  let circuit: TunedCircuit = inStage(draft, 'radio', 'IN', () =>
    putEntrance(draft, supplies, stabilizer),
  );
  if (kind === 'superheterodyne') circuit = putSuperhet(draft, supplies, circuit);
  else {
    const stages = kind === 'regenerative' ? chance.one([0, 0, 0, 1]) : 1 + chance.below(4);
    for (let stage = 0; stage < stages; stage++) {
      circuit = inStage(draft, 'radio', 'RF', () =>
        putRadioStage(draft, supplies, circuit, habits),
      );
    }
  }
  return inStage(draft, 'detector', 'DET', () => {
    if (kind === 'tuned' && chance.percent(8)) return putCrystal(draft, circuit);
    return putDetector(draft, supplies, circuit, kind === 'regenerative' || chance.percent(15));
  });
}

function putAudio(draft: Draft, supplies: Supplies, sound: string): void {
  const { chance } = draft;
  let [source, tap] = [sound, supplies.detectorTap];
  // Behind a crystal a transformer's primary or the phones end at the cold side.
  if (sound.endsWith('.whisker')) tap = supplies.minus;
  const stages = chance.one([0, 1, 1, 2, 2, 2]);
  for (let stage = 1; stage <= stages; stage++) {
    if (stage === 2 && chance.percent(30)) {
      inStage(draft, 'output', 'AF', () => putPushPull(draft, supplies, source));
      return;
    }
    const last = stage === stages;
    source = inStage(draft, last ? 'output' : 'audio', 'AF', () =>
      putAudioStage(draft, supplies, source, tap, last),
    );
    tap = last ? supplies.powerTap : supplies.audioTap;
  }
  inStage(draft, 'output', 'OUT', () => putOutput(draft, supplies, source, tap));
}

function putCrystalSet(draft: Draft): void {
  const { chance } = draft;
  draft.here.push(lineOf('post GND ground', [], '', 'GND'));
  const supplies = {
    family: families[0] as Supplies['family'],
    minus: 'GND',
    plus: 'GND',
    earth: 'GND',
    detectorTap: 'GND',
    radioTap: 'GND',
    audioTap: 'GND',
    powerTap: 'GND',
    bias: () => undefined,
  };
  let circuit = putEntrance(draft, supplies, undefined);
  if (chance.percent(30)) circuit = putCoupler(draft, supplies, circuit.hot, undefined);
  inStage(draft, 'detector', 'DET', () => {
    const sound = putCrystal(draft, circuit);
    putCrystalPhones(draft, sound, 'GND');
  });
  putDials(draft);
}

/** Dials on what turns; some condensers on one shaft. */
function putDials(draft: Draft): void {
  const { chance } = draft;
  const turning = [...draft.lines, ...draft.lines.flatMap(({ block }) => block ?? [])]
    .filter(({ words }) => /^condenser \S+ .*variable/.test(words))
    .map(({ part }) => part as string);
  const pool = [...turning];
  if (pool.length >= 2 && chance.percent(35)) {
    const gang = nextName(draft, 'G');
    const members = pool.splice(-Math.min(pool.length, 2 + chance.below(2)));
    draft.here.push(lineOf(`gang ${gang} ${members.join(', ')}`));
    pool.push(gang);
  }
  for (const target of pool) {
    if (chance.percent(20)) continue;
    draft.here.push(lineOf(`dial ${nextName(draft, 'D')} 0 to 100`, [['drives', target]]));
  }
}

/** Leads that a set carries out to where nothing is joined. */
export function putSpareParts(draft: Draft): void {
  const { chance } = draft;
  if (chance.percent(10)) {
    const spare = nextName(draft, 'C');
    draft.here.push(lineOf(`condenser ${spare} .5 mfd`, [], '', spare));
    if (chance.percent(50)) wire(draft, `${spare}.start`, 'GND');
  }
}
