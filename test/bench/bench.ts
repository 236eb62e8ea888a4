import { drawing } from './drawing.ts';
import { growth, growthOfNumbers, oneBadLine } from './growth.ts';
import { latency } from './latency.ts';
import { printRatios } from './measuring.ts';
import { sweeping, wholeAnalysis } from './numbers.ts';
import { starting } from './starting.ts';

const topics = [growth, growthOfNumbers, oneBadLine, wholeAnalysis, sweeping, starting];
const ratios = topics.flatMap((topic) => topic());
await drawing();
printRatios([...ratios, ...(await latency())]);
