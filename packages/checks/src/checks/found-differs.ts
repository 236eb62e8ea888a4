import { type OperatingPoint, operatingPoint, type TubeAtWork } from '@setwright/analysis';
import { asOn, type Finding, type Part } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { sampleSet } from '../examples/sample-set.ts';
import { type FoundPart, foundOf, toleranceOf, withFound } from '../sizes/found-parts.ts';
import { type Played, partsPlayed } from '../sizes/parts-played.ts';
import type { Study } from '../study.ts';
import { aboutAmperes, aboutVolts } from '../words/about.ts';
import { percent } from '../words/filament-words.ts';
import { alsoPart, finding } from '../words/finding.ts';

/** The set minds when a plate current changes by this part, or a filament's volts by that. */
const MINDED_PLATE = 0.2;
const MINDED_FILAMENT = 0.05;
/** A plate that draws less than this draws nothing, in amperes. */
const NO_CURRENT = 1e-5;
/**
 * For each of so many parts it is reckoned what the set makes of it: each is a whole solution, so
 * that in a very large set there are fewer.
 */
const MOST_RECKONED = 8;
const PARTS_RECKONED = 4000;
/** A leak or a coupling condenser may be off by this many times and do. Common practice. */
const EASY_TIMES = 2;
/** Leaks that do for a detector of which the type's data say nothing, in ohms. Common practice. */
const USUAL_LEAKS: readonly [number, number] = [1e6, 5e6];

