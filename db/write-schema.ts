import type { Column, Table } from "./read-schema.ts";

const SCALARS: Readonly<Record<string, string>> = {
  boolean: "boolean",
  bytea: "Buffer",
  bigint: "number",
  date: "string",
  integer: "number",
  jsonb: "Json",
  smallint: "number",
  text: "string",
  "timestamp with time zone": "Timestamp",
  uuid: "string",
};

const FACES: Readonly<Record<string, string>> = {
  Json: "ColumnType<unknown, string, string>",
  Timestamp: "ColumnType<Date, Date | string, Date | string>",
};

/** Writes the Kysely types of the tables, in the forms of value that db/connect.ts gives. */
export function writeTypes(tables: readonly Table[]): string {
  const lines = [
    "// Written by `npm run schema` from the migrated database. Do not edit.",
    'import type { ColumnType, Generated, GeneratedAlways, Selectable } from "kysely";',
    "",
    "/** jsonb goes in as JSON text, so that a list is not taken for a PostgreSQL array. */",
    `type Json = ${FACES["Json"]};`,
    "/** An instant; a text that goes in carries its offset. */",
    `type Timestamp = ${FACES["Timestamp"]};`,
    "",
  ];
  for (const table of tables) {
    lines.push(`export interface ${pascal(table.name)}Table {`);
    for (const column of table.columns) lines.push(`  ${column.name}: ${columnType(table, column)};`);
    lines.push("}", `export type ${pascal(table.name)}Row = Selectable<${pascal(table.name)}Table>;`, "");
  }
  lines.push("export interface Database {");
  for (const table of tables) lines.push(`  ${table.name}: ${pascal(table.name)}Table;`);
  lines.push("}", "");
  return lines.join("\n");
}

function columnType(table: Table, column: Column): string {
  const isArray = column.type.endsWith("[]");
  const scalar = SCALARS[isArray ? column.type.slice(0, -2) : column.type];
  if (scalar === undefined) {
    throw new Error(
      `Column ${table.name}.${column.name} has type ${column.type}, which db/write-schema.ts does not know.`,
    );
  }
  const value =
    column.allowed?.map((text) => JSON.stringify(text)).join(" | ") ?? (isArray ? `${scalar}[]` : scalar);
  const nullable = column.isNullable ? orNull(value) : value;
  if (column.filledBy === "generated" || column.filledBy === "identity")
    return `GeneratedAlways<${nullable}>`;
  return column.filledBy === "default" ? orFilled(nullable) : nullable;
}

/** Likewise a column that the database fills: Kysely's own word for it does not look into one with three faces. */
function orFilled(value: string): string {
  const faces = /^ColumnType<(.+), (.+), (.+)>$/.exec(FACES[value] ?? value);
  return faces ? `ColumnType<${faces[1]}, ${faces[2]} | undefined, ${faces[3]}>` : `Generated<${value}>`;
}

/** A column type with three faces must carry null in each of them. */
function orNull(value: string): string {
  if (value === "Json") return "ColumnType<unknown, string | null, string | null>";
  if (value === "Timestamp") return "ColumnType<Date | null, Date | string | null, Date | string | null>";
  return `${value} | null`;
}

function pascal(name: string): string {
  return name
    .split("_")
    .map((word) => word.charAt(0).toUpperCase() + word.slice(1))
    .join("");
}

/** Writes the schema as a list to compare and to read. It is not meant to be run: the migrations are. */
export function writeListing(tables: readonly Table[]): string {
  const lines = [
    "-- Written by `npm run schema` from the migrated database. Do not edit; not meant to be run.",
  ];
  for (const table of tables) {
    lines.push("", `table ${table.name}`);
    for (const column of table.columns) lines.push(`  ${columnLine(column)}`);
    for (const constraint of table.constraints) lines.push(`  constraint ${constraint}`);
    for (const index of table.indexes) lines.push(`  ${index}`);
    for (const grant of table.grants) lines.push(`  grant ${grant}`);
  }
  return `${lines.join("\n")}\n`;
}

function columnLine(column: Column): string {
  const parts = [column.name, column.type];
  if (!column.isNullable) parts.push("not null");
  if (column.filledBy === "identity") parts.push("identity");
  if (column.filledBy === "default") parts.push(`default ${column.expression}`);
  if (column.filledBy === "generated") parts.push(`generated ${column.expression}`);
  return parts.join(" ");
}
