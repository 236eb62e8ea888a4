import { type JoinedBranch, type Part, supposedOhms } from '@setwright/circuit';
import { crystalCurrent } from '../crystal-law.ts';
import type { NetworkDraft } from './network-draft.ts';
import type { SignalPoint } from './signal-point.ts';

/** Kinds that are a resistance to any signal. */
const RESISTIVE: ReadonlySet<string> = new Set([
  'lead',
  'resistor',
  'leak',
  'rheostat',
  'potentiometer',
  'ballast',
  'lamp',
  'fuse',
  'crystal',
]);

/** Siemens that stand for a joint of no resistance. */
const MOST_SIEMENS = 1e4;

/** Takes up resistances as they are set, and filaments hot. */
export function addResistances(draft: NetworkDraft, point: SignalPoint): void {
  const { circuit, conduction } = draft;
  const held = new Map(point.controls.map(({ part, ohms }) => [part, ohms]));
  const hot = new Map(
    point.tubes.flatMap(({ tube, filamentVolts, filamentAmperes }) => {
      const ohms = (filamentVolts?.value ?? 0) / (filamentAmperes?.value ?? 0);
      return Number.isFinite(ohms) && ohms > 0 ? [[tube, ohms] as const] : [];
    }),
  );
  for (const branch of conduction.branches) {
    const part = circuit.partNamed.get(branch.part);
    if (!part || branch.direct.kind !== 'conducts') continue;
    const isFilament = part.kind === 'tube';
    if (!isFilament && !RESISTIVE.has(part.kind)) continue;
    if (part.kind === 'crystal') {
      addCrystal(draft, point, part);
      continue;
    }
    if (part.kind === 'potentiometer' && isArmSupposed(part, conduction))
      draft.assumed.add(`${part.name} is set half way`);
    const told = held.get(part.name) ?? hot.get(part.name) ?? branch.direct.ohms;
    const ohms = told ?? supposed(draft, branch);
    const from = draft.pointOf(branch.fromJunction);
    const to = draft.pointOf(branch.toJunction);
    if (from === to || !(ohms >= 0) || !Number.isFinite(ohms)) continue;
    draft.conductances.push({
      from,
      to,
      siemens: Math.min(MOST_SIEMENS, 1 / ohms),
      origin: { part: part.name, from: branch.from, to: branch.to },
    });
  }
}

/** Whether a potentiometer's arm stands half way because nothing says where it does. */
function isArmSupposed({ name, setting }: Part, { settings }: NetworkDraft['conduction']): boolean {
  return setting === undefined && !settings.travels.has(name);
}

/** A crystal by the slope of its current where it rests. */
function addCrystal(draft: NetworkDraft, point: SignalPoint, part: Part): void {
  const [first, second] = part.ends;
  const whisker = part.ends.find(({ name }) => name === 'whisker') ?? second;
  const mineral = part.ends.find(({ name }) => name === 'mineral') ?? first;
  if (!whisker || !mineral) return;
  const from = draft.pointOf(whisker.junction);
  const to = draft.pointOf(mineral.junction);
  const volts = point.voltage(whisker.id, mineral.id) ?? 0;
  draft.assumed.add(`${part.name} is a good spot on a usual crystal`);
  if (from === to) return;
  draft.conductances.push({
    from,
    to,
    siemens: crystalCurrent(volts).slope,
    origin: { part: part.name, from: whisker.id, to: mineral.id },
  });
}

function supposed({ circuit, assumed }: NetworkDraft, branch: JoinedBranch): number {
  const { ohms, because } = supposedOhms(circuit, branch);
  assumed.add(`${branch.part} is ${because}`);
  return ohms;
}
