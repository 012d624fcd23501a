import { linkPath, managerLink } from "../../cases/set-up.ts";
import { type Command, EXIT, withDatabase } from "../command.ts";

export const officerLinkCommand: Command = {
  name: "officer-link",
  summary: "Print a one-time link that makes its user a program manager.",
  arguments: [],
  options: {},
  details: [
    "For the first program manager, and for a department whose program managers have all lost their passphrase.",
    "The link opens once, within 24 hours. Whoever has it can do everything: hand it over in person.",
  ],
  run: (_, house) =>
    withDatabase(house, { mayBeNew: false }, async ({ db }) => {
      const link = await managerLink(db, house.now());
      const url = `${house.address ?? ""}${linkPath(link)}`;
      const until = new Date(link.expiresAtMs).toISOString();
      return {
        code: EXIT.ok,
        lines: [url, `It opens once, until ${until}, ${whereOpened(house.address)}`],
        json: { url, expiresAt: until },
      };
    }),
};

function whereOpened(address: string | undefined): string {
  return address === undefined
    ? "at the address that Layertrail prints when it starts: put that before it."
    : `while Layertrail runs at ${address}.`;
}
