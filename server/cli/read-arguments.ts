import { parseArgs } from "node:util";
import { BadInput, type Command, type Given } from "./command.ts";

/** How the commands are called, as it stands in every hint. */
export const PROGRAM = "npm run layertrail --";

const GENERAL = { help: { type: "boolean" }, json: { type: "boolean" } } as const;

/** Reads what a command was given. Throws BadInput with one line on what it does not take. */
export function readArguments(command: Command, args: readonly string[]): Given {
  const hint = `"${PROGRAM} ${command.name} --help" says how it is called.`;
  const parsed = parse(command, args, hint);
  const { positionals } = parsed;
  const values: Record<string, string | boolean | (string | boolean)[] | undefined> = parsed.values;
  const isHelp = values["help"] === true;
  const missing = command.arguments[positionals.length];
  if (!isHelp && missing !== undefined) throw new BadInput(`${command.name} needs ${missing}. ${hint}`);
  const surplus = positionals[command.arguments.length];
  if (!isHelp && surplus !== undefined) {
    throw new BadInput(`${command.name} does not know what to do with "${surplus}". ${hint}`);
  }
  const texts = (option: string) =>
    [values[option] ?? []].flat().filter((value): value is string => typeof value === "string");
  return {
    arguments: positionals,
    texts,
    text: (option) => texts(option).at(-1),
    isSet: (option) => values[option] === true,
  };
}

function parse(command: Command, args: readonly string[], hint: string) {
  const own = Object.entries(command.options).map(([name, { type, multiple }]) => [
    name,
    { type, ...(multiple ? { multiple } : {}) },
  ]);
  try {
    return parseArgs({
      args: [...args],
      options: { ...GENERAL, ...Object.fromEntries(own) },
      allowPositionals: true,
      strict: true,
    });
  } catch (error) {
    const [, option] = /'(-[^' ]*)/.exec(error instanceof Error ? error.message : "") ?? [];
    const code = (error as { code?: string }).code;
    if (code === "ERR_PARSE_ARGS_UNKNOWN_OPTION")
      throw new BadInput(`${command.name} has no option ${option}. ${hint}`);
    if (code === "ERR_PARSE_ARGS_INVALID_OPTION_VALUE") {
      const { type } = command.options[option?.replace(/^-+/, "").replace(/,$/, "") ?? ""] ?? {};
      const what = type === "string" ? "needs a value" : "takes no value";
      throw new BadInput(`The option ${option?.replace(/,$/, "")} ${what}. ${hint}`);
    }
    throw error;
  }
}

/** Writes how a command is called, what it takes and what a person should know. */
export function helpFor(command: Command): string[] {
  const options = Object.entries({
    ...command.options,
    json: { type: "boolean" as const, says: "answer as one JSON object" },
    help: { type: "boolean" as const, says: "say this" },
  }).map(([name, option]) => {
    const value = "value" in option && option.value ? ` ${option.value}` : "";
    return [`--${name}${value}`, option.says] as const;
  });
  const widest = Math.max(...options.map(([option]) => option.length));
  return [
    `${PROGRAM} ${[command.name, ...command.arguments].join(" ")} [options]`,
    "",
    command.summary,
    ...(command.details.length > 0 ? ["", ...command.details] : []),
    "",
    ...options.map(([option, says]) => `  ${option.padEnd(widest)}  ${says}`),
    "",
    "Exit code: 0 done, 1 found something or refused, 2 not understood, 3 could not be tried.",
  ];
}
