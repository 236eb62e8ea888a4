import type { Draft, Join, Line } from './draft.ts';

/** Every statement of a set, those inside blocks too. */
const everyLine = (lines: readonly Line[]): Line[] =>
  lines.flatMap((line) => [line, ...everyLine(line.block ?? [])]);

/** Words after which the name of an end stands. */
const joining = (join: Join): boolean =>
  !['across', 'into', 'around', 'drives', 'through'].includes(join.led);

/** Takes parts out of a set with everything that names them, and leaves ends in the air. */
export function leaveUnfinished(draft: Draft): void {
  const { chance } = draft;
  const gone = new Set<string>();
  const parts = everyLine(draft.lines).filter(
    ({ part, words }) => part !== undefined && !/^(battery|eliminator|post GND|bus)/.test(words),
  );
  for (let count = chance.below(5); count > 0; count--) {
    const name = chance.one(parts).part;
    if (name !== undefined) gone.add(name);
  }
  const isGone = (target: string): boolean =>
    [...gone].some((name) => target === name || target.startsWith(`${name}.`));
  for (const { words } of draft.lines) {
    const gang = /^gang (\S+) (.*)$/.exec(words);
    if (gang?.[2]?.split(', ').every(isGone)) gone.add(gang[1] as string);
  }
  take(draft.lines, isGone);
  const ends = everyLine(draft.lines).flatMap((line) =>
    line.joins.filter((join) => joining(join) && join.led !== '').map((join) => ({ line, join })),
  );
  for (let count = chance.below(6); count > 0 && ends.length > 0; count--) {
    const { line, join } = chance.one(ends);
    if (/^(selector|wire|dial|gang)/.test(line.words)) continue;
    line.joins = line.joins.filter((other) => other !== join);
  }
  prune(draft.lines);
}

/** Takes out statements of parts that are gone and every mention of them. */
function take(lines: Line[], isGone: (target: string) => boolean): void {
  for (let index = lines.length - 1; index >= 0; index--) {
    const line = lines[index] as Line;
    const gang = /^(gang \S+) (.*)$/.exec(line.words);
    if (gang) {
      const left = (gang[2] ?? '').split(', ').filter((name) => !isGone(name));
      line.words = `${gang[1]} ${left.join(', ')}`;
      if (left.length === 0) lines.splice(index, 1);
      continue;
    }
    if (line.part !== undefined && isGone(line.part)) {
      lines.splice(index, 1);
      continue;
    }
    // What a winding lies beside must be there, or it lies nowhere in particular.
    const placed = /(.*)( (?:beside|over|inside) (\w+))(.*)/.exec(line.words);
    const owner = line.part?.split('.')[0];
    if (placed && owner !== undefined && isGone(`${owner}.${placed[3]}`)) {
      lines[index] = { ...line, words: (placed[1] ?? '').trim() };
    }
    for (const join of line.joins) join.targets = join.targets.filter((name) => !isGone(name));
    line.joins = line.joins.filter(({ targets }) => targets.length > 0);
    if (line.block) take(line.block, isGone);
  }
}

/** Takes out statements that say nothing any more. */
function prune(lines: Line[]): void {
  for (let index = lines.length - 1; index >= 0; index--) {
    const { words, joins, block } = lines[index] as Line;
    if (block) prune(block);
    const wires = words === 'wire' ? 2 : /^(dial|heater|filament$|$)/.test(words) ? 1 : 0;
    const couples = /^coupling /.test(words) && !bothThere(lines, words);
    const idle = /^selector/.test(words) && !joins.some(({ led }) => led === 'to');
    const windings = /^(coil|transformer)/.test(words) && !block?.some(({ part }) => part);
    if (joins.length < wires || couples || idle || windings) lines.splice(index, 1);
  }
}

function bothThere(lines: readonly Line[], words: string): boolean {
  const named = /^coupling (\w+) with (\w+)/.exec(words);
  return [named?.[1], named?.[2]].every((name) =>
    lines.some((line) => line.part?.endsWith(`.${name}`)),
  );
}

/** Joins ends of a set wrongly: two exchanged, or one led somewhere else. */
export function miswire(draft: Draft): void {
  const { chance } = draft;
  const joins = everyLine(draft.lines)
    .filter(({ words }) => !/^(dial|selector)/.test(words))
    .flatMap((line) => line.joins)
    .filter(joining);
  for (let count = 1 + chance.below(5); count > 0; count--) {
    const [one, other] = [chance.one(joins), chance.one(joins)];
    if (chance.percent(60)) [one.targets, other.targets] = [other.targets, one.targets];
    else one.targets = [...other.targets];
  }
}

const ends: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  crystal: { from: 'mineral', to: 'whisker' },
  jack: { from: 'tip', to: 'sleeve' },
  selector: { from: 'arm' },
  shield: { to: 'shield' },
  filament: { from: 'filament-', to: 'filament+' },
  heater: { from: 'filament-', to: 'filament+' },
};

/** Writes a set as one traces it: the parts bare, the joins as wires below. */
export function trace(lines: Line[]): void {
  const wires: Line[] = [];
  const strip = (line: Line, tube: string | undefined): void => {
    const { words } = line;
    const kind = words.split(' ')[0] ?? '';
    const part = line.part ?? tube;
    if (part !== undefined && !/^(dial|gang|wire)$/.test(kind)) {
      line.joins = line.joins.filter((join) => {
        const end = endBehind(kind, join.led);
        if (end === undefined) return true;
        for (const target of join.targets) {
          const joins = [
            { led: '', targets: [`${part}.${end}`] },
            { led: 'to', targets: [target] },
          ];
          wires.push({ part: undefined, words: 'wire', joins, after: '', block: undefined });
        }
        // The words that make a tap or a centre stay behind.
        if (/^(tap|centre)/.test(join.led)) line.words += ` ${join.led}`;
        return false;
      });
    }
    for (const inner of line.block ?? []) strip(inner, kind === 'tube' ? line.part : undefined);
    if (kind === 'tube') line.block = undefined;
  };
  for (const line of lines) strip(line, undefined);
  lines.push(...wires);
}

function endBehind(kind: string, led: string): string | undefined {
  if (['across', 'into', 'around', 'drives', 'through'].includes(led)) return undefined;
  if (kind === 'selector' && led === 'to') return undefined;
  if (led === 'from' || led === 'to') {
    return ends[kind]?.[led] ?? (led === 'from' ? 'start' : 'finish');
  }
  return led.replace(/^tap /, 'tap');
}
