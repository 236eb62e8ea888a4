import { directPath, type Finding, type Part, type Step } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import { signalGroups } from '../audio/signal-groups.ts';
import type { Check } from '../check.ts';
import { revalued } from '../fixes/edits.ts';
import type { Study } from '../study.ts';
import { plateFeeds } from '../supplies/plate-feed.ts';
import type { TubeAt } from '../tubes/tubes.ts';
import { alsoPart, finding } from '../words/finding.ts';

/** The part of the plate resistance that a load should have at the least. Common practice. */
const LEAST_LOAD = 0.1;
/** The frequency at which a load's impedance is told, in hertz. Common practice. */
const TELLING_FREQUENCY = 1000;
/**
 * No phones or loudspeaker have more impedance than this many times their ohms. Five to eight is
 * the usual guess; a guess is not enough to judge by, so the bound is far beyond it.
 */
const MOST_IMPEDANCE_OVER_OHMS = 20;
/** More than this in series, in ohms, is a load of its own. */
const MOST_SERIES_OHMS = 1000;

/** Phones or a loudspeaker far too low for the tube that drives them straight. */
export const loadDoesNotSuit: Check = {
  id: 'load-does-not-suit',
  group: 'Audio and ratings',
  severity: 'warning',
  summary:
    'Phones or a loudspeaker below a tenth of the plate resistance, with no transformer between.',
  why: 'Nearly all of the power then stays in the tube: the sound is a whisper, and the plate current may be more than a fine modern winding bears.',
  silent: [
    'A load behind a transformer.',
    'A load behind a choke and a condenser, or beside a choke.',
    'A load of unknown impedance: its ohms alone tell it only where they are very few.',
    'A tube whose type has no published plate resistance.',
    'Screen-grid tubes and pentodes, which work into far less than their plate resistance.',
    'Phones in series with another load.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: setWith('32'),
  passes: setWith('2000'),
  find(study) {
    const { circuit, conduction, tubes } = study;
    const resistances = tubes.flatMap((tube) => plateResistance(tube) ?? []);
    const most = resistances.reduce((a, b) => Math.max(a, b), 0) * LEAST_LOAD;
    const suspects = circuit.parts.filter((part) => {
      const ohms = impedanceOf(part);
      return ohms !== undefined && ohms < most;
    });
    if (suspects.length === 0) return [];
    const groups = signalGroups(conduction, tubes);
    return suspects.flatMap((load) => {
      const drivers = new Set(
        load.ends.flatMap(({ junction }) => groups.plates.get(groups.of[junction] ?? -1) ?? []),
      );
      const [tube] = drivers;
      return tube && drivers.size === 1 ? judged(study, load, tube) : [];
    });
  },
};

/** The most impedance that a load can have, in ohms; undefined where it is not known. */
function impedanceOf({ kind, values }: Part): number | undefined {
  if (kind !== 'phones' && kind !== 'horn' && kind !== 'speaker') return undefined;
  const ohms = values.resistance?.value;
  const henries = values.inductance?.value;
  if (henries !== undefined)
    return Math.hypot(ohms ?? 0, 2 * Math.PI * TELLING_FREQUENCY * Math.max(0, henries));
  return ohms === undefined ? undefined : Math.max(0, ohms) * MOST_IMPEDANCE_OVER_OHMS;
}

/** The least plate resistance that a type is published with, in ohms. */
function plateResistance({ part: { tubeType } }: TubeAt): number | undefined {
  if (!tubeType || tubeType.screen || tubeType.pentode) return undefined;
  const published = tubeType.points.flatMap(({ plateResistance: ohms }) => ohms ?? []);
  return published.length > 0 ? published.reduce((a, b) => Math.min(a, b)) : undefined;
}

function judged(study: Study, load: Part, tube: TubeAt): Finding[] {
  const { conduction } = study;
  const rp = plateResistance(tube);
  const impedance = impedanceOf(load);
  if (rp === undefined || impedance === undefined || impedance >= rp * LEAST_LOAD) return [];
  if (!tube.plate) return [];
  const feeds = plateFeeds(conduction);
  const isTap = (junction: number): boolean => feeds.get(junction)?.distance === 0;
  const options = { throughSources: false };
  const path = directPath(conduction, tube.plate.junction, isTap, options);
  if (!path.found || !path.steps.some(({ part }) => part === load.name)) return [];
  if (path.steps.some((step) => step.part !== load.name && isOtherLoad(study, step))) return [];
  const beside = directPath(conduction, tube.plate.junction, isTap, {
    ...options,
    skip: new Set([load.name]),
  });
  if (beside.found) return [];
  const said = load.values.inductance ? impedance : (load.values.resistance?.value ?? 0);
  const ratio = Math.sqrt(rp / Math.max(1, said));
  return [
    finding({
      check: 'load-does-not-suit',
      severity: 'warning',
      message: `${load.name} of ${formatQuantity(said, 'resistance')} is far too low a load for ${tube.part.name}, a ${tube.part.typeName} of ${formatQuantity(rp, 'resistance')} plate resistance.`,
      why: 'Nearly all of the power stays in the tube, and only a whisper comes out.',
      cure: `Put an output transformer of about ${formatQuantity(ratio, 'ratio', 'period', 2)} to 1 between ${tube.part.name} and ${load.name}, or use ones of 1000 ohms or more.`,
      place: load.place,
      related: [alsoPart(tube.part, `its plate works straight into ${load.name}`)],
      parts: [load.name],
      fixes: revalued(load, 'resistance', '2000 ohms'),
    }),
  ];
}

function isOtherLoad({ circuit }: Study, { part: name, direct }: Step): boolean {
  const part = circuit.partNamed.get(name);
  const owner = part?.owner === undefined ? undefined : circuit.partNamed.get(part.owner);
  const ohms = direct.kind === 'conducts' ? direct.ohms : 0;
  switch (part?.kind) {
    case 'winding':
      return owner?.kind === 'transformer' && !owner.words.has('air');
    case 'choke':
      return !part.words.has('air');
    case 'phones':
    case 'horn':
    case 'speaker':
      return true;
    case 'resistor':
    case 'leak':
    case 'potentiometer':
      return (ohms ?? MOST_SERIES_OHMS) >= MOST_SERIES_OHMS;
    default:
      return false;
  }
}

function setWith(ohms: string): string {
  return `receiver "Harbour office" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+45
  }
  post ANT aerial
  post GND ground
  wire B- to A- to GND
  rheostat RH1 20 ohms from A- to V1.filament- set 4 ohms
  detector stage DET {
    coil L1 {
      form 3 in
      winding aerial 12 turns of 24 DCC from GND to ANT
      winding secondary 44 turns of 24 DCC beside aerial spaced 1/4 in from GND
    }
    condenser C1 variable 20 to 500 mmfd rotor to GND stator to L1.secondary.finish
    crystal CR1 from L1.secondary.finish to T1.primary.start
    condenser C2 .001 mfd across T1.primary
  }
  output stage AF {
    transformer T1 ratio 1 to 3 {
      winding primary 800 ohms to GND
      winding secondary 5000 ohms from GND to V1.grid
    }
    tube V1 01-A {
      filament to A+
      plate to PH1.start
    }
    phones PH1 ${ohms} ohms from V1.plate to B+45
  }
}
`;
}
