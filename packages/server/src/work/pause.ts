/** Lets everything else that waits have its turn, such as messages that have come in. */
export type Pause = () => Promise<void>;

/** How long, in milliseconds, work goes on before it lets others have their turn. */
export const SLICE = 8;

/** Milliseconds without an edit after which there is time for what takes long. */
export const QUIET = 400;
