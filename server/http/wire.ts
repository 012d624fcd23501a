import { z } from "@hono/zod-openapi";
import type { Holder } from "../domain/custody/holder.ts";
import { EVIDENCE } from "../domain/evidence.ts";
import { type PieceId, parseUuid, type Uuid } from "../domain/ids.ts";
import {
  PASSPHRASE_MAX,
  PASSPHRASE_MIN,
  type Pin,
  parsePassphrase,
  parsePin,
  parseSignInName,
  type SignInName,
} from "../domain/people/secrets.ts";
import { parseTagNumber, type TagNumber } from "../domain/tags/tag-number.ts";
import { type Instant, type LocalDate, type MadeOn, parseLocalDate, parseMadeOn } from "../domain/time.ts";

/** Takes text through one of the domain's parsers, so that a branded value is made once, at the rim. */
function parsedText<Value>(parse: (text: string) => Value | undefined, says: string) {
  return z
    .string()
    .max(100)
    .transform((text, context): Value => {
      const value = parse(text);
      if (value !== undefined) return value;
      context.addIssue({ code: "custom", message: says });
      return z.NEVER;
    });
}

/** An id on the wire, as the brand that the command wants: `id<PieceId>()`. */
export function id<Id extends Uuid = Uuid>() {
  return parsedText((text) => parseUuid(text) as Id | undefined, "must be a UUID").openapi({
    type: "string",
    format: "uuid",
  });
}

/** An instant in a request: ISO 8601 with Z or an offset; in the program milliseconds. Source: RFC 3339. */
export const instant = z.iso
  .datetime({ offset: true, error: "must be an instant such as 2026-03-02T08:00:00Z" })
  .transform((text) => Date.parse(text) as Instant)
  .openapi({ type: "string", format: "date-time" });

/** A calendar day, `YYYY-MM-DD`. */
export const day = parsedText<LocalDate>(parseLocalDate, "must be a day such as 2026-03-02").openapi({
  type: "string",
  format: "date",
});

/** A manufacture date: a full day or a month alone. */
export const madeOn = parsedText<MadeOn>(parseMadeOn, "must be a day or a month such as 2024-05").openapi({
  type: "string",
});

/** A tag or card number whose check symbols hold. */
export const tagNumber = parsedText<TagNumber>(
  parseTagNumber,
  "must be a number whose check symbols hold",
).openapi({ type: "string", example: "C7K3F92CXTKK" });

/** Text that is said in one line, trimmed: 1 to `max` characters. */
export function line(max = 200) {
  return z
    .string()
    .trim()
    .min(1, "must not be empty")
    .max(max, `must have at most ${max} characters`)
    .regex(/^[^\p{Cc}]*$/u, "must be one line");
}

/** A note in free words; it is kept apart from what is hashed. */
export const note = z
  .string()
  .trim()
  .min(1, "must not be empty")
  .max(2000, "must have at most 2000 characters");

export const evidence = z.enum(EVIDENCE);

const heldBy = ["place", "member", "provider", "outside"] as const;

/** Who or what has custody. */
export const holder = z
  .union([
    z.object({ kind: z.enum(heldBy), id: id() }),
    z.object({ kind: z.enum(["in transit", "whereabouts unknown"]) }),
  ])
  .transform((value) => value as Holder)
  .openapi("Holder", {
    type: "object",
    required: ["kind"],
    properties: {
      kind: { type: "string", enum: [...heldBy, "in transit", "whereabouts unknown"] },
      id: { type: "string", format: "uuid" },
    },
  });

/** As many as one act takes: a station's gear goes in several. */
export const MOST_PIECES = 500;

/** Pieces as they came before the scanner or the keyboard. */
export const handledPieces = piecesKnownBy(["scanned", "typed"]);

/** Pieces with how they are known to be there. */
export function piecesKnownBy<const How extends "scanned" | "typed" | "with its set">(how: readonly How[]) {
  const handled = z.object({
    piece: id<PieceId>(),
    evidence: z.enum(how),
    reliedOn: z.object({ holder: holder.exactOptional() }).exactOptional(),
  });
  return z.array(handled).min(1).max(MOST_PIECES);
}

/** Answers: ids and instants as text. */
export const idText = z.string().openapi({ format: "uuid" });
export const instantText = z.string().openapi({ format: "date-time" });

/** Writes an instant for an answer. */
export function toInstantText(at: Instant | number): string {
  return new Date(at).toISOString();
}

/** A new passphrase: 12 to 256 characters, no rules of composition. */
export const newPassphrase = z
  .string()
  .max(1024)
  .transform((text, context) => {
    const passphrase = parsePassphrase(text);
    if (passphrase !== undefined) return passphrase;
    context.addIssue({
      code: "custom",
      message: `must have ${PASSPHRASE_MIN} to ${PASSPHRASE_MAX} characters`,
    });
    return z.NEVER;
  })
  .openapi({ type: "string", minLength: PASSPHRASE_MIN, maxLength: PASSPHRASE_MAX });

/** A PIN of 4 to 6 digits. */
export const newPin = parsedText<Pin>(parsePin, "must be 4 to 6 digits that are not all alike").openapi({
  type: "string",
  pattern: "^[0-9]{4,6}$",
});

/** A sign-in name of one's own choosing. */
export const signInName = parsedText<SignInName>(
  parseSignInName,
  "must be one word of 2 to 64 letters, digits or . - _ @ +",
).openapi({ type: "string" });

/** What somebody typed to be tried, whatever it is. */
export const secretText = z.string().min(1, "must not be empty").max(1024, "is too long");

/** A position of the ledger, in an address: a whole number from 1 on. */
export const position = z.coerce
  .number({ error: "must be a position of the ledger: a whole number from 1 on" })
  .int()
  .min(1)
  .max(Number.MAX_SAFE_INTEGER)
  .openapi({ type: "integer", minimum: 1 });
