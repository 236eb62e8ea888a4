import type { Circuit } from '@setwright/circuit';
import type { Box, Point, Scene, Wire } from '../src/index.ts';

/** What is wrong with a drawing to the eye, each fault in words. */
export function faultsOf(scene: Scene): string[] {
  return [
    ...labelFaults(scene),
    ...namelessFaults(scene),
    ...symbolFaults(scene),
    ...wireFaults(scene),
    ...dotFaults(scene),
    ...looseFaults(scene),
    ...edgeFaults(scene),
  ];
}

interface Piece {
  readonly net: string;
  readonly from: Point;
  readonly to: Point;
}

const pieces = (wires: readonly Wire[]): Piece[] =>
  wires.flatMap(({ net, points }) =>
    points.slice(1).map((to, index) => ({ net, from: points[index]!, to })),
  );

const overlap = (a: Box, b: Box, air = 0): boolean =>
  a.left < b.right - air &&
  b.left < a.right - air &&
  a.top < b.bottom - air &&
  b.top < a.bottom - air;

const crosses = ({ from, to }: Piece, box: Box, air: number): boolean =>
  Math.max(from.x, to.x) > box.left + air &&
  Math.min(from.x, to.x) < box.right - air &&
  Math.max(from.y, to.y) > box.top + air &&
  Math.min(from.y, to.y) < box.bottom - air;

const same = (a: Point, b: Point): boolean => a.x === b.x && a.y === b.y;

function labelFaults({ labels, symbols, wires, marks, ornaments }: Scene): string[] {
  const found: string[] = [];
  for (const [index, label] of labels.entries()) {
    for (const other of labels.slice(index + 1)) {
      if (overlap(label.box, other.box)) found.push(`"${label.text}" on "${other.text}"`);
    }
    for (const { part, box } of symbols) {
      if (overlap(label.box, box)) found.push(`"${label.text}" on ${part}`);
    }
    for (const { net, box } of marks) {
      if (overlap(label.box, box)) found.push(`"${label.text}" on the symbol of ${net}`);
    }
    for (const piece of pieces(ornaments.map(({ points }) => ({ net: 'a line', points })))) {
      if (crosses(piece, label.box, 0)) found.push(`a line through "${label.text}"`);
    }
    for (const piece of pieces(wires)) {
      if (crosses(piece, label.box, 0)) found.push(`wire ${piece.net} through "${label.text}"`);
    }
  }
  return found;
}

/** Rails that are joined by a name which is nowhere to be read. */
function namelessFaults({ marks, labels }: Scene): string[] {
  return marks
    .filter(({ net, shape, at }) => {
      const name = net.replaceAll('-', '−');
      const isRead = labels.some(
        ({ text, box }) =>
          text === name && Math.abs(box.top - at.y) < 20 && Math.abs(box.left - at.x) < 60,
      );
      return shape === 'none' && !isRead;
    })
    .map(({ net }) => `${net} has no name at its line`);
}

/** Wires that end where nothing is: no part, rail symbol, stud or spring, nor wire of their own. */
function looseFaults({ wires, symbols, marks, ornaments, labels }: Scene): string[] {
  const pins = [...symbols.flatMap((symbol) => symbol.pins), ...marks].map(({ at }) => at);
  const isOn = ({ x, y }: Point, { left, top, right, bottom }: Box, air = 1): boolean =>
    x >= left - air && x <= right + air && y >= top - air && y <= bottom + air;
  const all = pieces(wires);
  const drawn = ornaments.flatMap(({ points }) => points);
  return all.flatMap((piece) =>
    [piece.from, piece.to]
      .filter(
        (at) =>
          !pins.some((pin) => same(pin, at)) &&
          !symbols.some(({ box }) => isOn(at, box)) &&
          // A lead may end at the name of the jack that it belongs to.
          !labels.some(({ style, box }) => style === 'rail' && isOn(at, box, 4)) &&
          !drawn.some((point) => Math.abs(point.x - at.x) + Math.abs(point.y - at.y) < 12) &&
          !all.some((other) => other !== piece && other.net === piece.net && touches(other, at)),
      )
      .map((at) => `${piece.net} ends in the air at ${at.x},${at.y}`),
  );
}

const touches = ({ from, to }: Piece, { x, y }: Point): boolean =>
  x >= Math.min(from.x, to.x) &&
  x <= Math.max(from.x, to.x) &&
  y >= Math.min(from.y, to.y) &&
  y <= Math.max(from.y, to.y);

/** What runs off the paper. */
function edgeFaults({ width, height, symbols, labels, marks, wires }: Scene): string[] {
  const out = ({ x, y }: Point): boolean => x < 0 || y < 0 || x > width || y > height;
  const isOut = ({ left, top, right, bottom }: Box): boolean =>
    out({ x: left, y: top }) || out({ x: right, y: bottom });
  return [
    ...symbols.filter(({ box }) => isOut(box)).map(({ part }) => `${part} is off the paper`),
    ...marks.filter(({ box }) => isOut(box)).map(({ net }) => `${net} is off the paper`),
    ...labels.filter(({ box }) => isOut(box)).map(({ text }) => `"${text}" is off the paper`),
    ...wires.filter(({ points }) => points.some(out)).map(({ net }) => `${net} runs off the paper`),
  ];
}

