import { describe, expect, it } from 'vitest';
import { oneAtATime } from '../src/preview/one-at-a-time.ts';

/** A piece of work that ends when it is told to. */
function work() {
  const ends: (() => void)[] = [];
  const does = () => new Promise<void>((resolve) => ends.push(resolve));
  const endOne = async () => {
    ends.at(-1)?.();
    await new Promise((resolve) => setTimeout(resolve));
  };
  return { does, endOne, begun: () => ends.length };
}

describe('one at a time', () => {
  it('does at once what is wanted, and once more what is wanted meanwhile', async () => {
    const { does, endOne, begun } = work();
    const want = oneAtATime(does, () => true);
    want();
    want();
    want();
    expect(begun()).toBe(1);
    await endOne();
    expect(begun()).toBe(2);
    await endOne();
    expect(begun()).toBe(2);
  });

  it('waits while there is nobody to do it for', async () => {
    const { does, begun } = work();
    let isThere = false;
    const want = oneAtATime(does, () => isThere);
    want();
    expect(begun()).toBe(0);
    isThere = true;
    want();
    expect(begun()).toBe(1);
  });

  it('goes on after a failure', async () => {
    let times = 0;
    const want = oneAtATime(
      async () => {
        times += 1;
        if (times === 1) throw new Error('no');
      },
      () => true,
    );
    want();
    await new Promise((resolve) => setTimeout(resolve));
    want();
    expect(times).toBe(2);
  });
});
