/**
 * What an opened bypass of the plate supply does, for the pages of the checks that tell of one.
 * Computed for three dials with lossers; a set's own figures are told by `setwright response`.
 */
export const OPENED_BYPASS =
  'A bypass of the plate supply that opens leaves every DC voltage as it was, so that no voltmeter finds it; what it does to the signal depends on the resistance of the supply: hardly anything with a fresh one (20 ohms, and 4 µH of leads), squeals or a loss of more than 10 decibels at the long-wave end with 500 ohms and more. `setwright response` tells it by the numbers of the set.';
