import type { Db } from "../cases/database-handle.ts";
import type { OnProgress } from "../cases/progress.ts";

/** What a script reads in the exit code. */
export const EXIT = {
  ok: 0,
  /** Something was found, or refused. */
  found: 1,
  /** The command was not understood, or what it was given is not what it takes. */
  usage: 2,
  /** It could not be tried: no database, no disk, no permission. */
  trouble: 3,
} as const;
export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

export interface Option {
  readonly type: "string" | "boolean";
  readonly multiple?: true;
  /** What stands for the value in the help: FILE, NUMBER. */
  readonly value?: string;
  readonly says: string;
}

/** What a command was given: its arguments in order and its options by name. */
export interface Given {
  readonly arguments: readonly string[];
  text(option: string): string | undefined;
  texts(option: string): readonly string[];
  isSet(option: string): boolean;
}

/** What a command came to: lines for a person, a value for a program, a code for a script. */
export interface Outcome {
  readonly code: ExitCode;
  readonly lines: readonly string[];
  readonly json: object;
}

/** The database that a command works on, and what must be closed after. */
export interface OpenHouse {
  readonly db: Db;
  /** Migrations that ran because the database was opened for this command. */
  readonly landed: readonly string[];
  readonly close: () => Promise<void>;
}

/** What a command can reach outside itself. */
export interface House {
  /**
   * Reaches the department's database: of a server that runs, of a stopped one by starting it for the time of the
   * command, or the one of DATABASE_URL. Only with `mayBeNew` is one made where there is none.
   */
  open(how: { readonly mayBeNew: boolean }): Promise<OpenHouse>;
  /** Shows how far long work has come, where somebody looks on. */
  readonly progress: OnProgress;
  readonly now: () => number;
  /** Where people open Layertrail: the first part of a link. Undefined while any free port may be taken and no server runs. */
  readonly address: string | undefined;
}

/** One command of the command line. A new one is a file beside the others and a row in commands.ts. */
export interface Command {
  readonly name: string;
  readonly summary: string;
  /** Names of the arguments, all needed, in order. */
  readonly arguments: readonly string[];
  readonly options: Readonly<Record<string, Option>>;
  /** What a person should know before running it. */
  readonly details: readonly string[];
  run(given: Given, house: House): Promise<Outcome>;
}

/** Ends a command because what it was given cannot be used: one line, with what next. */
export class BadInput extends Error {}

/** Opens the database for the time of some work. */
export async function withDatabase<Result>(
  house: House,
  how: { readonly mayBeNew: boolean },
  work: (open: OpenHouse) => Promise<Result>,
): Promise<Result> {
  const open = await house.open(how);
  try {
    return await work(open);
  } finally {
    await open.close();
  }
}
