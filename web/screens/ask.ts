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

/** Asks for the whole of one of the lists, such as `members`: where the server gives a page and says so, for the rest. */
export async function loadWhole<Row>(client: Client, name: string): Promise<Asked<readonly Row[]>> {
  const rows: Row[] = [];
  for (let after: string | undefined; ; ) {
    const asked = await load<Page<Row>>(client, `/api/${name}`, {}, after ? { after } : {});
    if ("problem" in asked) return asked;
    rows.push(...((asked.answer[name] as readonly Row[] | undefined) ?? []));
    after = asked.answer.next;
    if (after === undefined) return { answer: rows };
  }
}
type Page<Row> = { readonly next?: string } & Readonly<Record<string, readonly Row[] | string | undefined>>;

/** Asks for one of the lists, such as `places`; empty where it cannot be had. */
export async function loadList<Row>(client: Client, name: string): Promise<readonly Row[]> {
  const asked = await loadWhole<Row>(client, name);
  return "answer" in asked ? asked.answer : [];
}

/** Asks for the modules of a tag's symbol. */
export async function symbolOf(client: Client, number: string): Promise<SymbolModules | undefined> {
  const asked = await load<{ rows: readonly string[] }>(client, "/api/symbols/{number}", { number });
  if (!("answer" in asked)) return undefined;
  return asked.answer.rows.map((row) => [...row].map((module) => module === "1"));
}
