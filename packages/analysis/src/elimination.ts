/**
 * The plan for solving a resistor network of one shape: which node is eliminated when, and where
 * the conductances that this makes between its neighbours go. Made once for a shape, used for any
 * conductances.
 */
export interface EliminationPlan {
  readonly nodes: number;
  /** The slot that each edge's conductance is added to; parallel edges share one. */
  readonly slotOfEdge: Int32Array;
  readonly slots: number;
  /** Nodes in the order of their elimination. Nodes held at zero are not among them. */
  readonly order: Int32Array;
  /** For the node at each place of the order: where its neighbours begin in the two lists below. */
  readonly neighboursFrom: Int32Array;
  readonly neighbour: Int32Array;
  readonly neighbourSlot: Int32Array;
  /** For each pair of neighbours of each eliminated node, in order: the slot between them. */
  readonly pairSlot: Int32Array;
}

/** Two nodes joined by a conductance. */
export interface NetworkEdge {
  readonly a: number;
  readonly b: number;
}

/**
 * Plans the elimination of a network, always of the node with the fewest neighbours next (minimum
 * degree, after W. F. Tinney and J. W. Walker, "Direct solutions of sparse network equations by
 * optimally ordered triangular factorization", Proceedings of the IEEE 55, 1967). On circuits,
 * which are buses with short chains between them, work and storage grow about in proportion to
 * the number of edges.
 *
 * @param heldAtZero for every node whether it is held at zero volts; one in every island must be.
 */
export function planElimination(
  nodes: number,
  edges: readonly NetworkEdge[],
  heldAtZero: (node: number) => boolean,
): EliminationPlan {
  const around: Map<number, number>[] = Array.from({ length: nodes }, () => new Map());
  let slots = 0;
  const slotBetween = (a: number, b: number): number => {
    const known = around[a]?.get(b);
    if (known !== undefined) return known;
    around[a]?.set(b, slots);
    around[b]?.set(a, slots);
    return slots++;
  };
  const slotOfEdge = Int32Array.from(edges, ({ a, b }) => (a === b ? -1 : slotBetween(a, b)));

  const byDegree: number[][] = [];
  let least = 0;
  const enter = (node: number): void => {
    const degree = around[node]?.size ?? 0;
    const bucket = byDegree[degree];
    if (bucket) bucket.push(node);
    else byDegree[degree] = [node];
    least = Math.min(least, degree);
  };
  const done = new Uint8Array(nodes);
  for (let node = 0; node < nodes; node++) {
    if (heldAtZero(node)) done[node] = 1;
    else enter(node);
  }

  const order: number[] = [];
  const neighboursFrom: number[] = [0];
  const neighbour: number[] = [];
  const neighbourSlot: number[] = [];
  const pairSlot: number[] = [];
  while (least < byDegree.length) {
    const node = byDegree[least]?.pop();
    if (node === undefined) {
      least++;
      continue;
    }
    const edgesHere = around[node];
    // A node is entered again whenever its degree changes: only the last entry counts.
    if (done[node] || edgesHere?.size !== least) continue;
    done[node] = 1;
    order.push(node);
    const there = [...edgesHere];
    for (const [other, slot] of there) {
      neighbour.push(other);
      neighbourSlot.push(slot);
      around[other]?.delete(node);
    }
    for (let i = 0; i < there.length; i++) {
      for (let j = i + 1; j < there.length; j++) {
        pairSlot.push(slotBetween(there[i]?.[0] as number, there[j]?.[0] as number));
      }
    }
    for (const [other] of there) if (!done[other]) enter(other);
    neighboursFrom.push(neighbour.length);
    around[node] = new Map();
  }
  return {
    nodes,
    slotOfEdge,
    slots,
    order: Int32Array.from(order),
    neighboursFrom: Int32Array.from(neighboursFrom),
    neighbour: Int32Array.from(neighbour),
    neighbourSlot: Int32Array.from(neighbourSlot),
    pairSlot: Int32Array.from(pairSlot),
  };
}

/**
 * Volts of every node of a resistor network, with respect to the nodes held at zero.
 *
 * Each node is taken out by replacing its star of conductances with the mesh between its
 * neighbours that does the same (A. Rosen, "A new network theorem", Journal of the IEE 62, 1924),
 * and put back in reverse. Only sums, products and quotients of conductances above zero occur, so
 * nothing cancels: a leak of megohms beside a wire of milliohms loses no accuracy.
 *
 * @param plan the plan for this shape.
 * @param conductances siemens of every edge, above zero, in the order of the plan's edges.
 * @param injections amperes led into every node from outside.
 * @returns volts; not finite where a node hangs on nothing or the numbers are beyond reckoning.
 */
export function solveNetwork(
  plan: EliminationPlan,
  conductances: Float64Array,
  injections: Float64Array,
): Float64Array {
  const { order, neighboursFrom, neighbour, neighbourSlot, pairSlot, slotOfEdge } = plan;
  const siemens = new Float64Array(plan.slots);
  for (let edge = 0; edge < slotOfEdge.length; edge++) {
    const slot = slotOfEdge[edge] as number;
    if (slot >= 0) siemens[slot] = (siemens[slot] as number) + (conductances[edge] as number);
  }
  const amperes = Float64Array.from(injections);
  const sums = new Float64Array(order.length);
  let pair = 0;
  for (let place = 0; place < order.length; place++) {
    const from = neighboursFrom[place] as number;
    const to = neighboursFrom[place + 1] as number;
    let sum = 0;
    for (let i = from; i < to; i++) sum += siemens[neighbourSlot[i] as number] as number;
    sums[place] = sum;
    const here = amperes[order[place] as number] as number;
    for (let i = from; i < to; i++) {
      const share = (siemens[neighbourSlot[i] as number] as number) / sum;
      const other = neighbour[i] as number;
      amperes[other] = (amperes[other] as number) + share * here;
      for (let j = i + 1; j < to; j++) {
        const slot = pairSlot[pair++] as number;
        siemens[slot] =
          (siemens[slot] as number) + share * (siemens[neighbourSlot[j] as number] as number);
      }
    }
  }
  const volts = new Float64Array(plan.nodes);
  for (let place = order.length - 1; place >= 0; place--) {
    const node = order[place] as number;
    const from = neighboursFrom[place] as number;
    const to = neighboursFrom[place + 1] as number;
    // Counted from the first neighbour, so that a node that carries no current has its volts exactly.
    const base = from < to ? (volts[neighbour[from] as number] as number) : 0;
    let sum = amperes[node] as number;
    for (let i = from + 1; i < to; i++)
      sum +=
        (siemens[neighbourSlot[i] as number] as number) *
        ((volts[neighbour[i] as number] as number) - base);
    volts[node] = base + sum / (sums[place] as number);
  }
  return volts;
}
