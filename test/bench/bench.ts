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
const ratios = topics.flatMap((topic) => topic());
await drawing();
printRatios([...ratios, ...(await latency())]);
