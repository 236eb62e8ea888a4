import type { Finding } from '@setwright/circuit';
import type { Study } from './study.ts';

/** What was found under this id while the text was read; passed on as it stands. */
export function remarksOf(study: Study, id: string): readonly Finding[] {
  return study.circuit.remarks.filter((remark) => remark.check === id);
}
