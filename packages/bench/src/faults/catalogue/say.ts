import type { Part } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Amount, Edit } from '../../edits/edit.ts';

/** Ohms as an amount. */
export function ohms(value: number): Amount {
  return { value, dimension: 'resistance' };
}

export function volts(value: number): Amount {
  return { value, dimension: 'voltage' };
}

export function share(value: number): Amount {
  return { value, dimension: 'percent' };
}

/** An amount in words. */
export function said({ value, dimension }: Amount): string {
  return formatQuantity(value, dimension);
}

/** The full name of one of a part's ends; undefined where it has none of that name. */
export function endOf(part: Part, name: string): string | undefined {
  return part.ends.find((end) => end.name === name)?.id;
}

export function opened(target: string): readonly Edit[] {
  return [{ verb: 'open', target }];
}

export function shorted(target: string): readonly Edit[] {
  return [{ verb: 'short', target }];
}

export function changed(target: string, amount: Amount): readonly Edit[] {
  return [{ verb: 'change', target, amount }];
}

export function joined(target: string, other: string, amount?: Amount): readonly Edit[] {
  return [{ verb: 'join', target, other, amount }];
}
