import type { MemberId, ModelId, PlaceId, ProviderId } from "../ids.ts";
import type { KindFacts } from "../register/kind.ts";
import type { PlaceSort } from "../register/place.ts";
import { foldName } from "./fold-cell.ts";
import { type KindAnswer, kindReader } from "./resolve-kind.ts";

/** What the register holds that a file may name. */
export interface RegisterNames {
  readonly kinds: readonly KindFacts[];
  readonly places: readonly { readonly id: PlaceId; readonly name: string; readonly what: PlaceSort }[];
  readonly members: readonly { readonly id: MemberId; readonly number: string }[];
  readonly providers: readonly { readonly id: ProviderId; readonly name: string }[];
  readonly models: readonly {
    readonly id: ModelId;
    readonly maker: string;
    readonly name: string;
    readonly kind: string;
  }[];
}

/** One name looked up: the one that has it, none, or several. */
export type Found<Id> = { readonly id: Id } | "none" | "several";

/** The names of a register, ready to be looked up from every row of a file. */
export interface RegisterIndex {
  readonly kind: (text: string) => KindAnswer;
  readonly place: (name: string) => Found<PlaceId>;
  readonly station: (name: string) => Found<PlaceId>;
  readonly member: (number: string) => Found<MemberId>;
  readonly provider: (name: string) => Found<ProviderId>;
  readonly model: (maker: string, name: string, kind: string) => Found<ModelId>;
}

/** Makes the register's names ready for look-up; case and spacing do not count, nothing else is guessed. */
export function indexRegister(names: RegisterNames): RegisterIndex {
  const stations = names.places.filter(({ what }) => what === "station");
  const model = finder(names.models, ({ maker, name, kind }) => modelKey(maker, name, kind));
  return {
    kind: kindReader(names.kinds),
    place: finder(names.places, ({ name }) => name),
    station: finder(stations, ({ name }) => name),
    member: finder(names.members, ({ number }) => number),
    provider: finder(names.providers, ({ name }) => name),
    model: (maker, name, kind) => model(modelKey(maker, name, kind)),
  };
}

/** Gives the text by which a model is one model: maker, name and kind, whatever their case. */
export function modelKey(maker: string, name: string, kind: string): string {
  return [foldName(maker), foldName(name), kind].join("\u0000");
}

function finder<Row extends { readonly id: unknown }>(rows: readonly Row[], nameOf: (row: Row) => string) {
  const found = new Map<string, Found<Row["id"]>>();
  for (const row of rows) {
    const key = foldName(nameOf(row));
    found.set(key, found.has(key) ? "several" : { id: row.id });
  }
  return (name: string): Found<Row["id"]> => found.get(foldName(name)) ?? "none";
}
