import { condenserValues } from '@setwright/analysis';
import type { Finding, Fix, Part } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { neutralizedExample } from '../examples/neutralized-example.ts';
import { type Balance, balances } from '../radio/neutralizing.ts';
import type { Study } from '../study.ts';
import { alsoPart, finding } from '../words/finding.ts';

/** What is not known of the tube's and the coil's values, as a share. Common practice. */
const DOUBT = 0.2;

/** What wiring may add between grid and plate, in farads. Common practice. */
const WIRING = 1.5e-12;

/** A neutralizing condenser that cannot be set to what balances. */
export const neutralizerOutOfRange: Check = {
  id: 'neutralizer-out-of-range',
  group: 'Radio frequency',
  severity: 'warning',
  summary: 'A neutralizing condenser whose range leaves out the capacity that balances the tube.',
  why: 'The stage cannot be neutralized and squeals at the short-wave end.',
  silent: [
    'A condenser of which the range is not said.',
    'A tube whose type gives no capacity between grid and plate.',
    'Coils whose coupling is not known, and bridges of another kind.',
    'What balances lies within a fifth of an end of the range, wiring counted.',
    'A winding that feeds the wrong sign: no capacity balances that, and `neutralizing-sense` says so.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: neutralizedExample({ range: '20 to 60 mmfd' }),
  passes: neutralizedExample({}),
  find(study) {
    return balances(study).flatMap((balance) => outside(study, balance) ?? []);
  },
};

/** The fix that writes a range with a capacity in its middle. */
function reranged(condenser: Part, farads: number): readonly Fix[] {
  const range = condenser.ranges.capacitance;
  if (!range) return [];
  const [from, to] = [range.low.place, range.high.place];
  if (from.start < condenser.place.start || to.end > condenser.place.end) return [];
  const mmfd = (value: number) => formatQuantity(value * 1e12, 'number', 'period', 2);
  const text = `${mmfd(farads / 2)} to ${mmfd(farads * 1.5)} mmfd`;
  const place = { ...from, start: Math.min(from.start, to.start), end: Math.max(from.end, to.end) };
  return [{ title: `Make ${condenser.name} ${text}`, edits: [{ place, text }] }];
}

function outside(study: Study, balance: Balance): Finding | undefined {
  const { condenser, tube, from, plate, ratios } = balance;
  if (ratios.some((ratio) => !(ratio < 0))) return undefined;
  const own = tube.part.tubeType?.capacitances['grid plate'];
  const values = condenserValues(study.circuit, condenser);
  const range = condenser.ranges.capacitance;
  if (!own || !range || values?.least.value === undefined || values.most.value === undefined)
    return undefined;
  const wanted = ratios.map((ratio) => own / -ratio);
  const least = Math.min(...wanted) * (1 - DOUBT);
  const most = (Math.max(...wanted) * (own + WIRING)) / own + Math.max(...wanted) * DOUBT;
  const [low, high] = [values.least.value, values.most.value];
  if (most >= low && least <= high) return undefined;
  const tooLarge = most < low;
  const middle = wanted.reduce((sum, each) => sum + each, 0) / wanted.length;
  const mmfd = (farads: number) => formatQuantity(farads, 'capacitance', 'period', 2);
  return finding({
    check: 'neutralizer-out-of-range',
    severity: 'warning',
    message: `${condenser.name} of ${mmfd(low)} to ${mmfd(high)} cannot balance ${tube.part.name}: with ${from?.name ?? 'its winding'} and ${plate?.name ?? 'its plate winding'} it takes about ${mmfd(middle)}.`,
    why: `The ${mmfd(own)} between grid and plate of the ${tube.part.typeName ?? 'tube'} stay unbalanced, and the stage squeals.`,
    cure: `Use a neutralizing condenser that has ${mmfd(middle)} in the middle of its range${from ? `, or feed it from ${tooLarge ? 'fewer' : 'more'} turns of ${from.name}` : ''}.`,
    place: condenser.place,
    related: [
      alsoPart(tube.part, 'the tube to be balanced'),
      ...(from ? [alsoPart(from, 'the winding that feeds it')] : []),
    ],
    parts: [condenser.name],
    fixes: reranged(condenser, middle),
  });
}
