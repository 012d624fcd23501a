/** Fixed words of cleaning: machines, programmes, limits, loads and what was found in pockets. */

export const CLEANING_WORDS = {
  limits: "Limits for washing and drying programmes",
  limit: {
    "wash temperature, most °F": "Temperature at most, °F",
    "wash temperature, most °C": "Temperature at most, °C",
    "detergent pH, least": "Detergent pH at least",
    "detergent pH, most": "Detergent pH at most",
    "extraction, most G": "Extraction at most, G",
  },
  limitWrong: (least: number, most: number) => `Type a figure from ${least} to ${most}, such as 10.5.`,
  source: "Source of the starting values",
} as const;
