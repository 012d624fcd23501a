import { z } from "@hono/zod-openapi";
import {
  closeOutsideAct,
  closePlaceAct,
  closeProviderAct,
  nameOutsideAct,
  nameProviderAct,
} from "../../cases/party-acts.ts";
import {
  bindForeignCodeAct,
  describeKindAct,
  describePieceAct,
  listMembersAct,
  memberLeftAct,
  namePlaceAct,
  registerPiecesAct,
} from "../../cases/register-acts.ts";
import { describeModelsAct, recordAcceptanceAct, withdrawAcceptanceAct } from "../../cases/rule-acts.ts";
import type { MemberId, ModelId, OutsideId, PieceId, PlaceId, ProviderId } from "../../domain/ids.ts";
import type { Role } from "../../domain/register/account.ts";
import { RULE_FAMILIES } from "../../domain/register/kind.ts";
import { PLACE_SORTS } from "../../domain/register/place.ts";
import { day, evidence, holder, id, line, madeOn, note } from "../wire.ts";
import { defineAct } from "./act-routes.ts";

const BENCH: readonly Role[] = ["technician", "inspector", "program manager"];
const INSPECTS: readonly Role[] = ["inspector", "program manager"];
const MANAGES: readonly Role[] = ["program manager"];

const words = line(200);
const label = z.object({
  maker: words.exactOptional(),
  modelName: words.exactOptional(),
  size: words.exactOptional(),
  pattern: words.exactOptional(),
  linerCode: words.exactOptional(),
  serial: words.exactOptional(),
  lot: words.exactOptional(),
  cutNumber: words.exactOptional(),
  madeOn: madeOn.exactOptional(),
  materials: words.exactOptional(),
});
const owner = z.object({
  kind: z.enum(["department", "member", "provider", "other department", "maker"]),
  id: id().exactOptional(),
});
const cents = z.int().min(0).max(100_000_000);
const reading = z.enum(["not yet read", "read", "not legible"]);
const layerRoles = ["shell", "liner", "thermal-layer", "moisture-layer", "winter-liner", "drd"] as const;

const acceptedScope = z.discriminatedUnion("what", [
  z.object({
    what: z.literal("pieces"),
    shell: id<PieceId>(),
    layer: id<PieceId>(),
    differences: z.array(z.enum(["family", "maker", "model-or-code", "size", "pattern"])).exactOptional(),
  }),
  z.object({
    what: z.literal("models"),
    shellModel: id<ModelId>(),
    layerModel: id<ModelId>().exactOptional(),
    linerCode: words.exactOptional(),
    shellSize: words.exactOptional(),
    layerSize: words.exactOptional(),
  }),
  z.object({ what: z.literal("codes"), maker: words, shellTakes: words, linerCode: words }),
]);

