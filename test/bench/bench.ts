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

/** What is measured when nothing is named; the small set first, before there is much to clear away. */
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
const ratios: Record<string, readonly Ratio[]> = {};
for (const name of named.length > 0 ? named : Object.keys(usual))
  ratios[name] = (await topics[name]?.()) ?? [];
printRatios(ratios);
