import { type Circuit, isSupply } from '@setwright/circuit';
import { CompletionItemKind } from 'vscode-languageserver-protocol';
import { receiverCode } from '../../text/markdown.ts';
import { plainOf } from '../../words/snippet.ts';
import type { Entry } from './entry.ts';
import { freeName } from './names.ts';

/** What a stage hangs on in the set that it is put into. */
interface Around {
  readonly free: (letter: string) => string;
  readonly tap: (...likely: string[]) => string;
  /** Where the filaments of the set begin. */
  readonly filament: string;
  readonly ground: string;
  /** The plate of the last tube, or the aerial. */
  readonly before: string;
}

interface Pattern {
  readonly label: string;
  readonly detail: string;
  readonly write: (around: Around) => string;
}

/** Whole stages as the trade built them; values are common practice for a 01-A on 90 V. */
const patterns: readonly Pattern[] = [
  {
    label: 'tuned radio stage',
    detail: 'a coupler, its tuning condenser, a losser and a tube',
    write: ({ free, tap, filament, ground, before }) =>
      `radio stage ${free('RF')} "<radio-frequency amplifier>" {
  coil ${free('L')} {
    form <2 3/4 in>
    winding plate <8> turns of <26 DCC> from <${before}> to <${tap('B+67', 'B+90')}>
    winding grid <56> turns of <26 DCC> beside plate spaced <1/4 in> from ${ground}
  }
  condenser ${free('C')} variable <14 to 365 mmfd> rotor to ${free('L')}.grid.start stator to ${free('L')}.grid.finish
  resistor ${free('R')} <1500 ohms> from ${free('L')}.grid.finish to ${free('V')}.grid
  tube ${free('V')} <01-A> {
    filament from <${filament}> to ${tap('A+')}
  }
}`,
  },
  {
    label: 'neutralized radio stage',
    detail: 'a tuned stage whose own capacity is balanced from a winding turned about',
    write: ({ free, tap, filament, ground, before }) =>
      `radio stage ${free('RF')} "<neutralized amplifier>" {
  coil ${free('L')} {
    form <2 3/4 in>
    winding plate <8> turns of <26 DCC> from <${before}> to <${tap('B+90', 'B+67')}>
    winding grid <56> turns of <26 DCC> beside plate spaced <1/4 in> tap <14> from ${ground}
  }
  condenser ${free('C')} variable <14 to 365 mmfd> rotor to ${free('L')}.grid.start stator to ${free('L')}.grid.finish
  condenser ${free('CN')} neutralizing <2 to 10 mmfd> from <${before}> to ${free('L')}.grid.tap<14>
  tube ${free('V')} <01-A> {
    filament from <${filament}> to ${tap('A+')}
    grid to ${free('L')}.grid.finish
  }
}`,
  },
  {
    label: 'grid-leak detector',
    detail: 'a coupler, its condenser, grid condenser and leak on A+',
    write: ({ free, tap, filament, ground, before }) =>
      `detector stage ${free('DET')} "<detector>" {
  coil ${free('L')} {
    form <2 3/4 in>
    winding plate <8> turns of <26 DCC> from <${before}> to <${tap('B+67', 'B+90')}>
    winding grid <56> turns of <26 DCC> beside plate spaced <1/4 in> from ${ground}
  }
  condenser ${free('C')} variable <14 to 365 mmfd> rotor to ${free('L')}.grid.start stator to ${free('L')}.grid.finish
  condenser ${free('CG')} "grid condenser" <.00025 mfd> from ${free('L')}.grid.finish to ${free('V')}.grid
  leak ${free('R')} "grid leak" <2 meg> from ${free('V')}.grid to ${tap('A+')}
  tube ${free('V')} <01-A> {
    filament from <${filament}> to ${tap('A+')}
  }
  condenser ${free('CB')} "radio bypass" <.001 mfd> from ${free('V')}.plate to ${ground}
}`,
  },
  {
    label: 'regenerative detector',
    detail: 'a detector with a tickler that turns inside its coil',
    write: ({ free, tap, filament, ground }) =>
      `detector stage ${free('DET')} "<regenerative detector>" {
  coil ${free('L')} "three-circuit tuner" {
    form <3 in>
    winding aerial <10> turns of <24 DCC> from <ANT> to ${ground}
    winding grid <46> turns of <24 DCC> beside aerial spaced <1/4 in> from ${tap('A-')}
    winding tickler <20> turns of <26 DSC> inside grid on form <2 in> set <30 %> from ${free('V')}.plate
  }
  condenser ${free('C')} variable <20 to 500 mmfd> rotor to ${free('L')}.grid.start stator to ${free('L')}.grid.finish
  condenser ${free('CG')} "grid condenser" <.00025 mfd> from ${free('L')}.grid.finish to ${free('V')}.grid
  leak ${free('R')} "grid leak" <2 meg> from ${free('V')}.grid to ${tap('A+')}
  tube ${free('V')} <12> {
    filament from <${filament}> to ${tap('A+')}
  }
  phones ${free('PH')} <2000 ohms> from ${free('L')}.tickler.finish to <${tap('B+45', 'B+22')}>
  condenser ${free('CB')} "telephone condenser" <.001 mfd> from ${free('L')}.tickler.finish to ${tap('A-')}
}`,
  },
  {
    label: 'transformer-coupled audio stage',
    detail: 'an audio transformer and its tube, with C bias',
    write: ({ free, tap, filament, before }) =>
      `audio stage ${free('AF')} "<audio amplifier>" {
  transformer ${free('T')} ratio 1 to <3.5> {
    winding primary <14 H> <800 ohms> from <${before}> to <${tap('B+45', 'B+90')}>
    winding secondary <5200 ohms> from <${tap('C-4.5', 'A-')}> to ${free('V')}.grid
  }
  tube ${free('V')} <01-A> {
    filament from <${filament}> to ${tap('A+')}
  }
}`,
  },
  {
    label: 'resistance-coupled audio stage',
    detail: 'plate resistor, coupling condenser and leak',
    write: ({ free, tap, filament, before }) =>
      `audio stage ${free('AF')} "<audio amplifier>" {
  resistor ${free('R')} "plate resistor" <100000 ohms> from <${before}> to <${tap('B+135', 'B+90')}>
  condenser ${free('C')} "coupling condenser" <.1 mfd> from <${before}> to ${free('V')}.grid
  leak ${free('RG')} <1 meg> from ${free('V')}.grid to <${tap('C-4.5', 'A-')}>
  tube ${free('V')} <40> {
    filament from <${filament}> to ${tap('A+')}
  }
}`,
  },
  {
    label: 'output stage with a horn',
    detail: 'an audio transformer, the power tube and the horn',
    write: ({ free, tap, filament, before }) =>
      `output stage ${free('OUT')} "<output>" {
  transformer ${free('T')} ratio 1 to <3> {
    winding primary <14 H> <800 ohms> from <${before}> to <${tap('B+90')}>
    winding secondary <4600 ohms> from <${tap('C-9', 'C-4.5', 'A-')}> to ${free('V')}.grid
  }
  tube ${free('V')} <12-A> {
    filament from <${filament}> to ${tap('A+')}
  }
  horn ${free('H')} <2000 ohms> from ${free('V')}.plate to <${tap('B+135', 'B+90')}>
}`,
  },
];

