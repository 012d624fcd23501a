import type { Holder } from "../domain/custody/holder.ts";
import { holderId } from "../domain/custody/holder.ts";
import { fittedNow, type PieceState, standingHolds } from "../domain/pieces/piece-state.ts";
import type { Instant } from "../domain/time.ts";

export type Cell = string | number | boolean | null | readonly string[] | object;
export type ProjectedRow = Readonly<Record<string, Cell>>;

/** Every projected table with its key. A new projection is listed here, or it does not exist. */
export const PROJECTED_TABLES = {
  numbered: ["number"],
  named: ["id"],
  kind: ["id"],
  place: ["id"],
  place_cleaned: ["place", "n"],
  member: ["id"],
  provider: ["id"],
  outside: ["id"],
  model: ["id"],
  model_takes: ["model", "n"],
  acceptance: ["id"],
  setting: ["name"],
  contaminant: ["code"],
  contamination_event: ["id"],
  event_member: ["event", "member"],
  account: ["id"],
  piece: ["id"],
  stay: ["piece", "n"],
  fitting: ["layer", "n"],
  hold: ["piece", "version"],
  piece_met: ["piece", "n"],
  piece_cleaned: ["piece", "n"],
  foreign_code: ["code"],
  by_eye: ["layer", "n"],
  tag: ["id"],
  found_property: ["receipt"],
  machine: ["id"],
  machine_check: ["machine", "version"],
  programme: ["id"],
  load: ["id"],
  trace: ["id"],
  trace_outcome: ["trace", "piece"],
} as const satisfies Record<string, readonly string[]>;
export type ProjectedTable = keyof typeof PROJECTED_TABLES;

/** The column that names the subject, by which rows are read back in order when tables are compared. */
export const SUBJECT_COLUMN: Readonly<Record<ProjectedTable, string>> = {
  numbered: "subject",
  named: "id",
  kind: "id",
  place: "id",
  place_cleaned: "place",
  member: "id",
  provider: "id",
  outside: "id",
  model: "id",
  model_takes: "model",
  acceptance: "id",
  setting: "policy",
  contaminant: "policy",
  contamination_event: "id",
  event_member: "event",
  account: "id",
  piece: "id",
  stay: "piece",
  fitting: "layer",
  hold: "piece",
  piece_met: "piece",
  piece_cleaned: "piece",
  foreign_code: "piece",
  by_eye: "layer",
  tag: "id",
  found_property: "piece",
  machine: "id",
  machine_check: "machine",
  programme: "machine",
  load: "id",
  trace: "id",
  trace_outcome: "trace",
};

export type Projection = Readonly<Partial<Record<ProjectedTable, readonly ProjectedRow[]>>>;

export function instantCell(at: Instant): string {
  return new Date(at).toISOString();
}

function holderCells(holder: Holder): { holder_kind: string; holder: string | null } {
  return { holder_kind: holder.kind, holder: holderId(holder) ?? null };
}

/** Writes what is true of a piece as the rows that say it. */
export function rowsOfPiece(state: PieceState): Projection {
  const { label, file } = state;
  return {
    piece: [
      {
        id: state.id,
        kind: state.kind,
        model: state.model ?? null,
        maker: label.maker ?? null,
        model_name: label.modelName ?? null,
        size: label.size ?? null,
        pattern: label.pattern ?? null,
        liner_code: label.linerCode ?? null,
        serial: label.serial ?? null,
        lot: label.lot ?? null,
        cut_number: label.cutNumber ?? null,
        made_on: label.madeOn ?? null,
        materials: label.materials ?? null,
        label_reading: state.reading,
        owner_kind: file.owner.kind,
        owner: file.owner.id ?? null,
        funding: file.funding ?? null,
        purchase_order: file.purchaseOrder ?? null,
        price_cents: file.priceCents ?? null,
        in_service_on: file.inServiceOn ?? null,
        ...holderCells(state.holder),
        held_since: instantCell(state.heldSince),
        member: state.assignment?.member ?? null,
        set_name: state.assignment?.set ?? null,
        soiled: state.soiled,
        washes: state.washes,
        fitted_in: fittedNow(state)?.shell ?? null,
        held: standingHolds(state).length > 0,
        retired_at: state.retiredAt === undefined ? null : instantCell(state.retiredAt),
        registered_at: instantCell(state.registeredAt),
        version: state.version,
        wet: state.wet,
        soiled_since: state.soiledSince === undefined ? null : instantCell(state.soiledSince),
        seen_at: state.seenAt === undefined ? null : instantCell(state.seenAt),
      },
    ],
    stay: stayRows(state),
    fitting: fittingRows(state),
    hold: state.holds.map((hold) => ({
      piece: state.id,
      version: hold.version,
      hold_kind: hold.kind,
      with_piece: hold.with ?? null,
      event: hold.event ?? null,
      placed_at: instantCell(hold.placedAt),
      placed_by: hold.placedBy,
      lifted_at: hold.liftedAt === undefined ? null : instantCell(hold.liftedAt),
      lifted_version: hold.liftedVersion ?? null,
    })),
    piece_met: state.meetings.map(({ event, from, to, evidence, version }, index) => ({
      ...{ piece: state.id, n: index + 1, event, evidence, version },
      met_from: instantCell(from),
      met_to: instantCell(to),
    })),
    piece_cleaned: state.cleanings.map(({ at, how, evidence, version }, index) => ({
      ...{ piece: state.id, n: index + 1, how, evidence, version },
      cleaned_at: instantCell(at),
    })),
    foreign_code: state.foreignCodes.map(({ code, version }) => ({ code, piece: state.id, version })),
    found_property: state.property.map((found) => ({
      receipt: found.receipt,
      piece: state.id,
      version: found.version,
      found_at: instantCell(found.foundAt),
      given_back_at: found.givenBackAt === undefined ? null : instantCell(found.givenBackAt),
      given_back_to: found.givenBackTo ?? null,
    })),
    by_eye: state.byEye.map(({ shell, by, at }, index) => ({
      layer: state.id,
      n: index + 1,
      shell,
      compared_by: by,
      compared_at: instantCell(at),
    })),
  };
}

function stayRows(state: PieceState): ProjectedRow[] {
  return state.stays.map((stay, index) => ({
    piece: state.id,
    n: index + 1,
    ...holderCells(stay.holder),
    from_at: instantCell(stay.from),
    to_at: stay.to === undefined ? null : instantCell(stay.to),
    evidence: stay.evidence,
    from_version: stay.fromVersion,
    to_version: stay.toVersion ?? null,
    load: stay.load ?? null,
  }));
}

function fittingRows(state: PieceState): ProjectedRow[] {
  return state.fittings.map((fitting, index) => ({
    layer: state.id,
    n: index + 1,
    layer_kind: fitting.layerKind,
    shell: fitting.shell,
    from_at: instantCell(fitting.from),
    to_at: fitting.to === undefined ? null : instantCell(fitting.to),
    verdict: fitting.verdict,
    evidence: fitting.evidence,
    from_version: fitting.fromVersion,
    to_version: fitting.toVersion ?? null,
  }));
}
