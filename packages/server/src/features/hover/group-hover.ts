import type { Circuit } from '@setwright/circuit';
import { listed } from '@setwright/report';
import { formatQuantity } from '@setwright/units';
import { plainWords } from '../../text/markdown.ts';
import type { Named } from '../../text/names.ts';
import { stageLinks } from '../signal.ts';
import { joined } from './part-hover.ts';
import { circuitOf, type HoverSource } from './source.ts';

/** A stage: what it does, what feeds it, what it feeds. */
export function stageHover(source: HoverSource, named: Named): string | undefined {
  const circuit = circuitOf(source, named.receiver);
  const stage = circuit?.stages.find(({ name }) => name === named.name);
  if (!circuit || !stage) return undefined;
  const links = stageLinks(circuit);
  const fed = links.filter(({ to }) => to === stage.name).map(({ from }) => from);
  const feeds = links.filter(({ from }) => from === stage.name).map(({ to }) => to);
  const tubes = stage.parts.filter((name) => circuit.partNamed.get(name)?.kind === 'tube');
  return joined([
    `**${plainWords(stage.name)}**, ${plainWords(`${stage.roles.join(' and ')} stage`)}${
      stage.title === undefined ? '' : ` “${plainWords(stage.title)}”`
    }`,
    [
      ...(tubes.length > 0 ? [`- works with ${plainWords(listed(tubes))}`] : []),
      ...(fed.length > 0 ? [`- the signal comes from ${plainWords(listed(fed))}`] : []),
      ...(feeds.length > 0 ? [`- and goes to ${plainWords(listed(feeds))}`] : []),
    ].join('\n'),
  ]);
}

/** A gang or dial: what is on its shaft. */
export function shaftHover(source: HoverSource, named: Named): string | undefined {
  const circuit = circuitOf(source, named.receiver);
  if (named.kind === 'gang') {
    const gang = circuit?.gangs.find(({ name }) => name === named.name);
    if (!gang) return undefined;
    return `**${plainWords(gang.name)}**, gang: ${plainWords(listed(gang.members))} on one shaft.`;
  }
  const dial = circuit?.dials.find(({ name }) => name === named.name);
  if (!dial) return undefined;
  const { low, high, reversed, drives } = dial;
  const ends = reversed ? `${low} is plates in` : `${high} is plates in`;
  return joined([
    `**${plainWords(dial.name)}**, dial${dial.title === undefined ? '' : ` “${plainWords(dial.title)}”`}`,
    plainWords(`Reads ${low} to ${high}, where ${ends}. Turns ${listed(drives)}.`),
  ]);
}

/** A set as a whole. */
export function setHover(source: HoverSource, named: Named): string | undefined {
  const circuit = circuitOf(source, named.receiver);
  if (!circuit) return undefined;
  const { title, year, tunes, stages } = circuit;
  const hertz = (value: number): string => formatQuantity(value, 'frequency', source.units);
  return joined([
    `**${plainWords(title)}**, ${year === undefined ? 'receiver' : `receiver of ${year.value}`}`,
    [
      ...(tunes ? [`- tunes ${hertz(tunes.low.value)} to ${hertz(tunes.high.value)}`] : []),
      `- ${tubesIn(circuit)}`,
      ...(stages.length > 0
        ? [`- stages ${plainWords(listed(stages.map(({ name }) => name)))}`]
        : []),
    ].join('\n'),
  ]);
}

function tubesIn({ parts }: Circuit): string {
  const types = new Map<string, number>();
  for (const { kind, typeName } of parts)
    if (kind === 'tube') types.set(typeName ?? '?', (types.get(typeName ?? '?') ?? 0) + 1);
  if (types.size === 0) return 'no tubes';
  const all = [...types].map(([type, count]) => `${count} of type ${type}`);
  return `tubes: ${plainWords(listed(all))}`;
}
