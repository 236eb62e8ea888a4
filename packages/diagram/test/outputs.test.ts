import { expect, it } from 'vitest';
import { randomReceiver } from '../../../test/support/random-receiver.ts';
import { crossings } from './faults.ts';
import { drawnExample, drawnText } from './on-paper.ts';

it('a choke between the plates of a push-pull pair stands behind the tubes, between their plates', async () => {
  // A set of the generator with an output choke: V3 and V4 are the pair, H1 is across CH1.
  const { scene } = await drawnText(randomReceiver(35));
  const at = (part: string) =>
    scene.symbols.find((each) => each.part === part && each.symbol !== 'filament')!.box;
  const [upper, lower, choke, horn] = ['V3', 'V4', 'CH1', 'H1'].map(at) as [
    ReturnType<typeof at>,
    ReturnType<typeof at>,
    ReturnType<typeof at>,
    ReturnType<typeof at>,
  ];
  expect(choke.left).toBeGreaterThan(Math.max(upper.right, lower.right));
  expect(horn.left).toBeGreaterThan(choke.right);
  expect(choke.top).toBeGreaterThan(upper.top - 20);
  expect(choke.bottom).toBeLessThan(lower.bottom);
  expect(crossings(scene)).toBe(0);
});

it('the posts of a loudspeaker behind an output transformer stand in its leads', async () => {
  const { scene } = await drawnExample('push-pull');
  const at = (part: string) => scene.symbols.find((each) => each.part === part)!.at;
  expect(at('LS1').x).toBe(at('SP1').x);
  expect(at('LS2').x).toBe(at('SP1').x);
  expect(at('LS1').y).toBeLessThan(at('SP1').y);
  expect(at('LS2').y).toBeGreaterThan(at('SP1').y);
});
