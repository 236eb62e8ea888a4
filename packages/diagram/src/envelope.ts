/**
 * A tube's envelope left open where the symbol goes on elsewhere, as the standards have it for a
 * tube drawn in parts: below a tube whose filament is drawn in the filament circuit, and above
 * that filament.
 */
export const openBelow = 'M-12.7 27.2A30 30 0 1 1 12.7 27.2';
export const openAbove = 'M8.6 -12.3A15 15 0 1 1 -8.6 -12.3';
