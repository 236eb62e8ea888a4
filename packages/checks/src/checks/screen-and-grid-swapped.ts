import type { Circuit, Finding } from '@setwright/circuit';
import type { Check } from '../check.ts';
import { exchanged, type JoinsByTerminal, joinsByTerminal } from '../fixes/exchange.ts';
import type { Study } from '../study.ts';
import { type Feed, plateFeeds } from '../supplies/plate-feed.ts';
import { hasScreen, isStrappedAsTriode, type ScreenTube, screenUse } from '../tubes/screens.ts';
import { partsAt } from '../tubes/tubes.ts';
import { judgedOverPositions, standingWords } from '../wiring/positions.ts';
import { alsoPart, finding } from '../words/finding.ts';

/** A screen-grid tube with cap and socket grid exchanged. */
export const screenAndGridSwapped: Check = {
  id: 'screen-and-grid-swapped',
  group: 'DC returns',
  severity: 'error',
  summary: 'A screen-grid tube with the signal circuit on its screen and the supply on its grid.',
  why: 'The control grid, at tens of volts positive, draws a heavy current that can spoil the tube and heat what feeds it.',
  silent: [
    'A space-charge tube has its inner grid on 22 volts or less and the signal on the other, on purpose.',
    'A screen strapped to the plate makes the tube a triode.',
    'A grid coupled straight to the plate before it has its own screen on a tap.',
    'A screen that is merely left open or grounded is the business of `screen-without-supply`.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: setWith('B+67', 'L1.grid.finish'),
  passes: setWith('L1.grid.finish', 'B+67'),
  find(study) {
    const tubes = study.tubes.filter(hasScreen).filter((tube) => !isStrappedAsTriode(tube));
    if (tubes.length === 0) return [];
    const swapped = judgedOverPositions(study, (conduction) => {
      const use = screenUse(conduction, study.islands);
      return new Set(tubes.filter((tube) => use.isSwapped(tube)));
    });
    const feeds = swapped.size > 0 ? plateFeeds(study.conduction) : new Map<number, Feed>();
    const joins = joinsByTerminal(study.circuit);
    return [...swapped].map(([tube, { curedBy }]) =>
      crossed(
        study,
        joins,
        tube,
        tube.grid && feeds.get(tube.grid.junction),
        curedBy && standingWords(study.circuit, study.on.settings, curedBy),
      ),
    );
  },
};

function crossed(
  study: Study,
  joins: JoinsByTerminal,
  tube: ScreenTube,
  feed: Feed | undefined,
  cured: string | undefined,
): Finding {
  const { circuit } = study;
  const { part, screen, grid } = tube;
  const tap = feed?.tap.end ?? 'a positive tap';
  const signal = signalPart(circuit, tube);
  const onScreen = signal ? signal.name : 'the signal circuit';
  const edits = grid && exchanged(circuit, grid, screen, joins);
  return finding({
    check: 'screen-and-grid-swapped',
    severity: cured === undefined ? 'error' : 'information',
    message: `${part.name} has ${onScreen} on its screen and ${tap} on its control grid.`,
    why: 'A control grid at tens of volts draws a heavy current: it can spoil the tube and heat the coil.',
    cure:
      cured !== undefined
        ? `Nothing, if it is meant: it stands right with ${cured}.`
        : `Exchange the two leads: ${onScreen} belongs on ${grid?.id ?? 'the grid'}, ${tap} on ${screen.id}; on types with a cap the cap is the control grid.`,
    place: part.place,
    related: [
      ...(signal ? [alsoPart(signal, 'it belongs on the control grid')] : []),
      ...(feed ? [{ place: feed.tap.place, message: 'this belongs on the screen' }] : []),
    ],
    parts: [part.name],
    fixes:
      edits && cured === undefined
        ? [{ title: `Exchange grid and screen of ${part.name}`, edits }]
        : [],
  });
}

function signalPart(circuit: Circuit, tube: ScreenTube) {
  const here = partsAt(circuit, tube.screen.junction).filter((part) => part !== tube.part);
  return here.find((part) => part.kind === 'winding' || part.kind === 'loop') ?? here[0];
}

function setWith(grid: string, screen: string): string {
  return `receiver "Fog bell" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+67 67.5 V
    tap B+135 135 V
  }
  post ANT aerial
  post GND ground
  wire B- to A- to GND
  resistor F1 10 ohms from A- to V1.filament-
  resistor F2 10 ohms from A+ to V1.filament+
  radio stage RF {
    coil L1 {
      form 2 in
      winding aerial 12 turns of 30 DSC from GND to ANT
      winding grid 70 turns of 28 DSC beside aerial from GND
    }
    condenser C1 variable 14 to 365 mmfd rotor to GND stator to L1.grid.finish
    tube V1 22 {
      grid to ${grid}
      screen to ${screen}
      plate to L2.plate.start
    }
    condenser C2 .5 mfd from B+67 to V1.filament-
  }
  detector stage DET {
    coil L2 {
      form 2 in
      winding plate 20 turns of 30 DSC to B+135
      winding secondary 70 turns of 28 DSC beside plate from GND
    }
    condenser C3 variable 14 to 365 mmfd rotor to GND stator to L2.secondary.finish
    crystal CR1 from L2.secondary.finish to PH1.start
    phones PH1 2000 ohms from PH1.start to GND
    condenser C4 .001 mfd across PH1
  }
}
`;
}
