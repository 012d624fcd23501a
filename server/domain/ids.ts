import type { Brand } from "./brand.ts";

/** A UUID in lower case with hyphens (RFC 9562). Never used to order custody: it shows creation time only. */
export type Uuid = Brand<string, "uuid">;
export type PieceId = Brand<Uuid, "piece">;
export type TagId = Brand<Uuid, "tag">;
export type PlaceId = Brand<Uuid, "place">;
export type MemberId = Brand<Uuid, "member">;
export type ProviderId = Brand<Uuid, "provider">;
export type OutsideId = Brand<Uuid, "outside party">;
export type ModelId = Brand<Uuid, "model">;
export type EventId = Brand<Uuid, "contamination event">;
export type AccountId = Brand<Uuid, "account">;
export type MachineId = Brand<Uuid, "machine">;
export type ProgrammeId = Brand<Uuid, "programme">;
export type LoadId = Brand<Uuid, "load">;
export type ActId = Brand<Uuid, "act">;

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;

/** Parses a UUID, folding its case. Returns undefined for any other text. Source: RFC 9562 section 4. */
export function parseUuid(text: string): Uuid | undefined {
  const folded = text.toLowerCase();
  return UUID.test(folded) ? (folded as Uuid) : undefined;
}
