import { partKinds } from '@setwright/circuit';
import { type Lowering, placeOf, remark } from './context.ts';
import type { AnyDetail, Said } from './said.ts';

/** A detail that this kind of part does not take. */
export function refuse(cx: Lowering, said: Said, led: string, detail: AnyDetail) {
  cx.unread.push(placeOf(cx, detail));
  remark(
    cx,
    'unknown-word',
    'error',
    placeOf(cx, detail),
    {
      message: `A ${partKinds[said.kind].noun} such as ${said.name} takes no "${led}".`,
      why: 'What is not understood is never passed over in silence.',
      cure: 'Take it out, or say it on the part it belongs to.',
    },
    { parts: [said.name] },
  );
}
