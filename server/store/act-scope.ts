import { sql } from "kysely";
import type { PieceId, Uuid } from "../domain/ids.ts";
import type { Versioned } from "../domain/pieces/piece-entries.ts";
import { foldPiece, isFault, type PieceState } from "../domain/pieces/piece-state.ts";
import type { EntriesOf, NewEntry, SubjectKind } from "../domain/subjects.ts";
import type { ActHeader } from "../ledger/chain.ts";
import type { PlacedEntry, WrittenAct } from "./append-act.ts";
import type { Tx } from "./db.ts";
import { refuseTakenPlaces } from "./fitting-places.ts";
import type { OnWritten } from "./in-chunks.ts";
import { type LoadedEntries, loadEntries, lockSubjects } from "./load-subjects.ts";
import { projectSubject, SubjectFault, SubjectFaults } from "./project-subject.ts";
import { writeRowsOfAct } from "./write-act.ts";
import { projectionWrites } from "./write-projections.ts";

type AnyEntries = readonly Versioned<EntriesOf[SubjectKind]>[];

/** What one act has read so far: the entries of the subjects that it locked. It writes on these and on new ones. */
export interface ActScope {
  readonly tx: Tx;
  readonly read: Map<Uuid, { readonly kind: SubjectKind; readonly entries: AnyEntries }>;
  /** Set by an act of thousands of rows that wants to tell how far it is: rows written since the last call. */
  onWritten?: OnWritten;
}

/** Opens the scope of one act inside its transaction. */
export function openScope(tx: Tx): ActScope {
  return { tx, read: new Map() };
}

/**
 * Takes the lock on the department's rules: shared for ordinary acts, exclusive for a change of policy, notice, role
 * or accepted combination, so that no act is decided by rules that changed while it was decided.
 */
export async function lockRules(tx: Tx, how: "shared" | "exclusive"): Promise<void> {
  await (how === "shared"
    ? sql`/* prepared: share-rules */ select pg_advisory_xact_lock_shared(7001)`.execute(tx)
    : sql`select pg_advisory_xact_lock(7001)`.execute(tx));
}

/** Locks subjects and reads their entries. Call it once for all subjects of a kind, so that the locks are in order. */
export async function takeSubjects<Kind extends SubjectKind>(
  scope: ActScope,
  kind: Kind,
  ids: readonly Uuid[],
): Promise<void> {
  const wanted = [...new Set(ids)].filter((id) => !scope.read.has(id)).sort();
  await lockSubjects(scope.tx, kind, wanted);
  keepTaken(scope, kind, await loadEntries(scope.tx, kind, wanted));
}

/** Keeps the entries of subjects that are locked, to write on. */
export function keepTaken<Kind extends SubjectKind>(
  scope: ActScope,
  kind: Kind,
  loaded: LoadedEntries<Kind>,
): void {
  for (const [id, entries] of loaded) scope.read.set(id, { kind, entries });
}

/** Locks pieces, reads them, and folds each. A piece that is not registered is left out of the map. */
export async function takePieces(
  scope: ActScope,
  ids: readonly PieceId[],
): Promise<ReadonlyMap<PieceId, PieceState>> {
  await takeSubjects(scope, "piece", ids);
  return foldTaken(scope, ids);
}

/** Folds pieces that the scope has taken. */
export function foldTaken(scope: ActScope, ids: readonly PieceId[]): ReadonlyMap<PieceId, PieceState> {
  const states = new Map<PieceId, PieceState>();
  for (const id of ids) {
    const entries = entriesOf(scope, "piece", id);
    if (entries.length === 0) continue;
    const state = foldPiece(id, entries);
    if (isFault(state)) throw new SubjectFault(id, state);
    states.set(id, state);
  }
  return states;
}

/** Gives the entries of a subject that the scope has taken; empty when it has none. */
export function entriesOf<Kind extends SubjectKind>(
  scope: ActScope,
  kind: Kind,
  id: Uuid,
): readonly Versioned<EntriesOf[Kind]>[] {
  const read = scope.read.get(id);
  return read?.kind === kind ? (read.entries as readonly Versioned<EntriesOf[Kind]>[]) : [];
}

/**
 * Writes an act: its entries, the rows that follow from them, and the act itself at the end of the chain. Subjects
 * that were not taken are new ones, and begin at version 1. Before anything is written it throws SubjectFaults when
 * entries of pieces would contradict each other, and PlacesInShellsTaken when two layers of one kind would be in one
 * shell at once.
 */
export async function writeAct(
  scope: ActScope,
  header: ActHeader,
  drafts: readonly NewEntry[],
  nowMs: number,
): Promise<Omit<WrittenAct, "id" | "at">> {
  const placed: PlacedEntry[] = [];
  const grown = new Map<
    Uuid,
    { kind: SubjectKind; before: AnyEntries; after: Versioned<EntriesOf[SubjectKind]>[] }
  >();
  for (const draft of drafts) {
    const before = scope.read.get(draft.subject)?.entries ?? [];
    const subject = grown.get(draft.subject) ?? { kind: draft.subjectKind, before, after: [...before] };
    grown.set(draft.subject, subject);
    const version = subject.after.length + 1;
    subject.after.push({ version, entry: draft.entry });
    placed.push({ draft, version });
  }
  const faults: SubjectFault[] = [];
  const changes = [...grown].flatMap(([id, { kind, before, after }]) => {
    try {
      return [{ before: projectSubject(kind, id, before), after: projectSubject(kind, id, after) }];
    } catch (failure) {
      if (!(failure instanceof SubjectFault)) throw failure;
      faults.push(failure);
      return [];
    }
  });
  if (faults.length > 0) throw new SubjectFaults(faults);
  await refuseTakenPlaces(scope.tx, changes);
  const rows = { header, placed, writes: projectionWrites(changes), nowMs };
  const linked = await writeRowsOfAct(scope.tx, rows, scope.onWritten);
  const entries = placed.map(({ draft: { subjectKind, subject, entry }, version }) => {
    return { subjectKind, subject, version, kind: entry.kind };
  });
  return { ...linked, entries };
}
