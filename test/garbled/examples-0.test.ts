import { describeGarbling, exampleNames } from './garbling.ts';

describeGarbling(exampleNames.filter((_, index) => index % 2 === 0));
