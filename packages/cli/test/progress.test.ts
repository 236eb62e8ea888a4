import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { progressOn, progressWords } from '../src/progress.ts';

describe('how far a long run has come', () => {
  beforeEach(() => {
    vi.useFakeTimers({ now: 0 });
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  const terminal = (columns = 80) => {
    const written: string[] = [];
    return { written, isTTY: true, columns, write: (text: string) => written.push(text) };
  };

  it('is told with its rate and the time that is left', () => {
    expect(progressWords(400, 1000, 50)).toBe(
      '[########------------] 400 of 1000 files, 50 a second, 12 s left',
    );
    expect(progressWords(1, 10_000, 2.5)).toContain('2.5 a second, 1 h 6 min left');
    expect(progressWords(1000, 10_000, 100)).toContain('1 min 30 s left');
  });

  it('is told on a terminal only, and of many files only', () => {
    const pipe = { ...terminal(), isTTY: false };
    const few = terminal();
    for (const [stream, total] of [
      [pipe, 1000],
      [few, 3],
    ] as const) {
      const progress = progressOn(stream, total);
      vi.advanceTimersByTime(1000);
      progress.step();
      progress.end();
    }
    expect([pipe.written, few.written]).toEqual([[], []]);
  });

  it('goes by what was done lately', () => {
    const screen = terminal();
    const progress = progressOn(screen, 10_000);
    for (let step = 0; step < 2000; step += 1) progress.step();
    for (let step = 0; step < 300; step += 1) {
      vi.advanceTimersByTime(100);
      progress.step();
    }
    expect(screen.written.at(-1)).toContain(' 10 a second');
  });

  it('makes room for what is written beside it, and leaves nothing', () => {
    const screen = terminal();
    const progress = progressOn(screen, 100);
    vi.advanceTimersByTime(1000);
    progress.step();
    progress.aside(() => screen.write('a finding\n'));
    progress.end();
    expect(screen.written.slice(-2)).toEqual(['\r\u001b[K', 'a finding\n']);
  });

  it('never fills the line, on which a terminal would go on to the next', () => {
    const screen = terminal(30);
    const progress = progressOn(screen, 100);
    vi.advanceTimersByTime(1000);
    progress.step();
    expect(screen.written.at(-1)!.replace('\r\u001b[K', '').length).toBeLessThan(30);
  });
});
