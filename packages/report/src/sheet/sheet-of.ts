import type { Circuit } from '@setwright/circuit';
import type { TourViews } from '../tour/grounds.ts';
import { benchSection } from './sections/bench.ts';
import { coils } from './sections/coils.ts';
import { dials } from './sections/dials.ts';
import { faultsSection } from './sections/faults.ts';
import { findingsSection, notesSection, waiversSection } from './sections/findings.ts';
import { honesty } from './sections/honesty.ts';
import { identity } from './sections/identity.ts';
import { partsList } from './sections/parts.ts';
import { responseSection } from './sections/response.ts';
import { handling, safety } from './sections/safety.ts';
import { supplies } from './sections/supplies.ts';
import { unknownSection } from './sections/unknown.ts';
import { workSection } from './sections/work.ts';
import type { Sheet, SheetSection } from './sheet.ts';
import { type SheetOptions, sheetGrounds } from './sheet-grounds.ts';

/**
 * The service sheet of a set: what a restorer pins above the bench or hands over with the set. All
 * of its text comes from the circuit and from what is reckoned of it; what is not known is told as
 * missing. The same circuit gives the same sheet. Never throws.
 *
 * @param views what draws over a schematic, by which the ways of currents are found
 */
export function sheetOf(circuit: Circuit, views: TourViews, options: SheetOptions): Sheet {
  const grounds = sheetGrounds(circuit, views, options);
  const drawing: SheetSection = {
    id: 'drawing',
    heading: 'Schematic',
    blocks: [{ kind: 'drawing' }],
  };
  const sections = [
    safety(grounds),
    handling(grounds),
    drawing,
    supplies(grounds),
    partsList(grounds),
    coils(grounds),
    dials(grounds),
    responseSection(grounds),
    benchSection(grounds),
    faultsSection(grounds),
    findingsSection(grounds),
    waiversSection(grounds),
    notesSection(grounds),
    unknownSection(grounds),
    honesty(grounds),
    workSection(),
  ];
  return {
    circuit,
    title: circuit.title === '' ? 'Receiver without a name' : circuit.title,
    facts: identity(grounds),
    sections: sections.filter((section) => section !== undefined),
    madeBy: options.madeBy,
  };
}