/** A part that was found outside its tolerance. */
export const foundDiffers: Check = {
  id: 'found-differs',
  group: 'Audio and ratings',
  severity: 'warning',
  summary: 'A part that was found outside its tolerance; says whether the set minds.',
  why: 'A part that has drifted far is on its way out, and a set that was right on paper is not right on the bench.',
  silent: [
    'A part within its stated tolerance.',
    'Without one, as parts were made: leaks within 30 %; condensers, resistors, chokes, audio windings, horns and phones within 20 %; rheostats and potentiometers within 10 %.',
    'A part of which no such figure is known, such as an air-core winding, and no tolerance is stated.',
    'What the set does not mind is information: a leak of 3 megohms for one of 2.',
    'A found value with nothing printed to hold it against.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: withFoundSecond('found 26 kilohms'),
  passes: withFoundSecond('found 830 ohms'),
  find(study) {
    const { circuit } = study;
    const found = circuit.parts.flatMap((part) => {
      const each = foundOf(part);
      return each && differs(study, each) ? [each] : [];
    });
    if (found.length === 0) return [];
    const played = partsPlayed(study);
    const most = Math.min(MOST_RECKONED, Math.ceil(PARTS_RECKONED / circuit.parts.length));
    return found.map((each, index) =>
      told(each, verdict(study, each, played.get(each.part.name), index < most)),
    );
  },
};

function differs({ circuit }: Study, each: FoundPart): boolean {
  if (each.kind !== 'value') return true;
  const tolerance = toleranceOf(circuit, each.part);
  if (!tolerance) return false;
  return Math.abs(each.found.value / each.wanted.value - 1) > tolerance.share * (1 + 1e-9);
}

/** Whether the set minds, and the sentence that says why; undefined where it cannot be told. */
interface Verdict {
  readonly minds: boolean | undefined;
  readonly because: string;
  readonly tube?: Part | undefined;
}

function verdict(
  study: Study,
  each: FoundPart,
  played: Played | undefined,
  isReckoned: boolean,
): Verdict {
  const byRole = each.kind === 'value' ? verdictByRole(study, each, played) : undefined;
  if (byRole) return byRole;
  const byRest = isReckoned ? verdictAtRest(study, each) : undefined;
  if (byRest?.minds) return byRest;
  if (each.kind !== 'value')
    return {
      minds: true,
      because:
        each.kind === 'open'
          ? `Nothing passes through ${each.part.name} any more.`
          : `${each.part.name} is as good as a wire.`,
    };
  if (isIronWinding(study, each.part) && each.found.value < each.wanted.value)
    return { minds: undefined, because: 'Turns of it may be shorted, which takes the low notes.' };
  if (each.slot === 'resistance' && byRest) return byRest;
  return { minds: undefined, because: 'Whether the set minds is not known.' };
}

function isIronWinding({ circuit }: Study, { kind, owner }: Part): boolean {
  const whole = owner === undefined ? undefined : circuit.partNamed.get(owner);
  return kind === 'winding' && whole?.kind === 'transformer' && !whole.words.has('air');
}

type FoundValue = Extract<FoundPart, { readonly kind: 'value' }>;

/** What is known of parts by what they are for, where the state of rest says nothing. */
function verdictByRole(
  { circuit }: Study,
  { found, wanted, slot }: FoundValue,
  played: Played | undefined,
): Verdict | undefined {
  const times = found.value / wanted.value;
  const isNear = times <= EASY_TIMES && times >= 1 / EASY_TIMES;
  if (played?.role === 'grid leak' && slot === 'resistance') {
    const type = circuit.partNamed.get(played.tube)?.tubeType;
    const [low, high] = type?.detector?.leak ?? USUAL_LEAKS;
    const range = `${formatQuantity(low, 'resistance')} to ${formatQuantity(high, 'resistance')}`;
    const name = type ? `The ${type.name} as a detector` : 'A detector';
    if (found.value >= low && found.value <= high)
      return { minds: false, because: `The set does not mind: ${lower(name)} takes ${range}.` };
    const how =
      found.value > high
        ? 'it chokes on strong stations and recovers slowly'
        : 'it loads the tuned circuit and loses weak stations';
    return { minds: true, because: `${name} takes ${range}; with this one ${how}.` };
  }
  if (slot !== 'capacitance') return undefined;
  if (played?.role === 'radio bypass') {
    if (times >= 1)
      return isNear
        ? { minds: false, because: 'The set does not mind: a bypass may be larger.' }
        : { minds: undefined, because: 'More than twice too large it may take the treble.' };
    return isNear
      ? { minds: false, because: 'The set hardly minds: it still lets the radio current home.' }
      : { minds: true, because: 'Too small, it leaves the radio current another way home.' };
  }
  if (played?.role === 'grid condenser')
    return isNear
      ? {
          minds: false,
          because: 'The set hardly minds: a detector does with half or twice as much.',
        }
      : { minds: true, because: 'The detector rectifies poorly with it, or loses the treble.' };
  return undefined;
}

const lower = (words: string): string => words.charAt(0).toLowerCase() + words.slice(1);

/** What the set does at rest with this part as found. */
function verdictAtRest(study: Study, { part }: FoundPart): Verdict | undefined {
  const { operating } = study;
  if (!operating.converged) return undefined;
  const circuit = withFound(study.circuit, part.name);
  const found = operatingPoint(circuit, asOn(circuit).settings, { laws: study.laws });
  if (!found.converged) return undefined;
  const worst = mostChanged(operating, found);
  const tube = worst && study.circuit.partNamed.get(worst.tube);
  if (!worst) return { minds: false, because: 'The set does not mind: no tube works otherwise.' };
  return { minds: true, because: `The set minds: ${worst.words}.`, tube };
}

function mostChanged(
  before: OperatingPoint,
  after: OperatingPoint,
): { readonly tube: string; readonly words: string } | undefined {
  const then = new Map(after.tubes.map((each) => [each.tube, each]));
  let worst: { readonly tube: string; readonly words: string } | undefined;
  let most = 1;
  for (const was of before.tubes) {
    const is = then.get(was.tube);
    if (!is) continue;
    const changed = changeOf(was, is);
    if (!changed || changed.times <= most) continue;
    most = changed.times;
    worst = { tube: was.tube, words: changed.words };
  }
  return worst;
}

function changeOf(
  was: TubeAtWork,
  is: TubeAtWork,
): { readonly times: number; readonly words: string } | undefined {
  const [lit, nowLit] = [was.filamentVolts?.value, is.filamentVolts?.value];
  if (lit !== undefined && nowLit !== undefined && Math.abs(lit) > 0) {
    const times = Math.abs(nowLit - lit) / Math.abs(lit) / MINDED_FILAMENT;
    if (times > 1)
      return {
        times,
        words: `the filament of ${was.tube} gets ${aboutVolts(Math.abs(nowLit))} in place of ${aboutVolts(Math.abs(lit))}`,
      };
  }
  if (was.bias && is.freeGrid) return { times: 20, words: `the grid of ${was.tube} floats` };
  const [drew, draws] = [was.plateCurrent?.value, is.plateCurrent?.value];
  if (drew === undefined || draws === undefined) return undefined;
  const times = Math.abs(draws - drew) / Math.max(drew, NO_CURRENT) / MINDED_PLATE;
  if (!(times > 1)) return undefined;
  const words =
    draws < NO_CURRENT
      ? `the plate of ${was.tube} draws nothing in place of ${aboutAmperes(drew)}`
      : `the plate of ${was.tube} draws ${aboutAmperes(draws)} in place of ${aboutAmperes(drew)}`;
  return { times, words };
}

function told(each: FoundPart, { minds, because, tube }: Verdict): Finding {
  const { part } = each;
  return finding({
    check: 'found-differs',
    severity: minds ? 'warning' : 'information',
    message: `${part.name} was found ${wordsFor(each)}.`,
    why: because,
    cure:
      minds === false
        ? `Leave ${part.name} as it is, and note it in the service sheet.`
        : minds
          ? `Mend or replace ${part.name}, and keep the old part.`
          : `Measure ${part.name} once more with an end lifted; replace it if it is so.`,
    place: part.values.found?.place ?? part.place,
    related: tube ? [alsoPart(tube, 'the tube that minds')] : [],
    parts: [part.name],
  });
}

function wordsFor(each: FoundPart): string {
  if (each.kind !== 'value') return each.kind === 'open' ? 'open' : 'shorted';
  const { found, wanted } = each;
  const said = (value: number): string => formatQuantity(value, found.dimension);
  const off = found.value / wanted.value - 1;
  const much =
    Math.abs(off) < 1
      ? `${percent(Math.abs(off))} too ${off > 0 ? 'much' : 'little'}`
      : `${formatQuantity(off + 1, 'ratio', 'period', 2)} times as much`;
  return `to be ${said(found.value)} where ${said(wanted.value)} belong, ${much}`;
}

function withFoundSecond(found: string): string {
  return sampleSet([
    'winding primary 14 H 800 ohms from V2.plate',
    `winding primary 14 H 800 ohms ${found} from V2.plate`,
  ]);
}