/** Whole stages, with names that are free and terminals that the set has. */
export function stageEntries(circuit: Circuit | undefined): readonly Entry[] {
  const around = aroundOf(circuit);
  return patterns.map(({ label, detail, write }) => {
    const snippet = write(around);
    return {
      label,
      kind: CompletionItemKind.Snippet,
      detail,
      more: receiverCode(plainOf(snippet)),
      snippet,
    };
  });
}

function aroundOf(circuit: Circuit | undefined): Around {
  const named = new Map<string, string>();
  const parts = circuit?.parts ?? [];
  const taps = new Set(
    parts.flatMap((part) => (isSupply(part) ? part.ends : [])).map((e) => e.name),
  );
  const last = parts.findLast(({ kind }) => kind === 'tube');
  const aerial = parts.find(({ kind, words }) => kind === 'post' && words.has('aerial'));
  const ground = parts.find(({ kind, words }) => kind === 'post' && words.has('ground'));
  const rheostat = parts.findLast(({ kind }) => kind === 'rheostat');
  const bus = parts.find(({ kind, name }) => kind === 'bus' && /^(neg|f-)/i.test(name));
  const tap = (...likely: string[]): string =>
    likely.find((each) => taps.has(each)) ?? likely[0] ?? 'A-';
  return {
    free(letter) {
      const known = named.get(letter) ?? freeName(circuit, letter);
      named.set(letter, known);
      return known;
    },
    tap,
    filament: rheostat?.name ?? bus?.name ?? tap('A-'),
    ground: ground?.name ?? tap('A-'),
    before: last ? `${last.name}.plate` : (aerial?.name ?? 'ANT'),
  };
}
