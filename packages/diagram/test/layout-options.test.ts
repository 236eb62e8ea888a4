import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import ELK from 'elkjs/lib/elk.bundled.js';
import { beforeAll, describe, expect, it } from 'vitest';
import { randomReceiver } from '../../../test/support/random-receiver.ts';
import { drawCircuit, type LayoutNode, layoutEngine, layoutOptions } from '../src/index.ts';
import { circuitOf, exampleTexts } from './examples.ts';

/*
 * The engine takes an option that it does not know without a word, and one that stands at the wrong
 * thing, and a value that is none. So everything that it is really sent is looked up.
 */
interface Known {
  readonly id: string;
  readonly type: string;
  readonly targets: readonly string[];
}

/** An option as it was sent, and to what. */
interface Sent {
  readonly key: string;
  readonly value: string;
  readonly target: 'PARENTS' | 'NODES' | 'PORTS' | 'EDGES';
}

const known = new Map<string, Known>();
let sent: Sent[] = [];

function optionsIn(graph: LayoutNode): Sent[] {
  const of = (target: Sent['target'], options: Readonly<Record<string, string>> = {}): Sent[] =>
    Object.entries(options).map(([key, value]) => ({ key, value, target }));
  return [
    ...of('PARENTS', graph.layoutOptions),
    ...(graph.edges ?? []).flatMap((edge) => of('EDGES', edge.layoutOptions)),
    ...(graph.children ?? []).flatMap((node) => [
      ...of('NODES', node.layoutOptions),
      ...(node.ports ?? []).flatMap((port) => of('PORTS', port.layoutOptions)),
    ]),
  ];
}

beforeAll(async () => {
  for (const each of (await new ELK().knownLayoutOptions()) as unknown as Known[])
    known.set(each.id, each);
  const engine = layoutEngine();
  const all = new Map<string, Sent>();
  const listening = {
    layout: (graph: LayoutNode) => {
      for (const each of optionsIn(graph)) all.set(JSON.stringify(each), each);
      return engine.layout(graph);
    },
  };
  const texts = [
    ...exampleTexts.map(([, text]) => text),
    ...Array.from({ length: 10 }, (_, at) => randomReceiver(at + 1, { mode: 'wild' })),
  ];
  for (const text of texts) await drawCircuit(circuitOf(text), listening);
  sent = [...all.values()];
});

const optionOf = ({ key }: Sent): Known | undefined => known.get(`org.eclipse.${key}`);

/** Whether a value is of the type that an option takes. */
function isOfType(value: string, type: string, code: string): boolean {
  if (type === 'INT') return /^-?\d+$/.test(value);
  if (type === 'DOUBLE') return /^-?\d+(\.\d+)?$/.test(value);
  if (type === 'BOOLEAN') return /^(true|false)$/.test(value);
  // Words are those that the engine's own code has.
  if (type === 'ENUM') return code.includes(`'${value}'`) || code.includes(`"${value}"`);
  return value !== '';
}

describe('what the layout engine is told', () => {
  it('is said to the graph, to cells, ports and wires', () => {
    expect(new Set(sent.map(({ target }) => target))).toEqual(
      new Set(['PARENTS', 'NODES', 'PORTS', 'EDGES']),
    );
    const keys = new Set(sent.map(({ key }) => key));
    for (const key of Object.keys(layoutOptions)) expect(keys).toContain(key);
  });

  it('is all known to it', () => {
    expect(sent.filter((each) => !optionOf(each)).map(({ key }) => key)).toEqual([]);
  });

  it('is all said to what it is for', () => {
    const misplaced = sent.filter((each) => !optionOf(each)?.targets.includes(each.target));
    expect(misplaced).toEqual([]);
  });

  it('is all of the right type, and every word is one of its own', () => {
    const path = createRequire(import.meta.url).resolve('elkjs/lib/elk-worker.js');
    const code = readFileSync(path, 'utf8');
    const wrong = sent.filter(({ value, ...each }) => {
      const option = optionOf({ value, ...each });
      return option && !isOfType(value, option.type, code);
    });
    expect(wrong).toEqual([]);
    expect(isOfType('NETWORK_SIMPLX', 'ENUM', code)).toBe(false);
  });
});
