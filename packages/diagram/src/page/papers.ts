/** Sheets that a drawing may be printed on, by name, in millimetres. */
export const papers = {
  a4: { width: 210, height: 297 },
  'a4-landscape': { width: 297, height: 210 },
  letter: { width: 215.9, height: 279.4 },
  'letter-landscape': { width: 279.4, height: 215.9 },
} as const;

export type PaperName = keyof typeof papers;

/** White edge of a sheet, in millimetres: what every printer can keep. */
export const MARGIN = 10;

/** Millimetres of a typographer's point. */
export const POINT = 25.4 / 72;
