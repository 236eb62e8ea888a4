/**
 * Does something again as often as it is wanted, one after the other and never twice at once. What is
 * wanted several times meanwhile is done once afterwards: so a picture follows fast typing and never
 * falls behind it. What it throws is dropped: it tells of its own troubles. `isDue` may say that there is nobody to do it for.
 */
export function oneAtATime(does: () => Promise<void>, isDue: () => boolean): () => void {
  let isBusy = false;
  let isWanted = false;
  const run = async (): Promise<void> => {
    isBusy = true;
    try {
      while (isWanted && isDue()) {
        isWanted = false;
        await does().catch(() => undefined);
      }
    } finally {
      isBusy = false;
    }
  };
  return () => {
    isWanted = true;
    if (!isBusy) void run();
  };
}
