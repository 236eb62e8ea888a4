import { fork } from 'node:child_process';
import { collections } from './collections.ts';
import { commands } from './commands.ts';
import { drawing } from './drawing.ts';
import { faults } from './faults.ts';
import { growth, growthOfNumbers, oneBadLine } from './growth.ts';
import { latency } from './latency.ts';
import { printRatios, type Ratio } from './measuring.ts';
import { sweeping, wholeAnalysis } from './numbers.ts';
import { starting } from './starting.ts';
import { tour } from './tour.ts';

/** What gives back its ratios, or prints figures alone. */
type Topic = () => readonly Ratio[] | Promise<readonly Ratio[]>;

/** What is measured when nothing is named. */
const usual: Readonly<Record<string, Topic>> = {
  numbers: () => [...wholeAnalysis(), ...sweeping()],
  growth: () => [...growth(), ...growthOfNumbers(), ...oneBadLine()],
  tour,
  faults,
  starting,
  collection: () => collections(false),
  drawing,
  typing: latency,
};

/** What takes minutes, and is measured only where it is named. */
const long: Readonly<Record<string, Topic>> = {
  collections: () => collections(true),
  commands: () => {
    commands();
    return [];
  },
};

const named = process.argv.slice(2);
const topics = { ...usual, ...long };
const unknown = named.filter((name) => !(name in topics));
if (unknown.length > 0) {
  console.error(
    `bench: no topic ${unknown.join(', ')}; there are ${Object.keys(topics).join(', ')}`,
  );
  process.exit(2);
}
/**
 * A topic in a process of its own, so that no topic has what another left behind to clear away. What
 * it gives back comes as a message.
 */
function inOwnProcess(name: string): Promise<readonly Ratio[]> {
  const child = fork(process.argv[1] ?? '', [name]);
  return new Promise((done) => {
    let found: readonly Ratio[] = [];
    child.on('message', (message) => {
      found = message as readonly Ratio[];
    });
    child.on('exit', (code) => {
      if (code !== 0) process.exitCode = 1;
      done(found);
    });
  });
}

const chosen = named.length > 0 ? named : Object.keys(usual);
const ratios: Record<string, readonly Ratio[]> = {};
for (const name of chosen)
  ratios[name] = chosen.length > 1 ? await inOwnProcess(name) : ((await topics[name]?.()) ?? []);
if (process.send) process.send(Object.values(ratios).flat());
else printRatios(ratios);
