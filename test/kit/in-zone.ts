/** A run that is meant for another time zone and is not in it would pass for nothing. */
const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
if (zone !== process.env["TZ"] || new Date(Date.UTC(2026, 0, 15)).getTimezoneOffset() === 0) {
  throw new Error(`This run is meant for ${process.env["TZ"]} and is in ${zone}.`);
}
