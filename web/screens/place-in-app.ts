/** Where in the program a browser address leads. */
export type AppPlace =
  | { readonly screen: "bench" }
  | { readonly screen: "link"; readonly token: string }
  | { readonly screen: "trail"; readonly piece: string }
  | { readonly screen: "describe"; readonly piece: string }
  | { readonly screen: "place"; readonly place: string }
  | { readonly screen: "member"; readonly member: string }
  | { readonly screen: "machine"; readonly machine: string }
  | { readonly screen: "new event" }
  | { readonly screen: "event"; readonly event: string }
  | { readonly screen: "trace"; readonly trace: string }
  | {
      readonly screen:
        | "find"
        | "register"
        | "import"
        | "tags"
        | "cards"
        | "models"
        | "places"
        | "members"
        | "events"
        | "bags"
        | "traces"
        | "new trace"
        | "contaminants"
        | "parties"
        | "machines"
        | "property"
        | "people"
        | "settings"
        | "own";
    }
  | { readonly screen: "nowhere" };

const LISTS = [
  "find",
  "register",
  "import",
  "tags",
  "cards",
  "models",
  "places",
  "members",
  "events",
  "bags",
  "traces",
  "contaminants",
  "parties",
  "machines",
  "property",
  "people",
  "settings",
  "own",
] as const;

/** Reads an address of the program. One that leads nowhere says so instead of showing something else. */
export function placeOf(path: string, hash: string): AppPlace {
  const [first = "", second, third] = path.split("/").filter(Boolean);
  if (first === "") return { screen: "bench" };
  if (first === "link") return { screen: "link", token: hash.replace(/^#/, "") };
  if (first === "pieces" && second) {
    return third === "describe" ? { screen: "describe", piece: second } : { screen: "trail", piece: second };
  }
  if (first === "places" && second) return { screen: "place", place: second };
  if (first === "machines" && second) return { screen: "machine", machine: second };
  if (first === "events" && second) {
    return second === "new" ? { screen: "new event" } : { screen: "event", event: second };
  }
  if (first === "trace" && !second) return { screen: "new trace" };
  if (first === "traces" && second) return { screen: "trace", trace: second };
  if (first === "members" && second) return { screen: "member", member: second };
  const list = LISTS.find((name) => name === first);
  return list && !second ? { screen: list } : { screen: "nowhere" };
}