export const REGISTER_ACTS = [
  defineAct({
    command: "registerPieces",
    summary: "Registers pieces, all or none",
    roles: BENCH,
    schema: z.object({
      evidence,
      pieces: z
        .array(
          z.object({
            id: id<PieceId>(),
            kind: line(60),
            label,
            reading,
            file: z.object({
              owner,
              funding: words.exactOptional(),
              purchaseOrder: words.exactOptional(),
              priceCents: cents.exactOptional(),
              inServiceOn: day.exactOptional(),
            }),
            holder,
            model: id<ModelId>().exactOptional(),
            assignment: z.object({ member: id<MemberId>(), set: line(60) }).exactOptional(),
            note: note.exactOptional(),
          }),
        )
        .min(1)
        .max(500),
    }),
    act: registerPiecesAct,
  }),
  defineAct({
    command: "describePiece",
    summary: "Reads or corrects a piece's label and file; null says that a value is unknown after all",
    roles: BENCH,
    schema: z.object({
      piece: id<PieceId>(),
      label: z.object({
        maker: words.nullable().exactOptional(),
        modelName: words.nullable().exactOptional(),
        size: words.nullable().exactOptional(),
        pattern: words.nullable().exactOptional(),
        linerCode: words.nullable().exactOptional(),
        serial: words.nullable().exactOptional(),
        lot: words.nullable().exactOptional(),
        cutNumber: words.nullable().exactOptional(),
        madeOn: madeOn.nullable().exactOptional(),
        materials: words.nullable().exactOptional(),
      }),
      reading: reading.exactOptional(),
      file: z.object({
        owner: owner.exactOptional(),
        funding: words.nullable().exactOptional(),
        purchaseOrder: words.nullable().exactOptional(),
        priceCents: cents.nullable().exactOptional(),
        inServiceOn: day.nullable().exactOptional(),
      }),
      note: note.exactOptional(),
      reliedOn: z.object({ version: z.int().min(1) }).exactOptional(),
    }),
    act: describePieceAct,
  }),
  defineAct({
    command: "bindForeignCode",
    summary: "Binds a maker's barcode or an old number to a piece",
    roles: BENCH,
    schema: z.object({ piece: id<PieceId>(), code: line(400) }),
    act: bindForeignCodeAct,
  }),
  defineAct({
    command: "namePlace",
    summary: "Names a place, or describes it anew",
    roles: BENCH,
    schema: z.object({
      id: id<PlaceId>(),
      name: line(80),
      what: z.enum(PLACE_SORTS),
      carries: z.enum(["closed", "shared", "apart"]),
      side: z.enum(["soiled", "clean"]).exactOptional(),
      within: id<PlaceId>().exactOptional(),
    }),
    act: namePlaceAct,
  }),
  defineAct({
    command: "closePlace",
    summary: "Closes a place that holds no piece",
    roles: MANAGES,
    schema: z.object({ place: id<PlaceId>() }),
    act: closePlaceAct,
  }),
  defineAct({
    command: "listMembers",
    summary: "Lists members with number, station and shift; their names are kept apart",
    roles: MANAGES,
    schema: z.object({
      members: z
        .array(
          z.object({
            id: id<MemberId>(),
            number: line(40),
            name: line(200),
            station: id<PlaceId>().exactOptional(),
            shift: line(40).exactOptional(),
          }),
        )
        .min(1)
        .max(500),
    }),
    act: listMembersAct,
  }),
  defineAct({
    command: "memberLeft",
    summary: "Says that a member left",
    roles: MANAGES,
    schema: z.object({ member: id<MemberId>(), on: day }),
    act: memberLeftAct,
  }),
  defineAct({
    command: "nameProvider",
    summary: "Names a provider that cleans, inspects or repairs",
    roles: MANAGES,
    schema: z.object({
      id: id<ProviderId>(),
      name: line(120),
      verifiedUntil: day.exactOptional(),
      verifiedBy: line(120).exactOptional(),
    }),
    act: nameProviderAct,
  }),
  defineAct({
    command: "closeProvider",
    summary: "Closes a provider that has no piece",
    roles: MANAGES,
    schema: z.object({ provider: id<ProviderId>() }),
    act: closeProviderAct,
  }),
  defineAct({
    command: "closeOutside",
    summary: "Closes an outside party that has no piece",
    roles: MANAGES,
    schema: z.object({ outside: id<OutsideId>() }),
    act: closeOutsideAct,
  }),
  defineAct({
    command: "nameOutside",
    summary: "Names an outside party that can have custody",
    roles: BENCH,
    schema: z.object({
      id: id<OutsideId>(),
      name: line(120),
      what: z.enum(["hospital", "investigator", "maker", "other department", "other"]),
    }),
    act: nameOutsideAct,
  }),
  defineAct({
    command: "describeKind",
    summary: "Describes a kind of piece",
    roles: MANAGES,
    schema: z.object({
      id: id(),
      code: z.string().regex(/^[a-z][a-z0-9-]{1,38}$/, "must be small letters, figures and hyphens"),
      name: line(60),
      family: z.enum(RULE_FAMILIES),
      garment: z.enum(["coat", "pants", "coverall"]).exactOptional(),
      layer: z.enum(layerRoles).exactOptional(),
      counted: z.boolean(),
      positions: z.array(line(20)).max(6),
    }),
    act: describeKindAct,
  }),
  defineAct({
    command: "describeModels",
    summary: "Fills rows of the model table, with the source",
    roles: INSPECTS,
    schema: z.object({
      models: z
        .array(
          z.object({
            id: id<ModelId>(),
            maker: words,
            name: words,
            kind: line(60),
            layers: z.array(line(60)).max(8),
            takes: z
              .array(
                z.object({
                  layerKind: line(60),
                  takesModel: id<ModelId>().exactOptional(),
                  takesLinerCode: words.exactOptional(),
                }),
              )
              .max(20),
            wash: z.enum(["machine", "machine, in a mesh bag", "by hand", "not at all"]).exactOptional(),
            source: z.object({
              what: z.enum(["maker's letter", "worn-together label", "imported"]),
              on: day.exactOptional(),
            }),
          }),
        )
        .min(1)
        .max(500),
    }),
    act: describeModelsAct,
  }),
  defineAct({
    command: "recordAcceptance",
    summary: "Records a maker's or verified provider's word that a combination may be worn",
    roles: INSPECTS,
    schema: z.object({
      id: id(),
      scope: acceptedScope,
      saidBy: z.enum(["maker", "provider"]),
      saidByName: line(120),
      document: line(200),
      saidOn: day,
    }),
    act: recordAcceptanceAct,
  }),
  defineAct({
    command: "withdrawAcceptance",
    summary: "Withdraws a recorded word; it stays on file",
    roles: MANAGES,
    schema: z.object({ acceptance: id() }),
    act: withdrawAcceptanceAct,
  }),
];
