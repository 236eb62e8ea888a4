import { railName } from '../rails.ts';
import { liesOn } from '../read-geometry.ts';
import type { Box, Dot, Label, Ornament, PlacedSymbol, Point, RailMark, Scene } from '../scene.ts';
import { textWidth } from '../text-width.ts';
import { addFigures } from './add-figures.ts';
import { type Badge, badgesOf } from './badges.ts';
import { type DrawnPath, drawnPaths, type Touched } from './drawn-paths.ts';
import type { Figure } from './figures.ts';
import { around, gap, type Paper, paperOf } from './free-place.ts';
import type { Leader } from './leaders.ts';
import { leadsOf } from './leads.ts';
import { lettered } from './lettered.ts';
import { type Marks, marksOn, markWords, noMarks } from './marks.ts';
import type { Overlay, PathKind } from './overlay.ts';
import { type Roads, roadsOf } from './roads.ts';
import { addTitles, type StageArea, type StageOnPaper, stageAreas } from './stage-areas.ts';

/** What may be put on a drawing besides what it shows by itself. */
export interface DressingOptions {
  readonly overlay?: Overlay;
  /** Reckoned numbers, each set near its part where there is room. */
  readonly figures?: readonly Figure[];
  /** Stages to be shaded and named. */
  readonly stages?: readonly StageOnPaper[];
}

/** Everything that is drawn over and under a scene, which itself stays as it is. */
export interface Dressing {
  /** What is dimmed; nothing where `dims` is false. */
  readonly dims: boolean;
  readonly isLit: {
    readonly symbol: (symbol: PlacedSymbol) => boolean;
    readonly mark: (mark: RailMark) => boolean;
    readonly dot: (dot: Dot) => boolean;
    readonly label: (label: Label) => boolean;
    readonly ornament: (ornament: Ornament) => boolean;
  };
  /** Pieces of wire that stay at full strength. */
  readonly litRuns: readonly (readonly Point[])[];
  readonly paths: readonly DrawnPath[];
  readonly badges: readonly Badge[];
  readonly marks: Marks;
  readonly areas: readonly StageArea[];
  readonly labels: readonly Label[];
  readonly leaders: readonly Leader[];
  /** What found no room or no place, in plain sentences. */
  readonly notes: readonly string[];
}

/** Works out what is drawn over and under a scene. The same scene and options give the same. */
export function dress(scene: Scene, options: DressingOptions): Dressing {
  const { overlay, figures = [], stages = [] } = options;
  const roads = roadsOf(scene);
  const touched: Touched = overlay
    ? drawnPaths(scene, roads, overlay)
    : { paths: [], marks: new Set(), ends: new Set() };
  const paper = paperOf(scene);
  const notes: string[] = [...(overlay?.notes ?? [])];
  const labels: Label[] = [];
  if (overlay) addTitle(scene, overlay, paper, labels);
  const areas = stageAreas(scene, stages, paper);
  // A title may stand anywhere in its stage, a number only at its part.
  addTitles(areas, paper, labels, notes, () => addFigures(scene, figures, paper, [], []));
  const leaders: Leader[] = [];
  const badges = badgesOf(scene, overlay, paper, labels, notes, leaders);
  const marks = overlay?.marked
    ? marksOn(scene, roads, overlay.marked, paper, labels, notes)
    : noMarks;
  leaders.push(...addFigures(scene, figures, paper, labels, notes));
  return {
    ...lightOf(scene, roads, overlay, touched),
    paths: touched.paths,
    badges,
    marks,
    areas,
    labels,
    leaders,
    notes,
  };
}

/** What the lines of each kind of path stand for. */
const lineWords: Readonly<Record<PathKind, string>> = {
  direct: 'solid: direct current, from + to −',
  radio: 'long dashes: radio',
  audio: 'short dashes: audio',
  feedback: 'dots: fed back',
  oscillator: 'dots: from the oscillator',
};

/** What the lines of an overlay mean, in a line; empty where it has none. */
export function legendOf({ id, paths, marked }: Overlay): string {
  if (marked) return [...new Set(marked.map(({ kind }) => markWords[kind]))].sort().join('  ·  ');
  // A bias is no current: the way from grid to filament is what counts.
  if (id.startsWith('bias')) return 'from each grid home to its filament or cathode';
  return [...new Set(paths.map(({ kind }) => kind))].map((kind) => lineWords[kind]).join('  ·  ');
}

