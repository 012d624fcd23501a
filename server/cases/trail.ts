import type { PieceId, TagId } from "../domain/ids.ts";
import type { TrailChecked, TrailEntry, TrailView } from "../domain/page-views.ts";
import type { Names } from "../domain/piece-view.ts";
import type { PieceEntry } from "../domain/pieces/piece-entries.ts";
import { foldPiece, isFault, type PieceState } from "../domain/pieces/piece-state.ts";
import { foldTag, type TagEntry, type TagOnRecord } from "../domain/tags/tag-entries.ts";
import { pieceOfTag } from "../domain/tags/tag-state.ts";
import { checkAct, checkLink } from "../ledger/check-chain.ts";
import { checkEntry } from "../ledger/check-entry.ts";
import { idsTold } from "../store/acts-told.ts";
import type { Db, Tx } from "../store/db.ts";
import { loadKinds } from "../store/load-rulebook.ts";
import {
  entriesOfSubject,
  findPosition,
  type LoadedEntry,
  layersNaming,
  loadHistory,
  tagsOf,
} from "../store/load-trail.ts";
import { askNames, nameAccount, namesFromRows } from "../store/names.ts";
import { readOnly } from "../store/snapshot.ts";
import { chainedActs } from "../store/walk-acts.ts";
import { fittingSpans, stayViews, trailPiece } from "./trail-piece.ts";

/** Why there is no trail to show. */
export type NoTrail = { readonly missing: "piece" | "position" };

/**
 * Tells a piece's whole trail: its entries, those of its tags, and for a shell those of the layers that name it, with
 * stays, gaps and fittings by the fold. With a position only what was known then is folded. The hash of every entry
 * shown is computed anew.
 */
export function readTrail(
  db: Db,
  piece: PieceId,
  nowMs: number,
  knownAt?: number,
): Promise<TrailView | NoTrail> {
  return readOnly(db, async (tx) => {
    const at = knownAt === undefined ? undefined : await findPosition(tx, knownAt);
    if (knownAt !== undefined && !at) return { missing: "position" };
    const tagIds = await tagsOf(tx, piece);
    const layerIds = await layersNaming(tx, piece);
    const loaded = await loadHistory(tx, [piece, ...tagIds, ...layerIds], at?.position);
    const state = foldOf(loaded, piece);
    if (!state) return { missing: "piece" };
    const tags = tagIds.flatMap((id) => tagOf(loaded, id, piece));
    const layers = layerIds.flatMap((id) => foldOf(loaded, id) ?? []);
    const shown = loaded.filter((entry) => isShown(entry, loaded, { piece, tags, layers: layerIds }));
    const kinds = await loadKinds(tx);
    const told = shown.flatMap((entry) => [entry.by, entry.subject, ...idsTold(entry.body)]);
    const names = namesFromRows(await askNames(tx, told));
    return {
      piece: trailPiece(state, { tags, loaded, kinds, names }),
      ...(at ? { knownAt: { position: at.position, recordedAt: at.recordedAt.toISOString() } } : {}),
      checked: await checkShown(tx, shown, nowMs),
      stays: stayViews(state, names),
      fittings: fittingSpans(state, layers, names),
      entries: shown.map((entry) => entryView(entry, { piece, shown, tags, names })),
      names,
    };
  });
}

function foldOf(loaded: readonly LoadedEntry[], id: PieceId): PieceState | undefined {
  const entries = entriesOfSubject<PieceEntry>(loaded, id);
  if (entries.length === 0) return undefined;
  const state = foldPiece(id, entries);
  if (isFault(state))
    throw new Error(`The entries of ${id} up to here contradict each other: ${state.code}.`);
  return state;
}

/** A tag as it stood; one that was not on this piece yet is left out. */
function tagOf(loaded: readonly LoadedEntry[], id: TagId, piece: PieceId): TagOnRecord[] {
  const tag = foldTag(id, entriesOfSubject<TagEntry>(loaded, id));
  return tag && pieceOfTag(tag.state) === piece ? [tag] : [];
}

interface Trailed {
  readonly piece: PieceId;
  readonly tags: readonly TagOnRecord[];
  readonly layers: readonly PieceId[];
}

