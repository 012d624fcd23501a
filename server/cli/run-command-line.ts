import { BadInput, type Command, EXIT, type ExitCode, type House, type Outcome } from "./command.ts";
import { COMMANDS } from "./commands.ts";
import { helpFor, PROGRAM, readArguments } from "./read-arguments.ts";

/** Where a command line writes: what it was asked for, and what is said beside it. */
export interface Voices {
  readonly out: (line: string) => void;
  readonly err: (line: string) => void;
}

/** Trouble that ends a command: one line of words for a person. Anything else is a fault of ours and told whole. */
export type AsTrouble = (error: unknown) => string | undefined;

/** Runs one command line and gives its exit code. */
export async function runCommandLine(
  args: readonly string[],
  house: House,
  { out, err }: Voices,
  asTrouble: AsTrouble,
  commands: readonly Command[] = COMMANDS,
): Promise<ExitCode> {
  const [name, ...rest] = args;
  if (name === undefined || name === "--help" || name === "help") {
    for (const line of overview(commands)) out(line);
    return name === undefined ? EXIT.usage : EXIT.ok;
  }
  const isJson = rest.includes("--json");
  const fail = (code: ExitCode, message: string) => {
    if (isJson) out(JSON.stringify({ error: message }));
    err(message);
    return code;
  };
  const command = commands.find((one) => one.name === name);
  if (!command)
    return fail(EXIT.usage, `There is no command "${name}". "${PROGRAM} --help" lists those there are.`);
  try {
    const given = readArguments(command, rest);
    if (given.isSet("help")) {
      for (const line of helpFor(command)) out(line);
      return EXIT.ok;
    }
    return answer(await command.run(given, house), isJson, out);
  } catch (error) {
    if (error instanceof BadInput) return fail(EXIT.usage, error.message);
    const trouble = asTrouble(error);
    if (trouble === undefined) throw error;
    return fail(EXIT.trouble, trouble);
  }
}

function answer({ code, lines, json }: Outcome, isJson: boolean, out: Voices["out"]): ExitCode {
  if (isJson) out(JSON.stringify(json));
  else for (const line of lines) out(line);
  return code;
}

function overview(commands: readonly Command[]): string[] {
  const calls = commands.map((command) => [[command.name, ...command.arguments].join(" "), command.summary]);
  const widest = Math.max(...calls.map(([call]) => call?.length ?? 0));
  return [
    `${PROGRAM} COMMAND [options]`,
    "",
    ...calls.map(([call, summary]) => `  ${call?.padEnd(widest)}  ${summary}`),
    "",
    `"${PROGRAM} COMMAND --help" says more. The database is the one that "npm start" uses: see README.md.`,
  ];
}
