/** A word that leads a detail of a statement, or stands there by itself. */
export interface DetailWord {
  readonly word: string;
  readonly meaning: string;
  readonly example: string;
}

const said = (word: string, meaning: string, example: string): DetailWord => ({
  word,
  meaning,
  example,
});

/** What the words inside a statement mean. */
export const detailHelp: readonly DetailWord[] = [
  said(
    'from',
    'Joins the start of a part; of a filament the F− end.',
    'leak R1 2 meg from V1.grid to A+',
  ),
  said(
    'to',
    'Joins the finish of a part, or stands between the ends of a range.',
    'condenser C1 variable 14 to 365 mmfd',
  ),
  said(
    'across',
    'Joins both ends of a part to those of another.',
    'condenser C1 .001 mfd across PH1',
  ),
  said('of', 'The wire that a winding is wound with.', 'winding grid 56 turns of 26 DCC'),
  said(
    'beside',
    'A winding that stands next to another on the form.',
    'winding grid 56 turns of 26 DCC beside aerial',
  ),
  said(
    'over',
    'A winding that lies on top of another.',
    'winding plate 10 turns of 30 DSC over grid at start',
  ),
  said(
    'inside',
    'A winding that lies within another.',
    'winding tickler 20 turns of 30 DSC inside grid',
  ),
  said(
    'on',
    'A winding’s own form; on a bench the range of the meter.',
    'winding grid 50 turns of 24 DCC on form 2 in',
  ),
  said(
    'at',
    'Where a winding lies over another; the load of an eliminator’s tap.',
    'winding plate 10 turns of 30 DSC over grid at start',
  ),
  said(
    'set',
    'How a control stands: a percentage, ohms, `off`, or a stud.',
    'rheostat RH1 20 ohms from A- set 4 ohms',
  ),
  said(
    'spaced',
    'The room between two windings.',
    'winding grid 56 turns of 26 DCC beside aerial spaced 1/4 in',
  ),
  said(
    'paper',
    'The paper between two windings; of a condenser what parts its plates.',
    'winding plate 10 turns of 30 DSC over grid paper .01 in',
  ),
  said(
    'length',
    'How long a winding is, where it is not wound close.',
    'winding grid 46 turns of 24 DCC length 1 1/2 in',
  ),
  said(
    'through',
    'What current goes through while a jack is empty; what joins two terminals.',
    'jack J1 from V1.plate to B+90 through T1.primary',
  ),
  said('into', 'The jack that something is plugged into.', 'phones PH1 2000 ohms into J1'),
  said('around', 'What a shield stands around.', 'shield SH1 around L1 to GND'),
  said('drives', 'What a dial turns.', 'dial D1 0 to 100 drives C1'),
  said('with', 'The second of two.', 'coupling aerial with grid 30 %'),
  said('by', 'The length of a form.', 'form 2 3/4 in by 4 in'),
  said(
    'breaks',
    'A contact that opens: of a switch when it closes, of a jack when it is plugged.',
    'jack J1 from V1.plate to B+90 breaks A- to NEG',
  ),
  said(
    'makes',
    'A contact that closes: of a switch with it, of a jack when it is plugged.',
    'jack J1 from V1.plate to B+90 makes A- to NEG',
  ),
  said('tap', 'A tap, counted in turns from the start.', 'winding grid 56 turns of 26 DCC tap 13'),
  said(
    'taps',
    'Taps, counted in turns from the start.',
    'winding aerial 12 turns of 26 DCC taps 4, 8',
  ),
  said('centre', 'A tap at the middle.', 'winding secondary 5200 ohms centre to C-4.5'),
  said(
    'rotor',
    'Joins the moving plates.',
    'condenser C1 variable 14 to 365 mmfd rotor to GND stator to V1.grid',
  ),
  said(
    'stator',
    'Joins the fixed plates.',
    'condenser C1 variable 14 to 365 mmfd rotor to GND stator to V1.grid',
  ),
  said(
    'arm',
    'Joins the arm of a potentiometer.',
    'potentiometer P1 400 ohms from A- to A+ arm to GND',
  ),
  said('mineral', 'Joins the mineral of a crystal.', 'crystal X1 mineral to GND whisker to ANT'),
  said('whisker', 'Joins the whisker of a crystal.', 'crystal X1 mineral to GND whisker to ANT'),
  said('tip', 'Joins the tip spring of a jack.', 'jack J1 tip to V1.plate sleeve to B+90'),
  said('sleeve', 'Joins the sleeve of a jack.', 'jack J1 tip to V1.plate sleeve to B+90'),
  said(
    'positive',
    'Joins the side marked +.',
    'condenser C1 electrolytic 8 mfd positive to A+ negative to A-',
  ),
  said(
    'negative',
    'Joins the side marked −.',
    'condenser C1 electrolytic 8 mfd positive to A+ negative to A-',
  ),
  said(
    'start',
    'Joins the start, as `from` does.',
    'resistor R1 1500 ohms start to GND finish to V1.grid',
  ),
  said(
    'finish',
    'Joins the finish, as `to` does.',
    'resistor R1 1500 ohms start to GND finish to V1.grid',
  ),
  said('frame', 'Joins the frame of a gang, and so all its rotors.', 'gang G1 C1, C2 frame to GND'),
  said(
    'law',
    'What goes evenly with the dial: capacity, wavelength or frequency.',
    'condenser C1 variable 14 to 365 mmfd law wavelength',
  ),
  said(
    'found',
    'What the part measured on the bench, beside what it should be.',
    'leak R1 2 meg from V1.grid to A+ found 2.5 meg',
  ),
  said('ratio', 'Turns of the primary to turns of the secondary.', 'transformer T1 ratio 1 to 3.5'),
  said('like', 'Made like another: everything but its ends, unless said anew.', 'coil L2 like L1'),
  said(
    'reversed',
    'Wound the other way round; of a dial, its lower end is plates in.',
    'winding plate 10 turns of 30 DSC reversed',
  ),
  said(
    'insulated',
    'Its shaft or frame is insulated from its rotor.',
    'condenser C1 variable 14 to 365 mmfd insulated',
  ),
  said('variable', 'One that is turned.', 'condenser C1 variable 14 to 365 mmfd'),
  said('trimmer', 'One that is set once.', 'condenser C1 trimmer 5 to 30 mmfd'),
  said(
    'neutralizing',
    'One that feeds back what balances the tube’s own capacity.',
    'condenser C1 neutralizing 2 to 10 mmfd',
  ),
  said(
    'electrolytic',
    'One with a positive and a negative side.',
    'condenser C1 electrolytic 8 mfd',
  ),
  said('lifted', 'Read with the part’s end off.', 'reading T1.primary 830 ohms lifted'),
];
