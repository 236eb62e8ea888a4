/** Each value in turn, a tenth of it, ten times it and a little more: shorter and longer words. */
export const valueEdits = (text: string): string[] =>
  [...text.matchAll(/\d*\.?\d+(?= (?:ohms|kilohms|meg|mfd|mmfd|H|mH|uH|turns)\b)/g)].flatMap(
    ({ index, 0: said }) =>
      [0.1, 1.37, 10].map((times) => {
        const other = Number((Number(said) * times).toPrecision(4));
        return `${text.slice(0, index)}${other}${text.slice(index + said.length)}`;
      }),
  );