function symbolFaults({ symbols, marks, wires }: Scene): string[] {
  const found: string[] = [];
  const solid = symbols.filter(({ symbol }) => symbol !== 'name');
  for (const [index, { part, box, pins, symbol }] of solid.entries()) {
    for (const other of solid.slice(index + 1)) {
      if (overlap(box, other.box)) found.push(`${part} on ${other.part}`);
    }
    for (const mark of marks) {
      if (mark.shape !== 'none' && overlap(box, mark.box)) {
        found.push(`${part} on the symbol of ${mark.net}`);
      }
    }
    for (const piece of pieces(wires)) {
      const own = pins.some(({ at }) => same(at, piece.from) || same(at, piece.to));
      // A tap's lead leaves a winding between two of its loops, on either side or on both.
      const isTaps = (at: Point): boolean =>
        piece.from.y === piece.to.y &&
        at.y === piece.to.y &&
        at.x >= Math.min(piece.from.x, piece.to.x) &&
        at.x <= Math.max(piece.from.x, piece.to.x);
      if (symbol === 'terminal') continue;
      if (symbol.startsWith('winding') && pins.some(({ at }) => isTaps(at))) continue;
      if (crosses(piece, box, own ? 1.5 : 0.5)) {
        found.push(`wire ${piece.net} through ${part}`);
      }
    }
  }
  for (const [index, mark] of marks.entries()) {
    if (mark.shape === 'none') continue;
    for (const other of marks.slice(index + 1)) {
      if (other.shape !== 'none' && overlap(mark.box, other.box)) {
        found.push(`the symbol of ${mark.net} on that of ${other.net}`);
      }
    }
    for (const piece of pieces(wires)) {
      if (crosses(piece, mark.box, 0.5)) {
        found.push(`wire ${piece.net} through the symbol of ${mark.net}`);
      }
    }
  }
  return found;
}

function wireFaults({ wires, symbols, marks }: Scene): string[] {
  const found: string[] = [];
  const all = pieces(wires);
  const anchors = [...symbols.flatMap(({ pins }) => pins), ...marks].map(({ at }) => at);
  for (const [index, piece] of all.entries()) {
    const { net, from, to } = piece;
    const upright = from.x === to.x;
    if (!upright && from.y !== to.y) found.push(`${net} runs aslant`);
    const length = Math.abs(from.x - to.x) + Math.abs(from.y - to.y);
    const anchored = anchors.some((at) => same(at, from) || same(at, to));
    if (length < 8 && !anchored)
      found.push(`${net} steps aside by ${length} at ${from.x},${from.y}`);
    for (const other of all.slice(index + 1)) {
      const along = upright === (other.from.x === other.to.x);
      if (along && other.net !== net && runTogether(piece, other, upright)) {
        found.push(`${net} runs along ${other.net}`);
      }
      if (!along && other.net === net && crossInside(piece, other)) {
        found.push(`${net} crosses itself without a dot`);
      }
    }
  }
  return found;
}

function runTogether(a: Piece, b: Piece, upright: boolean): boolean {
  const at = upright ? 'x' : 'y';
  const along = upright ? 'y' : 'x';
  if (Math.abs(a.from[at] - b.from[at]) > 2) return false;
  const low = Math.max(Math.min(a.from[along], a.to[along]), Math.min(b.from[along], b.to[along]));
  const high = Math.min(Math.max(a.from[along], a.to[along]), Math.max(b.from[along], b.to[along]));
  return high > low;
}

function crossInside(a: Piece, b: Piece): boolean {
  const [level, upright] = a.from.y === a.to.y ? [a, b] : [b, a];
  const [x, y] = [upright.from.x, level.from.y];
  return (
    x > Math.min(level.from.x, level.to.x) &&
    x < Math.max(level.from.x, level.to.x) &&
    y > Math.min(upright.from.y, upright.to.y) &&
    y < Math.max(upright.from.y, upright.to.y)
  );
}

/**
 * Dots at which wires meet four ways, dots where nothing joins, and joints of three wires without a
 * dot. What a symbol leads to a pin counts as a wire; a terminal's ring joins without a dot.
 */
function dotFaults({ dots, wires, symbols }: Scene): string[] {
  const found: string[] = [];
  const all = pieces(wires);
  const led = new Set(
    symbols
      .filter(({ symbol }) => symbol !== 'name' && symbol !== 'terminal')
      .flatMap(({ pins }) => pins.map(({ at }) => `${at.x},${at.y}`)),
  );
  const armsAt = (at: Point, net: string): number => {
    const arms = new Set<string>();
    for (const piece of all) {
      if (piece.net !== net || !touches(piece, at)) continue;
      for (const end of [piece.from, piece.to]) {
        if (!same(at, end)) arms.add(`${Math.sign(end.x - at.x)},${Math.sign(end.y - at.y)}`);
      }
    }
    return arms.size;
  };
  const dotted = new Set(dots.map(({ net, at }) => `${net} ${at.x},${at.y}`));
  for (const { net, at } of dots) {
    const arms = armsAt(at, net);
    if (arms > 3) found.push(`${net} meets four ways at ${at.x},${at.y}`);
    if (arms + (led.has(`${at.x},${at.y}`) ? 1 : 0) < 3) {
      found.push(`${net} has a dot where nothing joins at ${at.x},${at.y}`);
    }
  }
  for (const { net, from, to } of all) {
    for (const at of [from, to]) {
      if (!dotted.has(`${net} ${at.x},${at.y}`) && armsAt(at, net) > 2) {
        found.push(`${net} meets without a dot at ${at.x},${at.y}`);
      }
    }
  }
  return found;
}

