import { type Command, EXIT, withDatabase } from "../command.ts";

export const migrateCommand: Command = {
  name: "migrate",
  summary: "Bring the schema of the database up to date.",
  arguments: [],
  options: {},
  details: [
    "The server does the same when it starts. With DATABASE_URL it needs MIGRATE_DATABASE_URL, the owner's way in.",
    "Migrations run forward only, one transaction each; what has run is left alone.",
  ],
  run: (_, house) =>
    withDatabase(house, { mayBeNew: true }, async ({ landed }) => ({
      code: EXIT.ok,
      lines:
        landed.length === 0
          ? ["The schema was up to date."]
          : landed.map((name) => `Migration ${name} has run.`),
      json: { landed },
    })),
};
