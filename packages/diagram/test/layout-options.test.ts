import ELK from 'elkjs/lib/elk.bundled.js';
import { expect, it } from 'vitest';
import { layoutOptions } from '../src/index.ts';

it('every layout option is one that the engine knows', async () => {
  const known = (await new ELK().knownLayoutOptions()) as unknown as { id: string }[];
  const ids = known.map(({ id }) => id);
  const unknown = [
    ...Object.keys(layoutOptions),
    'elk.portConstraints',
    'elk.port.side',
    'elk.edge.thickness',
    'elk.layered.priority.straightness',
    'elk.layered.layering.layerConstraint',
  ].filter((key) => !ids.includes(`org.eclipse.${key}`));
  expect(unknown).toEqual([]);
});
