import type { MemberId, Uuid } from "../domain/ids.ts";
import { missingLayers } from "../domain/label-check/completeness.ts";
import { readyOfGarment } from "../domain/label-check/ready-of-garment.ts";
import type { FittingView, LastSeen, Named, PieceBrief, PieceView } from "../domain/piece-view.ts";
import type { Owner } from "../domain/pieces/piece-entries.ts";
import type { LocalDate } from "../domain/time.ts";
import type { GarmentOnRecord } from "../store/look-up.ts";
import { holderFromRow, wireInstant } from "../store/piece-from-row.ts";
import { briefOf, garmentOf } from "./garments.ts";

/** Puts together what the bench shows of a piece: the record, with the domain's checks run on it. */
export function viewOfPiece(found: GarmentOnRecord): PieceView {
  const { row, names } = found;
  const own = briefOf(found, found.piece);
  const garment = garmentOf(found, found.root);
  const { root, layers, needs } = garment;
  const isShell = own.kind.layer === "shell";
  const inShell = own.id === root.id ? undefined : layers.find(({ piece }) => piece.id === own.id);
  const fitted = isShell ? layers : [];
  const modelRow = own.model && found.models.get(own.model);
  const within = row.holder ? found.ups.get(row.holder) : undefined;
  return {
    ...own,
    ...(modelRow ? { modelRow: { maker: modelRow.maker, name: modelRow.name } } : {}),
    tags: found.tags,
    foreignCodes: found.foreignCodes,
    ...(within ? { within } : {}),
    ...assignmentOf(found),
    owner: ownerOf(found),
    ...(row.in_service_on ? { inServiceOn: row.in_service_on as LocalDate } : {}),
    ...boughtWith(found),
    registeredAt: wireInstant(row.registered_at),
    ...(inShell ? { fittedIn: { ...inShell, piece: root } } : {}),
    fitted,
    missing: isShell
      ? missingLayers(
          needs,
          fitted.map(({ layerKind }) => layerKind),
        )
      : [],
    ready: readyOfGarment(garment, holderFromRow(row), found.labelsNotRead),
    lastActs: found.acts,
    ...lastSeenOf(found, own),
    forLabelCheck: found.facts,
    names,
  };
}

function assignmentOf({ row, names, ups }: GarmentOnRecord): Pick<PieceView, "assignment"> {
  if (!row.member || row.set_name === null) return {};
  const id = row.member as MemberId;
  const station = ups.get(id);
  const member: Named = names[id] ?? { kind: "member", id, name: "not on record" };
  return { assignment: { member, set: row.set_name, ...(station ? { station } : {}) } };
}

function ownerOf({ row, names }: GarmentOnRecord): PieceView["owner"] {
  const owner: Owner = { kind: row.owner_kind, ...(row.owner ? { id: row.owner as Uuid } : {}) };
  const name = row.owner ? names[row.owner]?.name : undefined;
  return { ...owner, ...(name ? { name } : {}) };
}

function boughtWith({ row }: GarmentOnRecord): Pick<PieceView, "funding" | "purchaseOrder" | "priceCents"> {
  return {
    ...(row.funding === null ? {} : { funding: row.funding }),
    ...(row.purchase_order === null ? {} : { purchaseOrder: row.purchase_order }),
    ...(row.price_cents === null ? {} : { priceCents: Number(row.price_cents) }),
  };
}

/** The later of the last scan, look-ups included, and the last entry at which somebody had it in hand. */
function lastSeenOf({ row, lastScan }: GarmentOnRecord, own: PieceBrief): Pick<PieceView, "lastSeen"> {
  const recorded = row.seen_at ? wireInstant(row.seen_at) : undefined;
  if (lastScan && (!recorded || lastScan.at >= recorded)) return { lastSeen: { how: "scan", ...lastScan } };
  if (!recorded) return {};
  const where = recorded >= own.heldSince ? { where: own.holder } : {};
  const seen: LastSeen = { how: "record", at: recorded, ...where };
  return { lastSeen: seen };
}

/** Takes out of a view whatever tells of people and money: who has it, whose it is, who did what, what it cost. */
export function withoutPeople(view: PieceView): PieceView {
  const { assignment: _, lastSeen: __, funding: ___, purchaseOrder: ____, priceCents: _____, ...seen } = view;
  const { within, ...rest } = seen;
  const isWithMember = view.holder.kind === "member";
  const bare = <Shown extends PieceBrief>(piece: Shown): Shown => ({
    ...piece,
    holder: unnamed(piece.holder),
  });
  const layers = (fittings: readonly FittingView[]) =>
    fittings.map((fitting) => ({ ...fitting, piece: bare(fitting.piece) }));
  return {
    ...bare(rest),
    ...(within && !isWithMember ? { within } : {}),
    ...(view.fittedIn ? { fittedIn: { ...view.fittedIn, piece: bare(view.fittedIn.piece) } } : {}),
    fitted: layers(view.fitted),
    owner: { kind: view.owner.kind },
    lastActs: [],
    names: Object.fromEntries(
      Object.entries(view.names).filter(([, { kind }]) => kind !== "member" && kind !== "account"),
    ),
  };
}

function unnamed(holder: Named): Named {
  return holder.kind === "member" ? { kind: "member", name: "a member" } : holder;
}
