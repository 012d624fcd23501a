import type { Answer } from "../api/answer.ts";
import type { Client } from "../api/client.ts";
import type { Asked } from "./sign-in-screen.tsx";
import type { SymbolModules } from "./use-symbol.ts";

/** Turns an answer of the client into what screens take. */
export async function ask<Value>(asked: Promise<Answer<Value>>): Promise<Asked<Value>> {
  const answer = await asked;
  return answer.ok ? { answer: answer.answer } : { problem: answer.problem };
}

/** Asks one of the server's addresses by name; the screen knows the shape of what it answers. */
export function load<Value>(
  client: Client,
  path: string,
  params: object = {},
  query: object = {},
): Promise<Asked<Value>> {
  const get = client.get as (path: string, parts: object) => Promise<Answer<Value>>;
  return ask(get(path, { params, query }));
}

/** Asks for one of the lists, such as `places`; empty where it cannot be had. */
export async function loadList<Row>(client: Client, name: string): Promise<readonly Row[]> {
  const asked = await load<Readonly<Record<string, readonly Row[]>>>(client, `/api/${name}`);
  return "answer" in asked ? (asked.answer[name] ?? []) : [];
}

/** Asks for the modules of a tag's symbol. */
export async function symbolOf(client: Client, number: string): Promise<SymbolModules | undefined> {
  const asked = await load<{ rows: readonly string[] }>(client, "/api/symbols/{number}", { number });
  if (!("answer" in asked)) return undefined;
  return asked.answer.rows.map((row) => [...row].map((module) => module === "1"));
}
