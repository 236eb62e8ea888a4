import type { TunedCircuit } from '@setwright/analysis';
import type { Circuit } from '@setwright/circuit';
import { type Grounds, groundsOf, type TourViews } from './grounds.ts';
import type { Place } from './places.ts';
import { aerialStep } from './steps/aerial.ts';
import { biasStep } from './steps/bias.ts';
import { bypassesStep } from './steps/bypasses.ts';
import { detectionStep, oscillatorStep } from './steps/detection.ts';
import { filamentsStep } from './steps/filaments.ts';
import { followStep } from './steps/follow.ts';
import { glanceStep } from './steps/glance.ts';
import { howlStep } from './steps/howl.ts';
import { meterStep } from './steps/meter.ts';
import { outputStep } from './steps/output.ts';
import { plateStep } from './steps/plate.ts';
import { safetyStep } from './steps/safety.ts';
import { signalStep } from './steps/signal.ts';
import { suppliesStep } from './steps/supplies.ts';
import { supposedStep } from './steps/supposed.ts';
import { tubeOnceStep } from './steps/tube-once.ts';
import { dialsStep, tunedBefore, tunedStep } from './steps/tuned.ts';
import { unknownStep } from './steps/unknown.ts';
import { zeroStep } from './steps/zero.ts';
import type { Tour, TourOptions, TourStep } from './tour.ts';

/**
 * The guided tour of a set: an ordered walk made from its circuit, from what stands before us by
 * way of every current and the signal to what each of its suppositions does. Every sentence names
 * the set's own parts, and every number in it comes with its because. What is not known is left
 * out, with the fact that is missing. Never throws.
 */
export function tourOf(circuit: Circuit, views: TourViews, options: TourOptions = {}): Tour {
  const grounds = groundsOf(circuit, views, options);
  const steps: TourStep[] = [];
  const add = (step: TourStep | undefined): void => {
    if (step && step.sentences.length > 0) steps.push(step);
  };
  const idOf = unusedIds();
  add(glanceStep(grounds));
  add(suppliesStep(grounds));
  add(zeroStep(grounds));
  add(filamentsStep(grounds));
  add(tubeOnceStep(grounds));
  add(aerialStep(grounds));
  for (const step of alongTheSignal(grounds, idOf)) add(step);
  add(outputStep(grounds));
  add(howlStep(grounds));
  add(bypassesStep(grounds));
  add(followStep(grounds));
  add(meterStep(grounds));
  add(safetyStep(grounds));
  for (const [index, suppose] of circuit.supposes.entries())
    add(supposedStep(grounds, suppose, index, views, idOf(`suppose-${index + 1}`)));
  add(
    unknownStep(
      grounds,
      steps.flatMap(({ missing }) => missing),
    ),
  );
  return { circuit, title: circuit.title, level: grounds.level, steps };
}

/** Place by place: what tunes it, what it does, how its grid is held, where its plate is fed. */
function alongTheSignal(
  grounds: Grounds,
  idOf: (wanted: string) => string,
): (TourStep | undefined)[] {
  const steps: (TourStep | undefined)[] = [];
  const told = new Set<TunedCircuit>();
  const held = new Set<string>();
  // Circuits that a hand tunes, and that no way of the signal was found to pass.
  const others = (): TourStep[] =>
    grounds.tuned
      .filter(
        (each) =>
          !told.has(each) &&
          [each.tuner, ...each.beside].some((name) =>
            grounds.circuit.partNamed.get(name ?? '')?.words.has('variable'),
          ),
      )
      .map((tuned) => {
        told.add(tuned);
        return tunedStep(grounds, tuned, idOf(`tuned-${tuned.tuner ?? tuned.name}`));
      });
  const lastRadio = grounds.places.findLastIndex(({ use, isOnWay }) => isOnWay && use !== 'audio');
  for (const [index, place] of grounds.places.entries()) {
    for (const tuned of tunedBefore(grounds, place, told)) {
      told.add(tuned);
      steps.push(tunedStep(grounds, tuned, idOf(`tuned-${tuned.tuner ?? tuned.name}`)));
    }
    steps.push(actionStep(grounds, place, idOf));
    for (const tube of [place.part, ...place.twins]) {
      // A tube that the signal passes twice stands and is fed once.
      if (tube.kind !== 'tube' || held.has(tube.name)) continue;
      held.add(tube.name);
      const isTold = place.use === 'detector' || place.use === 'mixer';
      if (!isTold || !isGridDetector(steps.at(-1)))
        steps.push(biasStep(grounds, tube, idOf(`bias-${tube.name}`)));
      steps.push(plateStep(grounds, tube, idOf(`plate-${tube.name}`)));
    }
    if (index === lastRadio) steps.push(...others(), dialsStep(grounds));
  }
  if (lastRadio < 0) steps.push(...others(), dialsStep(grounds));
  return steps;
}

/** Whether a step has told how a grid comes home because it detects there. */
function isGridDetector(step: TourStep | undefined): boolean {
  return step?.overlay.id.startsWith('bias') ?? false;
}

function actionStep(
  grounds: Grounds,
  place: Place,
  idOf: (wanted: string) => string,
): TourStep | undefined {
  const { part, use, isOnWay } = place;
  if (use === 'oscillator') return oscillatorStep(grounds, place, idOf(`oscillator-${part.name}`));
  if (!isOnWay) return undefined;
  if (use === 'detector' || use === 'mixer' || part.kind === 'crystal')
    return detectionStep(grounds, place, idOf(`detection-${part.name}`));
  return signalStep(grounds, place, idOf(`signal-${part.name}`));
}

/** Makes ids that a link can carry, each once. */
function unusedIds(): (wanted: string) => string {
  const used = new Set<string>();
  return (wanted) => {
    const plain = wanted
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-|-$/g, '');
    let id = plain === '' ? 'step' : plain;
    for (let count = 2; used.has(id); count++) id = `${plain}-${count}`;
    used.add(id);
    return id;
  };
}
