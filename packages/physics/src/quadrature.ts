/** Nodes and weights of Gauss and Legendre's rule on −1 … 1, half of each symmetric pair. */
interface Rule {
  readonly nodes: readonly number[];
  readonly weights: readonly number[];
}

/**
 * Gauss–Legendre rule of a given number of points on −1 … 1, by Newton's iteration on the
 * Legendre polynomial; exact for polynomials of degree 2n − 1, nodes good to 1e-15.
 * Source: NIST Digital Library of Mathematical Functions, 3.5(v).
 */
export function gaussLegendre(points: number): Rule {
  const nodes: number[] = [];
  const weights: number[] = [];
  for (let index = 1; index <= points; index += 1) {
    let x = Math.cos((Math.PI * (index - 0.25)) / (points + 0.5));
    let slope = 1;
    for (let round = 0; round < 20; round += 1) {
      let before = 0;
      let value = 1;
      for (let degree = 1; degree <= points; degree += 1) {
        [before, value] = [value, ((2 * degree - 1) * x * value - (degree - 1) * before) / degree];
      }
      slope = (points * (x * value - before)) / (x * x - 1);
      const step = value / slope;
      x -= step;
      if (Math.abs(step) < 1e-15) {
        break;
      }
    }
    nodes.push(x);
    weights.push(2 / ((1 - x * x) * slope * slope));
  }
  return { nodes, weights };
}

/** Sum of a rule's weights times the function over an interval. */
export function integrate(
  rule: Rule,
  low: number,
  high: number,
  integrand: (x: number) => number,
): number {
  const half = (high - low) / 2;
  const middle = (high + low) / 2;
  let sum = 0;
  for (const [index, node] of rule.nodes.entries()) {
    sum += (rule.weights[index] ?? 0) * integrand(middle + half * node);
  }
  return sum * half;
}
