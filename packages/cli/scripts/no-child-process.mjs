// Stands in the bundle for Node's child_process, which the tool never uses.
/** @public */
export function spawn() {
  throw new Error('the tool starts no other programs');
}