/** Of layers only what names this shell is shown, and what corrects it. That a layer went along is the shell's move. */
function isShown(entry: LoadedEntry, loaded: readonly LoadedEntry[], { piece, tags }: Trailed): boolean {
  if (entry.subject === piece) return true;
  if (entry.subjectKind === "tag") return tags.some(({ id }) => id === entry.subject);
  const { body } = entry;
  if (body.kind !== "EntryCorrected") return namesShell(body, piece);
  const { corrects, instead } = body;
  const first = loaded.find((other) => other.subject === entry.subject && other.version === corrects);
  return (instead !== undefined && namesShell(instead, piece)) || (first ? isNamed(first, piece) : false);
}

function isNamed({ body }: LoadedEntry, piece: PieceId): boolean {
  return namesShell(body.kind === "EntryCorrected" && body.instead ? body.instead : body, piece);
}

function namesShell(entry: PieceEntry | TagEntry, piece: PieceId): boolean {
  switch (entry.kind) {
    case "LayerInstalled":
    case "LayerFoundFitted":
    case "LayerSeparated":
    case "LabelsComparedByEye":
      return entry.shell === piece;
    default:
      return false;
  }
}

/**
 * Checks what is shown: bytes against hash, row and texts, and each act against its digest and its link in the chain,
 * since whoever changes a body could give it the hash that goes with it.
 */
async function checkShown(tx: Tx, shown: readonly LoadedEntry[], nowMs: number): Promise<TrailChecked> {
  const onEntries = shown.flatMap((entry) => {
    const withdrawn = new Set(entry.texts.filter(({ body }) => body === null).map(({ name }) => name));
    return checkEntry(entry, entry.texts)
      .filter((fault) => !(fault.code === "text-missing" && withdrawn.has(fault.name)))
      .map(({ code }) => ({ subject: entry.subject, version: entry.version, code }));
  });
  const acts = await chainedActs(
    tx,
    shown.map(({ act }) => act),
  );
  const onActs = acts.flatMap(({ act, before }) => {
    const found = [...checkAct(act), ...(before ? checkLink(before, act) : [])];
    return found.map(({ code }) => ({ position: act.position, code }));
  });
  return { entries: shown.length, at: new Date(nowMs).toISOString(), changed: [...onEntries, ...onActs] };
}

function entryView(
  entry: LoadedEntry,
  {
    piece,
    shown,
    tags,
    names,
  }: {
    readonly piece: PieceId;
    readonly shown: readonly LoadedEntry[];
    readonly tags: readonly TagOnRecord[];
    readonly names: Names;
  },
): TrailEntry {
  const { subject, version, subjectKind, body } = entry;
  const correctedBy = shown.find(
    (other) => other.subject === subject && correctsOf(other) === version,
  )?.version;
  const corrects = correctsOf(entry);
  const tagNumber = tags.find(({ id }) => id === subject)?.number;
  const layer = subjectKind === "piece" && subject !== piece ? names[subject] : undefined;
  const at = "at" in body ? body.at : 0;
  return {
    ...({ subjectKind, subject, version, entry: withoutTextHashes(body) } as Pick<
      TrailEntry,
      "subjectKind" | "subject" | "version" | "entry"
    >),
    act: entry.act,
    position: entry.position,
    command: entry.command,
    at: new Date(at).toISOString(),
    recordedAt: entry.recordedAt.toISOString(),
    by: nameAccount(entry.by, names),
    device: entry.device,
    ...(corrects === undefined ? {} : { corrects }),
    ...(correctedBy === undefined ? {} : { correctedBy }),
    ...(entry.texts.length === 0
      ? {}
      : { texts: Object.fromEntries(entry.texts.map((text) => [text.name, text.body])) }),
    ...(layer ? { ofLayer: layer } : {}),
    ...(tagNumber ? { tagNumber } : {}),
  } as TrailEntry;
}

function correctsOf({ body }: LoadedEntry): number | undefined {
  return body.kind === "EntryCorrected" ? body.corrects : undefined;
}

/** The bytes also hold the hashes of the texts, which the texts themselves stand in for here. */
function withoutTextHashes(body: PieceEntry | TagEntry): PieceEntry | TagEntry {
  const { texts: _, ...rest } = body as PieceEntry & { readonly texts?: unknown };
  return rest as PieceEntry | TagEntry;
}