/**
 * Parts upside down: the end on a supply below one of lower volts, but for a winding that a plate
 * feeds from above; a tube on its head, a condenser
 * across a winding that does not stand upright beside it.
 */
export function turnedFaults(circuit: Circuit, { symbols }: Scene): string[] {
  const found: string[] = [];
  const netOf = (id: string): number => circuit.endNamed.get(id)?.junction ?? -1;
  const volts = voltsOfNets(circuit);
  const windings = circuit.parts.filter(({ kind }) => kind === 'winding' || kind === 'loop');
  const having = (start: string): Set<number> =>
    new Set(
      circuit.parts
        .filter(({ kind }) => kind === 'tube')
        .flatMap(({ ends }) => ends.filter(({ name }) => name.startsWith(start)))
        .map(({ junction }) => junction),
    );
  const [filaments, plates] = [having('filament'), having('plate')];
  // A switch leads a plate on, by each of its poles.
  for (const { kind, ends, contacts } of circuit.parts) {
    if (kind !== 'switch') continue;
    const poles = [ends, ...contacts.map(({ from, to }) => [from, to].map((id) => ({ id })))];
    for (const nets of poles.map((pole) => pole.map(({ id }) => netOf(id)))) {
      if (nets.some((net) => plates.has(net))) for (const net of nets) plates.add(net);
    }
  }
  for (const { part: name, pins, turns, symbol, flipped, box } of symbols) {
    if (/^(tube|filament|aerial)/.test(symbol) && (turns || flipped)) found.push(`${name} lies`);
    const part = circuit.partNamed.get(name);
    const [a, b] = pins;
    if (!part || !a || !b || pins.length !== 2) continue;
    const nets = part.ends.map(({ junction }) => junction);
    const tuned = windings.filter(
      ({ ends: [start, finish] }) =>
        start !== undefined &&
        finish !== undefined &&
        start.junction !== finish.junction &&
        nets.includes(start.junction) &&
        nets.includes(finish.junction),
    );
    if (part.kind === 'condenser' && tuned.length > 0 && a.at.x !== b.at.x) {
      found.push(`${name} lies beside ${tuned[0]!.name}`);
    }
    if (a.at.x !== b.at.x) continue;
    const [upper, lower] = a.at.y < b.at.y ? [a, b] : [b, a];
    const [above, below] = [volts.get(netOf(upper.end)), volts.get(netOf(lower.end))];
    // The plate's wire comes straight in from above where its supply has a symbol and no line: a
    // winding's own drop, which alone is between the two, is no reason to lead it round below.
    const isFed = part.kind === 'winding' && plates.has(netOf(upper.end));
    // A filament has its plus end above, and what regulates it stands on the side that it is on.
    const isHeating = symbol === 'filament' || nets.some((net) => filaments.has(net));
    if (!isHeating && !isFed && (below ?? 0) > (above ?? 0) && (below ?? 0) > 10) {
      found.push(`${name} has its supply below`);
    }
    if (part.kind !== 'condenser' || tuned.length === 0) continue;
    const isBeside = tuned.some((winding) =>
      symbols.some(
        (other) =>
          other.part === winding.name &&
          Math.abs(other.at.x - (box.left + box.right) / 2) < 320 &&
          other.box.top < box.bottom + 60 &&
          box.top < other.box.bottom + 60,
      ),
    );
    if (!isBeside) found.push(`${name} stands away from ${tuned[0]!.name}`);
  }
  return found;
}

/** Volts of each junction with a B supply's tap on it, above that supply's own zero. */
function voltsOfNets(circuit: Circuit): Map<number, number> {
  const volts = new Map<number, number>();
  for (const { supplyTaps, ends } of circuit.parts) {
    for (const tap of supplyTaps) {
      const net = ends.find(({ name }) => name === tap.end)?.junction;
      if (net === undefined || !tap.end.startsWith('B')) continue;
      volts.set(net, Math.max(volts.get(net) ?? 0, tap.volts ?? 0));
    }
  }
  return volts;
}

/** How many plain crossings a drawing has. */
export function crossings({ wires }: Scene): number {
  const all = pieces(wires);
  let count = 0;
  for (const [index, piece] of all.entries()) {
    for (const other of all.slice(index + 1)) {
      const along = (piece.from.x === piece.to.x) === (other.from.x === other.to.x);
      if (!along && other.net !== piece.net && crossInside(piece, other)) count++;
    }
  }
  return count;
}
