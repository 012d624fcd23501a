import type { Command } from "./command.ts";
import { backupCommand } from "./commands/backup.ts";
import { importCommand } from "./commands/import.ts";
import { migrateCommand } from "./commands/migrate.ts";
import { officerLinkCommand } from "./commands/officer-link.ts";
import { restoreCommand } from "./commands/restore.ts";
import { tagsCommand } from "./commands/tags.ts";
import { traceCommand } from "./commands/trace.ts";
import { verifyCommand } from "./commands/verify.ts";

/** Every command there is, in the order in which the help lists them. */
export const COMMANDS: readonly Command[] = [
  importCommand,
  tagsCommand,
  traceCommand,
  verifyCommand,
  backupCommand,
  restoreCommand,
  migrateCommand,
  officerLinkCommand,
];
