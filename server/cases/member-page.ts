import { ruleOf } from "../domain/contamination/contaminant-rule.ts";
import { isNamedTo } from "../domain/contamination/event-names.ts";
import type { ListedAtEvent } from "../domain/contamination/event-views.ts";
import type { Holder } from "../domain/custody/holder.ts";
import { lackingKinds } from "../domain/custody/issue-check.ts";
import type { MemberId, PieceId } from "../domain/ids.ts";
import { missingLayers } from "../domain/label-check/completeness.ts";
import { readyOfGarment } from "../domain/label-check/ready-of-garment.ts";
import type { MemberPage, PieceListed, SetShown } from "../domain/page-views.ts";
import { findMember } from "../store/cards.ts";
import type { Db, Tx } from "../store/db.ts";
import { eventsOfMember, readRules } from "../store/event-rows.ts";
import { listedByIds } from "../store/holder-pieces.ts";
import { idsListed, type ListedRow, listedFromRow } from "../store/listed-pieces.ts";
import { type LoadedGarments, loadGarments } from "../store/load-garments.ts";
import { askNames, namesFromRows } from "../store/names.ts";
import { holderFromRow, nameOfBrief } from "../store/piece-from-row.ts";
import { readOnly } from "../store/snapshot.ts";
import { lastViewings, writeViewing } from "../store/viewings.ts";
import { piecesOfMember } from "../store/whereabouts.ts";
import { garmentOf } from "./garments.ts";
import { type HolderQuestion, holderPage } from "./holder-page.ts";
import type { NoPage } from "./place-page.ts";
import type { Viewer } from "./viewer.ts";

const VIEWINGS_SHOWN = 50;

/**
 * Shows a member: what the member has now or had on a day, the sets with their completeness, holds that stand, and who
 * looked. A look by anybody else is written, before the page is read.
 */
export async function readMemberPage(
  db: Db,
  id: MemberId,
  asked: HolderQuestion,
  viewer: Viewer,
  nowMs: number,
): Promise<MemberPage | NoPage> {
  const page = await readOnly(db, async (tx): Promise<Omit<MemberPage, "viewings"> | NoPage> => {
    const member = await findMember(tx, id);
    if (!member) return { missing: "subject" };
    const held = await holderPage(tx, id, asked);
    if (!held) return { missing: "position" };
    const pieces = await piecesOfMember(tx, id);
    const garments = await loadGarments(tx, pieces);
    const rows = await listedByIds(tx, pieces);
    const names = namesFromRows(await askNames(tx, idsListed(rows)));
    return {
      ...held,
      member,
      sets: setsOf(
        id,
        rows,
        rows.map((row) => listedFromRow(row, names)),
        garments,
      ),
      holds: holdsOf(pieces, garments),
      events: isNamedTo(viewer, { id, station: member.station?.id }) ? await eventsListed(tx, id) : [],
      names: { ...names, ...garments.names },
    };
  });
  if ("missing" in page) return page;
  if (viewer.member !== id) await writeViewing(db, id, viewer.account, new Date(nowMs));
  return { ...page, viewings: await lastViewings(db, id, VIEWINGS_SHOWN) };
}

function setsOf(
  member: MemberId,
  rows: readonly ListedRow[],
  listed: readonly PieceListed[],
  garments: LoadedGarments,
): SetShown[] {
  const assigned = listed.filter(({ assignment }) => assignment?.member.id === member);
  const names = [...new Set(assigned.flatMap(({ assignment }) => assignment?.set ?? []))].sort();
  const holders = new Map(rows.map((row) => [row.id as PieceId, holderFromRow(row)]));
  return names.map((set) => {
    const pieces = assigned.filter(({ assignment }) => assignment?.set === set);
    return {
      set,
      pieces,
      garments: garmentsOf(pieces, holders, garments),
      outfitLacks: lackingKinds(pieces.map(({ kind }) => kind.code)),
    };
  });
}

function garmentsOf(
  pieces: readonly PieceListed[],
  holders: ReadonlyMap<PieceId, Holder>,
  found: LoadedGarments,
): SetShown["garments"] {
  const roots = new Set(pieces.flatMap(({ id }) => found.roots.get(id) ?? []));
  return [...roots].map((root) => {
    const garment = garmentOf(found, root);
    const holder = holders.get(root) ?? (garment.root.holder as Holder);
    return {
      piece: root,
      layers: garment.layers.map(({ piece }) => piece.id),
      missing: missingLayers(
        garment.needs,
        garment.layers.map(({ layerKind }) => layerKind),
      ).map(({ layerKind }) => layerKind),
      ready: readyOfGarment(garment, holder, found.labelsNotRead),
    };
  });
}

async function eventsListed(tx: Tx, member: MemberId): Promise<ListedAtEvent[]> {
  const rows = await eventsOfMember(tx, member);
  const { rules } = rows.length > 0 ? await readRules(tx) : { rules: [] };
  return rows.map((row) => ({
    event: { kind: "contamination-event", id: row.id, name: row.name },
    from: row.from_at.toISOString(),
    to: row.to_at.toISOString(),
    ...(row.where_told ? { where: row.where_told } : {}),
    ...(row.incident ? { incident: row.incident } : {}),
    ...(row.set_name ? { set: row.set_name } : {}),
    kinds: row.kinds.map((code) => ruleOf(rules, code).name),
  }));
}

function holdsOf(pieces: readonly PieceId[], { briefs }: LoadedGarments): MemberPage["holds"] {
  return pieces.flatMap((id) => {
    const brief = briefs.get(id);
    return brief ? brief.holds.map((hold) => ({ piece: nameOfBrief(brief), hold })) : [];
  });
}
