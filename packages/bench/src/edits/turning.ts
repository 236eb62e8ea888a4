import { isSupply, type Part } from '@setwright/circuit';
import { junctionOf, replace, type Workbench } from './workbench.ts';

/** `reverse P`: its two leads exchanged; of a battery, its lowest and highest lead. */
export function reverse(bench: Workbench, target: string): void {
  const part = bench.parts.get(target);
  const [first, last] = part ? outerEnds(part) : [];
  if (!part || first === undefined || last === undefined) {
    bench.refused.push(`${target} has no two leads to be exchanged`);
    return;
  }
  exchange(bench, first, last);
}

function outerEnds(part: Part): readonly (string | undefined)[] {
  const id = (name: string | undefined) => part.ends.find((end) => end.name === name)?.id;
  if (isSupply(part)) {
    const taps = part.supplyTaps
      .flatMap(({ end, volts }) => (volts === undefined ? [] : { end, volts }))
      .sort((a, b) => a.volts - b.volts);
    return [id(taps[0]?.end), id(taps.at(-1)?.end)];
  }
  if (part.kind === 'tube') return [id('filament-'), id('filament+')];
  const finish = id('finish');
  return finish === undefined
    ? [part.ends[0]?.id, part.ends[1]?.id]
    : [id('start') ?? part.ends[0]?.id, finish];
}

/** `swap X with Y`: two terminals exchanged, or two parts of a kind in each other's place. */
export function swap(bench: Workbench, target: string, other: string | undefined): void {
  const [one, two] = [bench.parts.get(target), bench.parts.get(other ?? '')];
  if (one && two && one.kind === two.kind) {
    replace(bench, inPlaceOf(one, two));
    replace(bench, inPlaceOf(two, one));
    return;
  }
  const [a, b] = [terminalOf(bench, target), terminalOf(bench, other ?? '')];
  if (a === undefined || b === undefined) {
    bench.refused.push(`${target} and ${other ?? 'nothing'} are not two of a kind`);
    return;
  }
  exchange(bench, a, b);
}

/** What a part is, at the ends of another. */
function inPlaceOf(place: Part, what: Part): Part {
  return {
    ...what,
    name: place.name,
    owner: place.owner,
    stage: place.stage,
    ends: place.ends,
    contacts: place.contacts,
    taps: place.taps,
    positions: place.positions,
    drawnAt: place.drawnAt,
    // A supply's taps keep their names; what they give comes from the other.
    supplyTaps: place.supplyTaps.map((tap, index) => {
      const from = what.supplyTaps[index];
      return from ? { ...tap, volts: from.volts, resistance: from.resistance } : tap;
    }),
  };
}

function terminalOf(bench: Workbench, name: string): string | undefined {
  if (junctionOf(bench, name) !== undefined) return name;
  const part = bench.parts.get(name);
  return part?.ends.length === 1 ? part.ends[0]?.id : undefined;
}

function exchange(bench: Workbench, one: string, other: string): void {
  const [a, b] = [junctionOf(bench, one), junctionOf(bench, other)];
  if (a === undefined || b === undefined || a === b) return;
  bench.moved.set(one, b);
  bench.moved.set(other, a);
}
