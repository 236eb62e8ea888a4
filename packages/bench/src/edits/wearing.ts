import { coilMatrix, wearSlots, windingLoss } from '@setwright/analysis';
import { isSupply, type Part, spread } from '@setwright/circuit';
import type { Amount } from './edit.ts';
import { DEAD_CRYSTAL, GAS_CURRENT, tired, WEAK_TUBE } from './usual-faults.ts';
import { addBetween, junctionOf, replace, type Workbench, writtenValue } from './workbench.ts';

/** `weak P`: a tired tube, a run-down battery or one block of it, a crystal at a dead spot. */
export function weak(bench: Workbench, target: string, amount: Amount | undefined): void {
  const part = bench.parts.get(target);
  const owner = bench.before.circuit.partOfEnd.get(target);
  if (part?.kind === 'tube') weakTube(bench, part, amount);
  else if (part && isSupply(part)) weakSupply(bench, part, amount);
  else if (!part && owner && isSupply(owner)) weakBlock(bench, owner, target, amount);
  else if (part?.kind === 'crystal') {
    const ohms = writtenValue({ value: DEAD_CRYSTAL, dimension: 'resistance' }, part);
    replace(bench, { ...part, kind: 'resistor', values: { ...part.values, resistance: ohms } });
  } else if (!part || !SOUNDING.has(part.kind))
    bench.refused.push(`how ${target} could be weak is not known`);
}

/** What a weak magnet or a rusted diaphragm does is heard, and no current tells of it. */
const SOUNDING: ReadonlySet<string> = new Set(['horn', 'speaker', 'phones']);

/**
 * A tired filament can emit this many times what it is left to draw at the greatest current that is
 * printed for the type. From memory of tube tests.
 */
const RESERVE = 1.5;

/**
 * A tube of which only a part of the filament still emits: it draws by that part, and has little
 * more to give, so that a few tenths of a volt on the filament tell.
 */
function weakTube(bench: Workbench, part: Part, amount: Amount | undefined): void {
  const share = amount?.dimension === 'percent' ? amount.value : WEAK_TUBE;
  const points = part.tubeType?.points ?? [];
  const printed = points.length > 0 ? Math.max(...points.map((at) => at.plateAmperes ?? 0)) : 0;
  if (!(printed > 0) || !(share > 0 && share < 1)) {
    bench.refused.push(
      !(printed > 0)
        ? `no printed plate current of ${part.name} is known`
        : `a weak tube gives some part of its current, more than 0 % and less than 100 %`,
    );
    return;
  }
  const worn = withWear(part, wearSlots.draw, share);
  replace(bench, withWear(worn, wearSlots.emission, RESERVE * share * printed));
}

/** `gas V Q`: so much ion current to its grid while its plate draws what is printed. */
export function gas(bench: Workbench, target: string, amount: Amount | undefined): void {
  const part = bench.parts.get(target);
  const printed = part?.tubeType?.points[0]?.plateAmperes;
  if (part?.kind !== 'tube' || !printed) {
    bench.refused.push(`${target} is no tube of which a plate current is known`);
    return;
  }
  replace(bench, withWear(part, wearSlots.gas, (amount?.value ?? GAS_CURRENT) / printed));
}

function withWear(part: Part, slot: string, value: number): Part {
  const worn = writtenValue({ value, dimension: 'ratio' }, part);
  return { ...part, values: { ...part.values, [slot]: worn } };
}

/** A supply whose volts have all gone down together, and whose resistance has gone up. */
function weakSupply(bench: Workbench, part: Part, amount: Amount | undefined): void {
  const usual = tired(part);
  const whole = spread(part);
  const share =
    amount?.dimension === 'voltage'
      ? amount.value / whole
      : amount?.dimension === 'percent'
        ? amount.value
        : usual.share;
  if (!(whole > 0) || !(share >= 0) || !Number.isFinite(share)) {
    bench.refused.push(`the volts of ${part.name} are not known`);
    return;
  }
  const { ohms } = usual;
  const before = part.values.resistance?.value ?? 0;
  const resistance =
    ohms !== undefined && ohms > before
      ? { resistance: writtenValue({ value: ohms, dimension: 'resistance' }, part) }
      : {};
  replace(bench, {
    ...part,
    values: { ...part.values, ...resistance },
    supplyTaps: part.supplyTaps.map((tap) =>
      tap.volts === undefined ? tap : { ...tap, volts: tap.volts * share },
    ),
  });
}

/** The one block below a tap is tired: all taps above it stand lower. */
function weakBlock(
  bench: Workbench,
  owner: Part,
  terminal: string,
  amount: Amount | undefined,
): void {
  const name = owner.ends.find(({ id }) => id === terminal)?.name;
  const taps = owner.supplyTaps
    .flatMap((tap) => (tap.volts === undefined ? [] : { ...tap, volts: tap.volts }))
    .sort((a, b) => a.volts - b.volts);
  const at = taps.findIndex(({ end }) => end === name);
  const [below, tap] = [taps[at - 1], taps[at]];
  if (!tap || !below) {
    bench.refused.push(`no block of ${owner.name} ends at ${name ?? terminal}`);
    return;
  }
  const whole = tap.volts - below.volts;
  const usual = tired(owner);
  const left =
    amount?.dimension === 'voltage'
      ? amount.value - below.volts
      : whole * (amount?.dimension === 'percent' ? amount.value : usual.share);
  const lost = whole - left;
  const of = (usual.ohms ?? 0) * (whole / spread(owner));
  const said = owner.values.resistance?.value;
  const ohms = Math.max(of, said === undefined ? 0 : (said * whole) / spread(owner));
  replace(bench, {
    ...owner,
    supplyTaps: owner.supplyTaps.map((each) => {
      if (each.volts === undefined || each.volts < tap.volts) return each;
      const volts = each.volts - lost;
      return each.end === name && ohms > 0
        ? { ...each, volts, resistance: ohms }
        : { ...each, volts };
    }),
  });
}

/** `damped P to Q N`: a coil that loses more, as across it a resistance would. */
export function damped(
  bench: Workbench,
  target: string,
  amount: Amount | undefined,
  frequency: number,
): void {
  const part = bench.parts.get(target);
  const { circuit } = bench.before;
  const values =
    part &&
    coilMatrix(circuit, part.owner ?? '')?.windings.find((each) => each.part.name === target);
  const henries = values?.inductance.value;
  const wanted = amount?.value ?? 0;
  const [first, second] = part?.ends ?? [];
  if (!part || !values || henries === undefined || !(wanted > 0) || !first || !second) {
    bench.refused.push(`the inductance of ${target} is not known`);
    return;
  }
  const own = windingLoss(values, frequency).q.value;
  const excess = 1 / wanted - (own === undefined ? 0 : 1 / own);
  // It is no better than it is.
  if (!(excess > 0)) return;
  const ohms = (2 * Math.PI * frequency * henries) / excess;
  const [from, to] = [junctionOf(bench, first.id), junctionOf(bench, second.id)];
  if (from === undefined || to === undefined || from === to) return;
  const loss: Amount = { value: ohms, dimension: 'resistance' };
  addBetween(
    bench,
    part,
    { name: `loss in ${target}`, kind: 'resistor', amount: loss, within: target },
    from,
    to,
  );
}
