import type { Part } from '@setwright/circuit';
import type { Cell, Paper } from '../cell.ts';

/** A cell that is to be drawn, whatever the paper: called once more gives it for another paper. */
export type Draft = (paper: Paper) => Cell;

/** What a cell asked of its paper, and what it was told. */
interface Asked {
  readonly ways: {
    readonly cell: string;
    readonly net: number;
    readonly up: boolean;
    readonly isOut: boolean;
  }[];
  readonly words: { readonly part: Part; readonly shown: Part }[];
}

/**
 * The same draft, which draws only what it has not drawn yet: where the rails that a cell asks for
 * leave it as they did before, and the words at its parts are the same, the cell is the very same.
 * Of several papers nothing else may differ.
 */
export function drawnOnce(draft: Draft): Draft {
  const drawn: { readonly asked: Asked; readonly made: Cell }[] = [];
  return (paper) => {
    for (const { asked, made } of drawn) if (isAnsweredSo(asked, paper)) return made;
    const asked: Asked = { ways: [], words: [] };
    const made = draft({
      ...paper,
      toBus: (cell, net, up) => {
        const isOut = paper.toBus(cell, net, up);
        asked.ways.push({ cell, net, up, isOut });
        return isOut;
      },
      shown: (part) => {
        const shown = paper.shown(part);
        asked.words.push({ part, shown });
        return shown;
      },
    });
    drawn.push({ asked, made });
    return made;
  };
}

/** Whether a paper answers all that was asked as the one before did. */
const isAnsweredSo = ({ ways, words }: Asked, paper: Paper): boolean =>
  words.every(({ part, shown }) => paper.shown(part) === shown) &&
  ways.every(({ cell, net, up, isOut }) => paper.toBus(cell, net, up) === isOut);
