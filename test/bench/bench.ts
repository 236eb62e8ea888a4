import { collections } from './collections.ts';
import { drawing } from './drawing.ts';
import { faults } from './faults.ts';
import { growth, growthOfNumbers, oneBadLine } from './growth.ts';
import { latency } from './latency.ts';
import { printRatios } from './measuring.ts';
import { sweeping, wholeAnalysis } from './numbers.ts';
import { starting } from './starting.ts';
import { tour } from './tour.ts';

// The small set first, while little has to be cleared away behind it.
const topics = [
  wholeAnalysis,
  sweeping,
  growth,
  growthOfNumbers,
  oneBadLine,
  tour,
  faults,
  starting,
];

async function everything() {
  const ratios = topics.flatMap((topic) => topic());
  ratios.push(...(await collections(false)));
  await drawing();
  return [...ratios, ...(await latency())];
}

// Ten thousand sets take minutes: only those, where they are asked for by name.
printRatios(await (process.argv.includes('collections') ? collections(true) : everything()));
