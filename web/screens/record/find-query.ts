/** What is searched by; an empty text leaves a thing out of the search. */
export interface FindQuery {
  /** Part of a tag number or serial, another code, a member, a place, a model or a size. */
  readonly q: string;
  readonly kind: string;
  /** Id of the place or member that has it. */
  readonly holder: string;
  /** Id of the member who has it, or to whom it belongs. */
  readonly member: string;
  /** Name of a model, as the label says it. */
  readonly model: string;
  readonly size: string;
  readonly state: string;
  /** A day, `YYYY-MM-DD`. */
  readonly lastSeenBefore: string;
}

export const EMPTY_QUERY: FindQuery = {
  ...{ q: "", kind: "", holder: "", member: "", model: "", size: "", state: "", lastSeenBefore: "" },
};

const NAMES = Object.keys(EMPTY_QUERY) as readonly (keyof FindQuery)[];

/** Tells whether two searches ask for the same. */
export function isSameQuery(a: FindQuery, b: FindQuery): boolean {
  return NAMES.every((name) => a[name].trim() === b[name].trim());
}

/** Writes a search as the end of an address: `?q=C7K3&size=46`. Empty when nothing is searched. */
export function queryAddress(query: FindQuery): string {
  const given = NAMES.filter((name) => query[name].trim() !== "");
  const text = new URLSearchParams(given.map((name) => [addressName(name), query[name].trim()])).toString();
  return text ? `?${text}` : "";
}

/** Reads a search from the end of an address; what it does not know it leaves out. */
export function queryFromAddress(text: string): FindQuery {
  const given = new URLSearchParams(text);
  const read = NAMES.map((name) => [name, given.get(addressName(name)) ?? ""]);
  return Object.fromEntries(read) as unknown as FindQuery;
}

function addressName(name: keyof FindQuery): string {
  return name === "lastSeenBefore" ? "last-seen-before" : name;
}
