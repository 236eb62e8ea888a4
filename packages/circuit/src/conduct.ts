import type { Branch, Direct } from './branch.ts';
import type { End, Part } from './model.ts';
import { positionOf, type Settings } from './settings.ts';

/** How one kind of part behaves at direct current: the branches between its ends. */
export type Conduct = (part: Part, settings: Settings) => readonly Branch[];

function branch(part: Part, from: End | undefined, to: End | undefined, direct: Direct): Branch[] {
  return from && to ? [{ part: part.name, from: from.id, to: to.id, direct }] : [];
}

function end(part: Part, name: string): End | undefined {
  return part.ends.find((candidate) => candidate.name === name);
}

/** Ohms the text gives for a slot, or undefined. */
function ohms(part: Part, slot = 'resistance'): number | undefined {
  return part.values[slot]?.value;
}

/** A travel kept between the two stops. */
function clamped(travel: number): number {
  return Math.min(1, Math.max(0, travel));
}

/** No two ends have anything between them: posts, buses, shields. */
export const nothingBetween: Conduct = () => [];

/** Blocks between its first two ends. */
export function blocks(because: string): Conduct {
  return (part) => branch(part, part.ends[0], part.ends[1], { kind: 'blocks', because });
}

/** Conducts between its first two ends with the resistance the text gives. */
export function conducts(because: string): Conduct {
  return (part) =>
    branch(part, part.ends[0], part.ends[1], { kind: 'conducts', ohms: ohms(part), because });
}

/** A winding or a tapped resistor: a chain start, taps in order, finish. */
export function conductsThroughTaps(because: string): Conduct {
  return (part) => {
    const total = ohms(part);
    const marks = [...part.taps]
      .map((tap, order) => ({ tap, order }))
      .sort((a, b) => (a.tap.fraction ?? 0.5) - (b.tap.fraction ?? 0.5) || a.order - b.order);
    const chain: { end: End | undefined; fraction: number | undefined }[] = [
      { end: end(part, 'start'), fraction: 0 },
      ...marks.map(({ tap }) => ({ end: end(part, tap.end), fraction: tap.fraction })),
      { end: end(part, 'finish'), fraction: 1 },
    ];
    return chain.slice(1).flatMap((stop, index) => {
      const before = chain[index];
      const share =
        before?.fraction !== undefined && stop.fraction !== undefined
          ? Math.abs(stop.fraction - before.fraction)
          : undefined;
      return branch(part, before?.end, stop.end, {
        kind: 'conducts',
        ohms: total !== undefined && share !== undefined ? total * share : undefined,
        because,
      });
    });
  };
}

/** A rheostat: the part of its wire that is in use, unless it stands at its off stop. */
export const rheostat: Conduct = (part, settings) => {
  const travel = settings.travels.get(part.name);
  const total = ohms(part);
  if (travel === undefined && part.setting?.kind === 'off') {
    return branch(part, part.ends[0], part.ends[1], {
      kind: 'blocks',
      because: 'it is turned to its off stop',
    });
  }
  let inUse = total;
  if (travel !== undefined && total !== undefined) inUse = total * clamped(travel);
  else if (part.setting?.kind === 'ohms') inUse = part.setting.ohms;
  else if (part.setting?.kind === 'fraction' && total !== undefined)
    inUse = total * clamped(part.setting.fraction);
  return branch(part, part.ends[0], part.ends[1], {
    kind: 'conducts',
    ohms: inUse,
    because: 'its wire carries the current',
  });
};

/** A potentiometer: start to arm to finish, divided as it is set (half way where nothing is said). */
export const potentiometer: Conduct = (part, settings) => {
  const total = ohms(part);
  const said = part.setting?.kind === 'fraction' ? part.setting.fraction : undefined;
  const byOhms = part.setting?.kind === 'ohms' && total ? part.setting.ohms / total : undefined;
  const travel = clamped(settings.travels.get(part.name) ?? said ?? byOhms ?? 0.5);
  const because = 'its wire carries direct current to the arm';
  const piece = (share: number): Direct => ({
    kind: 'conducts',
    ohms: total === undefined ? undefined : total * share,
    because,
  });
  return [
    ...branch(part, end(part, 'start'), end(part, 'arm'), piece(travel)),
    ...branch(part, end(part, 'arm'), end(part, 'finish'), piece(1 - travel)),
  ];
};

/** A tube: its filament or heater conducts; its cold electrodes make no path. */
export const tube: Conduct = (part, settings) => {
  const removed = settings.removed.has(part.name);
  const emitter = end(part, 'cathode') ?? end(part, 'filament-');
  const cold = ['grid', 'plate', 'screen'].flatMap((name) =>
    branch(part, end(part, name), emitter, {
      kind: 'blocks',
      because: removed
        ? 'the tube is out of its socket'
        : `its ${name} touches nothing in the tube`,
    }),
  );
  if (removed) {
    return [
      ...branch(part, end(part, 'filament-'), end(part, 'filament+'), {
        kind: 'blocks',
        because: 'the tube is out of its socket',
      }),
      ...cold,
    ];
  }
  const volts = part.tubeType?.filamentVolts;
  const amperes = part.tubeType?.filamentAmperes;
  const hot = volts !== undefined && amperes ? volts / amperes : undefined;
  return [
    ...branch(part, end(part, 'filament-'), end(part, 'filament+'), {
      kind: 'conducts',
      ohms: hot,
      because: part.tubeType?.heated ? 'the heater is a wire' : 'the filament is a wire',
    }),
    ...cold,
  ];
};

/** Contacts of a switch, selector or jack: closed or open at the position it stands at. */
export const contacts: Conduct = (part, settings) => {
  const position = positionOf(part, settings);
  const at = part.positions[position] ? ` (${part.positions[position]})` : '';
  return part.contacts.map((contact) => ({
    part: part.name,
    from: contact.from,
    to: contact.to,
    direct: contact.closedAt.includes(position)
      ? { kind: 'conducts', ohms: 0, because: `its contact is closed${at}` }
      : { kind: 'blocks', because: `its contact is open${at}` },
  }));
};

/** A battery or eliminator: every tap against the supply's own zero. */
export const supply: Conduct = (part) => {
  const zero = part.supplyTaps.find((tap) => tap.volts === 0) ?? part.supplyTaps[0];
  if (!zero) return [];
  return part.supplyTaps
    .filter((tap) => tap !== zero)
    .flatMap((tap) =>
      branch(part, end(part, zero.end), end(part, tap.end), {
        kind: 'source',
        volts:
          tap.volts === undefined || zero.volts === undefined ? undefined : tap.volts - zero.volts,
        ohms: tap.resistance ?? ohms(part),
        because: 'the cells carry the current',
      }),
    );
};
