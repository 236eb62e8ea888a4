import { formatQuantity } from '@setwright/units';

/** Volts as reckoned for a tube at work: a bias is not known to more than two figures. */
export const aboutVolts = (value: number): string =>
  formatQuantity(value, 'voltage', 'period', Math.abs(value) < 10 ? 2 : 3);

/** Amperes as reckoned for a tube at work: two figures. */
export const aboutAmperes = (value: number): string =>
  formatQuantity(value, 'current', 'period', 2);

/** How many times one amount is another: `2.2 times`. */
export const aboutTimes = (value: number): string =>
  `${formatQuantity(value, 'ratio', 'period', 2)} times`;
