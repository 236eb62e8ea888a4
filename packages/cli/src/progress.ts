import type { Writing } from './streams.ts';

/** Fewer files than this are done before anybody wonders. */
const MANY = 50;
const MILLISECONDS_BETWEEN = 100;

/** The rate is that of the last so many looks, each after so many milliseconds. */
const LOOKS = 20;
const LOOK_EVERY = 500;

const BAR = 20;

/** How far a long run has come, on one line of a terminal. */
export interface Progress {
  step(): void;
  /** Writes elsewhere on what may be the same terminal: the line makes room for it. */
  aside(write: () => void): void;
  /** Takes the line away. */
  end(): void;
}

/** Tells how far a long run has come, on a terminal only. */
export function progressOn(stream: Writing, total: number): Progress {
  if (!stream.isTTY || total <= MANY)
    return { step: () => {}, aside: (write) => write(), end: () => {} };
  const looks = [{ time: Date.now(), done: 0 }];
  let done = 0;
  let told = 0;
  let isShown = false;
  const clear = (): void => {
    if (isShown) stream.write('\r\u001b[K');
    isShown = false;
  };
  const tell = (now: number): void => {
    const last = looks.at(-1);
    if (!last || now - last.time >= LOOK_EVERY) looks.push({ time: now, done });
    if (looks.length > LOOKS) looks.shift();
    const [first = { time: now, done }] = looks;
    const perSecond = ((done - first.done) / Math.max(1, now - first.time)) * 1000;
    const words = progressWords(done, total, perSecond);
    told = now;
    isShown = true;
    // Some terminals say that they have no columns at all.
    stream.write(`\r\u001b[K${words.slice(0, Math.max(0, (stream.columns || 80) - 1))}`);
  };
  return {
    step: () => {
      done += 1;
      const now = Date.now();
      if (now - told >= MILLISECONDS_BETWEEN) tell(now);
    },
    aside: (write) => {
      clear();
      write();
    },
    end: clear,
  };
}

/** In plain signs, which every terminal has: `[####----] 40 of 80 files, 20 a second, 2 s left`. */
export function progressWords(done: number, total: number, perSecond: number): string {
  const filled = Math.round((done / total) * BAR);
  const bar = `[${'#'.repeat(filled)}${'-'.repeat(BAR - filled)}]`;
  const count = `${bar} ${done} of ${total} files`;
  if (perSecond <= 0) return count;
  const rate = perSecond >= 10 ? perSecond.toFixed(0) : perSecond.toFixed(1);
  return `${count}, ${rate} a second, ${duration((total - done) / perSecond)} left`;
}

function duration(seconds: number): string {
  const whole = Math.ceil(seconds);
  if (whole < 60) return `${whole} s`;
  const minutes = Math.floor(whole / 60);
  return minutes < 60
    ? `${minutes} min ${whole % 60} s`
    : `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
}
