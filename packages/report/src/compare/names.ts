import { type PartKindName, partKinds } from '@setwright/circuit';
import { calledBy, type PlainSet, type Thing } from '@setwright/compare';

/** How the things and terminals of a set are called in sentences. */
export interface Names {
  /** A thing without its kind: `C4`, `V1`, `DET`. */
  readonly thing: (id: string) => string;
  /** A thing with its title: `C4 (grid condenser)`. */
  readonly titled: (id: string) => string;
  /** A terminal as the text calls it: `B+67`, `V3.grid`. */
  readonly terminal: (id: string) => string;
  /** A terminal as one end of its part: `the stator of C4`. */
  readonly end: (id: string) => string;
  readonly kindOf: (id: string) => Thing['kind'] | undefined;
  /** The thing that a terminal is of. */
  readonly ownerOf: (terminal: string) => Thing | undefined;
}

/** The names of a set. */
export function namesOf(set: PlainSet): Names {
  const things = new Map(set.things.map((thing) => [thing.id, thing]));
  const owners = new Map(set.things.flatMap((thing) => thing.ends.map((end) => [end, thing])));
  const titled = (id: string): string => {
    const title = things.get(id)?.facts.title?.[0]?.[0];
    return typeof title === 'string' && title !== '' ? `${calledBy(id)} (${title})` : calledBy(id);
  };
  const ownEnd = (terminal: string): { thing: Thing; end: string } | undefined => {
    const thing = owners.get(terminal);
    return thing && { thing, end: terminal.slice(thing.id.length + 1) };
  };
  return {
    thing: calledBy,
    titled,
    terminal: (id) => {
      const own = ownEnd(id);
      if (!own) return calledBy(id);
      return own.thing.kind === 'battery' || own.thing.kind === 'eliminator' ? own.end : id;
    },
    end: (id) => {
      const own = ownEnd(id);
      if (!own || own.end === '') return calledBy(id);
      const { thing, end } = own;
      if (thing.kind === 'battery' || thing.kind === 'eliminator') return end;
      if (thing.kind === 'lead') return `the ${thing.id}`;
      const spoken = endWords(end);
      return `${spoken.startsWith('tap ') ? '' : 'the '}${spoken} of ${thing.id}`;
    },
    kindOf: (id) => things.get(id)?.kind,
    ownerOf: (terminal) => owners.get(terminal),
  };
}

/** Words for an end as a sentence begins with them: `The stator of C4`, `B+45`. */
export function atBeginning(words: string): string {
  return /^(?:the|tap) /.test(words) ? words.slice(0, 1).toUpperCase() + words.slice(1) : words;
}

/** An end's name as it is spoken: `tap 4`, `negative filament end`. */
function endWords(end: string): string {
  if (end === 'filament-') return 'F− end';
  if (end === 'filament+') return 'F+ end';
  const [, tap] = /^tap(\d.*)$/.exec(end) ?? [];
  if (tap !== undefined) return `tap ${tap}`;
  return end;
}

/** What a thing is called by its kind: `condenser`, `binding post`, `gang`. */
export function nounOf(thing: Pick<Thing, 'kind'>): string {
  const { kind } = thing;
  return kind in partKinds
    ? partKinds[kind as PartKindName].noun
    : kind === 'receiver'
      ? 'set'
      : kind;
}
