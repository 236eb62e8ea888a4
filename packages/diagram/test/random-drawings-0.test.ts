import { assertRandomDrawings } from './random-drawings.ts';

assertRandomDrawings(0);