/** The view's title under the set's own, with what its lines mean where there is room. */
function addTitle({ width }: Scene, overlay: Overlay, paper: Paper, labels: Label[]): void {
  if (overlay.id === 'whole' || overlay.title === '') return;
  const legend = legendOf(overlay);
  const whole = legend === '' ? overlay.title : `${overlay.title}  ·  ${legend}`;
  const room = width - 40;
  const text = [whole, overlay.title].find((each) => textWidth(each, 'note') <= room);
  if (text === undefined) return;
  const label = lettered(text, 'note', (width - textWidth(text, 'note')) / 2, 40);
  paper.take(label.box);
  labels.push(label);
}

/** Whether a symbol is of a part, of one of its windings, or has a terminal of that name. */
function isOf({ part, pins }: PlacedSymbol, name: string): boolean {
  return part === name || part.startsWith(`${name}.`) || pins.some(({ end }) => end === name);
}

function lightOf(
  scene: Scene,
  roads: Roads,
  overlay: Overlay | undefined,
  touched: Touched,
): Pick<Dressing, 'dims' | 'isLit' | 'litRuns'> {
  const dims = overlay?.parts !== undefined;
  const named = new Set(overlay?.parts);
  const passed = new Set(overlay?.paths.flatMap(({ steps }) => steps.map(({ part }) => part)));
  const touches = ({ pins }: PlacedSymbol): boolean =>
    pins.some(({ end }) => touched.ends.has(end));
  const isByName = (symbol: PlacedSymbol): boolean =>
    named.size > 0 && [...named].some((name) => isOf(symbol, name));
  // Batteries and tubes are drawn in several places: those alone are lit that a path uses.
  const isPassed = ({ part, symbol, pins }: PlacedSymbol): boolean =>
    passed.has(part) && symbol !== 'filament' && (symbol !== 'terminal' || pins.length === 0);
  const leads = dims ? leadsOf(scene, roads, scene.symbols.filter(isByName)) : undefined;
  const litRuns = leads?.runs ?? [];
  const runs = [
    ...litRuns,
    ...touched.paths.flatMap(({ pieces }) =>
      pieces.filter(({ by }) => by === 'wire').map(({ points }) => points),
    ),
  ];
  const onRun = (at: Point): boolean =>
    runs.some((points) =>
      points.some((to, index) => {
        const from = points[index - 1];
        return from !== undefined && liesOn(at, from, to);
      }),
    );
  // A terminal that a wire at full strength comes to or runs through.
  const isLed = ({ symbol, pins }: PlacedSymbol): boolean =>
    symbol === 'terminal' && pins.some(({ at }) => onRun(at));
  const lit = new Set(
    scene.symbols.filter(
      (each) => isByName(each) || isPassed(each) || touches(each) || isLed(each),
    ),
  );
  const marks = new Set([...touched.marks, ...(leads?.marks ?? [])]);
  const owners = new Set([...lit].map(({ part }) => part.split('.')[0] ?? part));
  return {
    dims,
    litRuns,
    isLit: {
      symbol: (symbol) => lit.has(symbol),
      mark: (mark) => marks.has(mark) || onRun(mark.at),
      dot: ({ at }) => onRun(at),
      ornament: ({ points }) => {
        const about = around(points[0] ?? { x: 0, y: 0 }, 1);
        const far = ({ box }: PlacedSymbol): number => gap(box, about);
        const least = Math.min(...scene.symbols.map(far));
        return [...lit].some((each) => far(each) < least + 1);
      },
      label: (label) => {
        if (label.style === 'title' || label.style === 'note') return true;
        if (label.style === 'rail' && label.part === undefined)
          return scene.marks.some(
            (mark) =>
              railName(mark.net) === label.text &&
              isNear(label.box, mark.at) &&
              (marks.has(mark) || onRun(mark.at)),
          );
        if (label.part === undefined) return false;
        // Of a part that is drawn in several places, the symbol that the label stands at.
        const own = scene.symbols.filter(({ part }) => part === label.part);
        if (own.length === 0) return owners.has(label.part);
        const far = ({ box }: PlacedSymbol): number => gap(box, label.box);
        const nearest = own.reduce((best, each) => (far(each) < far(best) ? each : best));
        return lit.has(nearest);
      },
    },
  };
}

/** How far a label or ornament may be from what it belongs to, in drawing units. */
const NEAR = 26;

function isNear(box: Box, at: Point): boolean {
  return (
    at.x > box.left - NEAR &&
    at.x < box.right + NEAR &&
    at.y > box.top - NEAR &&
    at.y < box.bottom + NEAR
  );
}
