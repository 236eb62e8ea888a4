import { plain } from '../../text/markdown.ts';
import type { Tour } from '../tour.ts';

/**
 * A tour as Markdown, every step with its picture beside it.
 *
 * @param pictureOf the file that shows a step, as the text is to call it
 */
export function tourMarkdown(tour: Tour, pictureOf: (step: number) => string): string {
  const title = tour.title === '' ? 'A receiver' : tour.title;
  const parts = tour.steps.flatMap((step, index) => [
    `## ${plain(step.heading)}`,
    `![${plain(step.heading)}](${pictureOf(index)})`,
    ...step.sentences.map(plain),
    ...(step.missing.length > 0
      ? [`*Not told, for want of ${plain(step.missing.join('; '))}.*`]
      : []),
    ...(step.numbers.length > 0
      ? [
          [
            '| what | how much | because |',
            '| --- | --- | --- |',
            ...step.numbers.map(
              ({ words, text, because }) =>
                `| ${plain(words)} | ${plain(text)} | ${plain(because)} |`,
            ),
          ].join('\n'),
        ]
      : []),
  ]);
  return `${[`# Tour of ${plain(title)}`, ...parts].join('\n\n')}\n`;
}
