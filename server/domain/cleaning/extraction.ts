/** From revolutions a minute and inches to G. Source: facts.md 6.3, two laundry guides [S104][S105]; physics gives 70,414. */
const RPM_SQUARED_INCHES_PER_G = 70_500;
const MM_PER_INCH = 25.4;

/** Computes the extraction of a drum in G from its speed in revolutions a minute and its diameter in millimetres. */
export function extractionG(rpm: number, drumDiameterMm: number): number {
  return (rpm * rpm * (drumDiameterMm / MM_PER_INCH)) / RPM_SQUARED_INCHES_PER_G;
}

/** Gives the highest whole number of revolutions a minute at which a drum does not exceed so many G. */
export function highestRpm(mostG: number, drumDiameterMm: number): number {
  return Math.floor(Math.sqrt((mostG * RPM_SQUARED_INCHES_PER_G * MM_PER_INCH) / drumDiameterMm));
}
