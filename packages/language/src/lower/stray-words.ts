import { type PartKind, type Place, partKinds } from '@setwright/circuit';
import { nearest } from '@setwright/units';
import { isFromDetail, isToDetail } from '../generated/ast.ts';
import { inserting, type Lowering, remark, replacing } from './context.ts';
import { toldInstead } from './facts.ts';
import type { Said } from './said.ts';

/** Words that lead a detail, by the details that a kind of part takes. */
const leadWords: Readonly<Record<string, readonly string[]>> = {
  from: ['from'],
  to: ['to'],
  across: ['across'],
  set: ['set'],
  taps: ['tap', 'taps', 'centre'],
  winding: ['of', 'length', 'spaced', 'paper', 'beside', 'over', 'inside', 'on'],
  contacts: ['breaks', 'makes'],
  through: ['through'],
  into: ['into'],
  around: ['around'],
  law: ['law'],
  ratio: ['ratio'],
  like: ['like'],
};

/** Of those, the ones that a number follows. */
const amountLeads: Readonly<Record<string, readonly string[]>> = {
  set: ['set'],
  taps: ['tap', 'taps'],
  winding: ['of', 'length', 'spaced', 'paper', 'on'],
};

function leadsOf(kind: PartKind): string[] {
  return [
    ...kind.words,
    ...kind.details.flatMap((detail) => leadWords[detail] ?? []),
    ...kind.namedEnds,
    'found',
  ];
}

/**
 * Words that stand on a part's line and mean nothing there. Words in a row are one slip, told
 * once: a garbled `from` takes the name behind it along.
 */
export function strayWords(cx: Lowering, said: Said, isName: (word: string) => boolean) {
  let run: { readonly word: string; readonly place: Place }[] = [];
  return {
    add(word: string, place: Place) {
      run.push({ word, place });
    },
    /** Whether the run may be a garbled word that an amount follows, as in `sett 5 ohms`. */
    wantsAmount(): boolean {
      const kind = partKinds[said.kind];
      const leads = ['found', ...kind.details.flatMap((detail) => amountLeads[detail] ?? [])];
      return run.length === 1 && nearest(run[0]?.word ?? '', leads, 1).length > 0;
    },
    /** Ends a run of stray words. `cut` says that the rest of the line could not be read. */
    end(cut = false) {
      const first = run[0];
      const last = run.at(-1);
      run = [];
      if (!first || !last) return;
      const kind = partKinds[said.kind];
      const place = { ...first.place, end: last.place.end };
      const text = cx.text.slice(place.start, place.end).replace(/\s+/g, ' ');
      // What is lost may be a join.
      cx.unread.push(place);
      if (isName(first.word)) {
        const ways = joiningWords(kind, said);
        remark(
          cx,
          'unknown-word',
          'error',
          place,
          {
            message: `"${text}" stands on the line of ${said.name} without a word that says what goes there.`,
            why: 'What should be joined here is joined to nothing.',
            cure: ways.length
              ? `Write ${ways.map((way) => `${way} ${text}`).join(' or ')}.`
              : 'Say it on the line of the part that goes there.',
          },
          {
            parts: [said.name],
            fixes: ways.map((way) => inserting(`Write ${way} ${text}`, place, `${way} `)),
          },
        );
        return;
      }
      const alone = first === last && !cut;
      const likely = nearest(first.word, alone ? kind.words : leadsOf(kind), 2);
      if (cut) {
        // One slip, told once: by whoever knows what was meant.
        if (likely.length === 0) return;
        toldInstead(cx, place.end);
      }
      remark(
        cx,
        'unknown-word',
        'error',
        place,
        {
          message: `"${text}" says nothing of a ${kind.noun} such as ${said.name}.`,
          why: 'What is not understood is never passed over in silence.',
          cure: likely.length
            ? `Did you mean "${likely.join('" or "')}"?`
            : kind.words.length
              ? `It takes the words ${kind.words.join(', ')}.`
              : 'Take it out, or say it in a note.',
        },
        {
          parts: [said.name],
          fixes: likely.map((other) => replacing(`Change to ${other}`, first.place, other)),
        },
      );
    },
  };
}

/** Of `from` and `to`, those that a part takes and has not said yet. */
function joiningWords(kind: PartKind, said: Said): string[] {
  const details = said.details.filter(({ inherited }) => !inherited).map(({ detail }) => detail);
  return [
    ...(kind.details.includes('from') && !details.some(isFromDetail) ? ['from'] : []),
    ...(kind.details.includes('to') && !details.some(isToDetail) ? ['to'] : []),
  ];
}
