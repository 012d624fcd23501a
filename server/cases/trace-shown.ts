import type { PieceId, Uuid } from "../domain/ids.ts";
import type { PieceListed } from "../domain/page-views.ts";
import type { Named, Names } from "../domain/piece-view.ts";
import type { TraceFrom } from "../domain/tracing/kept-trace.ts";
import type { Contact, Path } from "../domain/tracing/trace-history.ts";
import type {
  PathLeg,
  TraceContact,
  TraceLane,
  TracePath,
  TraceStart,
  TraceThread,
  TraceView,
} from "../domain/tracing/trace-view.ts";
import type { Db, Tx } from "../store/db.ts";
import { listedByIds } from "../store/holder-pieces.ts";
import { idsListed, listedFromRow } from "../store/listed-pieces.ts";
import { askNames, namesFromRows } from "../store/names.ts";
import { readPiecesForTrace, readTracedPieces, type TracedPieceRow } from "../store/read-for-trace.ts";
import type { TracedRecord } from "./trace-record.ts";
import {
  carriedBy,
  gapsOf,
  lanesOf,
  notFollowedIn,
  type ThreadFacts,
  threadStays,
  washedSince,
  wire,
} from "./trace-threads.ts";
import { asHistory, isPresumed, type RecordStay, type RecordWalk } from "./walk-record.ts";

/** What is known of the pieces of a trace today. */
interface Known {
  readonly listed: ReadonlyMap<string, PieceListed>;
  readonly traced: ReadonlyMap<string, TracedPieceRow>;
  readonly names: Names;
}

/** Makes of a trace what screen, table and print show. */
export async function showTrace(tx: Db | Tx, record: TracedRecord): Promise<TraceView> {
  const { walk, roots, asked, from, to, position } = record;
  const reached = walk.contacts.map(({ piece }) => piece as PieceId);
  const pieces = [...new Set([...roots.map(({ piece }) => piece), ...reached])];
  const read = await readPiecesForTrace(
    tx,
    pieces.map((id) => ({ id, from, to })),
  );
  const stays = read.stays.flatMap(asHistory);
  const known = await knownOf(tx, pieces, [
    ...stays.flatMap(({ holderId }) => holderId ?? []),
    ...startIds(asked.start),
  ]);
  const places = new Map([...walk.places, ...read.places.map((place) => [place.id, place] as const)]);
  const facts: ThreadFacts = {
    ...{
      stays,
      staysOf: Map.groupBy(stays, ({ piece }) => piece),
      cleanings: read.cleanings,
      places,
      names: known.names,
      from,
      to,
    },
    ...{ accepts: record.accepts, direction: asked.direction },
  };
  const contacts = ranked(walk, asked.direction, facts).map((contact, index) =>
    contactShown(contact, index + 1, record, facts, known),
  );
  const threads = threadsOf(record, contacts, facts, known);
  const lanes = lanesOf(threads, facts);
  return {
    direction: asked.direction,
    start: startShown(asked.start),
    startName: startName(asked.start, known, lanes),
    cuts: {
      hops: asked.hops,
      until: wire(asked.direction === "forward" ? to : from),
      carriers: asked.carriers,
    },
    from: wire(from),
    to: wire(to),
    lanes,
    threads,
    roots: [...new Set(roots.map(({ piece }) => piece))],
    contacts,
    cannotExclude: gapsOf(threads),
    notFollowed: notFollowedIn(threads, lanes),
    position,
    rowsRead: walk.rowsRead,
    names: known.names,
  };
}

async function knownOf(tx: Db | Tx, pieces: readonly PieceId[], holders: readonly string[]): Promise<Known> {
  const [rows, traced] = [await listedByIds(tx as Tx, pieces), await readTracedPieces(tx, pieces)];
  const stations = traced.flatMap(({ station }) => station ?? []);
  const names = namesFromRows(await askNames(tx, [...idsListed(rows), ...holders, ...stations, ...pieces]));
  return {
    listed: new Map(rows.map((row) => [row.id, listedFromRow(row, names)])),
    traced: new Map(traced.map((row) => [row.id, row])),
    names,
  };
}

function carriesOf(walk: RecordWalk, facts: ThreadFacts, path: Path): "closed" | "shared" {
  const leg = facts.direction === "forward" ? path.legs.at(-1) : path.legs[0];
  const place = leg?.holder.startsWith("place:")
    ? walk.places.get(leg.holder.slice("place:".length))
    : undefined;
  return place?.carries === "shared" ? "shared" : "closed";
}

/** By steps, closed before shared carriers, the nearest moment first, piece. */
function ranked(walk: RecordWalk, direction: string, facts: ThreadFacts): readonly Contact[] {
  const sign = direction === "forward" ? 1 : -1;
  const order = { closed: 0, shared: 1 };
  return walk.contacts
    .map((contact) => ({ contact, carries: order[carriesOf(walk, facts, contact.path)] }))
    .sort(
      (a, b) =>
        a.contact.path.hops - b.contact.path.hops ||
        a.carries - b.carries ||
        sign * (a.contact.path.arrival - b.contact.path.arrival) ||
        (a.contact.piece < b.contact.piece ? -1 : 1),
    )
    .map(({ contact }) => contact);
}

function pathShown(path: Path, walk: RecordWalk, facts: ThreadFacts): TracePath {
  const legs = path.legs.map((leg): PathLeg => {
    const first = walk.stays[leg.fromStay] as RecordStay;
    const second = walk.stays[leg.toStay] as RecordStay;
    const isForward = facts.direction === "forward";
    const begins = Math.max(
      first.from,
      second.from,
      ...(isForward ? [leg.left] : [leg.epochFrom ?? first.from]),
    );
    const ends = Math.min(
      first.to ?? facts.to,
      second.to ?? facts.to,
      isForward ? (leg.epochTo ?? facts.to) : leg.at,
    );
    return {
      from: leg.from as PieceId,
      to: leg.to as PieceId,
      via: leg.holder,
      at: wire(leg.at),
      sharedMs: Math.max(0, ends - begins),
      entries: [first, second].map(({ piece, version }) => ({ subject: piece as Uuid, version })),
      isPresumed: isPresumed(first.evidence) || isPresumed(second.evidence),
    };
  });
  return { hops: path.hops, arrival: wire(path.arrival), legs };
}

function contactShown(
  contact: Contact,
  rank: number,
  { walk }: TracedRecord,
  facts: ThreadFacts,
  known: Known,
): TraceContact {
  const piece = contact.piece as PieceId;
  const listed = known.listed.get(piece) as PieceListed;
  const traced = known.traced.get(piece);
  const path = pathShown(contact.path, walk, facts);
  const station = traced?.station ? known.names[traced.station] : undefined;
  const washed = washedSince(piece, contact.path.arrival, facts);
  return {
    ...{ rank, piece, name: nameOfPiece(piece, known), kind: listed.kind, path, hops: path.hops },
    ...(listed.number ? { number: listed.number } : {}),
    carries: carriesOf(walk, facts, contact.path),
    firstMoment: path.arrival,
    ...(contact.earlier ? { earliestPath: pathShown(contact.earlier, walk, facts) } : {}),
    sharedMs: (facts.direction === "forward" ? path.legs.at(-1) : path.legs[0])?.sharedMs ?? 0,
    isPresumed: path.legs.some((leg) => leg.isPresumed),
    nowWith: listed.holder,
    nowSince: listed.heldSince,
    ...(station ? { station } : {}),
    ...(traced?.shift ? { shift: traced.shift } : {}),
    ...(traced?.seen ? { lastSeenAt: wire(traced.seen.getTime()) } : {}),
    ...(listed.retiredAt ? { retiredAt: listed.retiredAt } : {}),
    ...(washed ? { washedSince: washed } : {}),
  };
}

function threadsOf(
  { roots, walk }: TracedRecord,
  contacts: readonly TraceContact[],
  facts: ThreadFacts,
  known: Known,
): TraceThread[] {
  const isForward = facts.direction === "forward";
  const moments = new Map<string, number>();
  for (const { piece, at } of roots) {
    const before = moments.get(piece) ?? at;
    moments.set(piece, isForward ? Math.min(before, at) : Math.max(before, at));
  }
  const soonest = new Map(
    walk.contacts.map(({ piece, path, earlier }) => [piece, (earlier ?? path).arrival]),
  );
  const thread = (piece: PieceId, moment: number, rank?: number): TraceThread => {
    const listed = known.listed.get(piece) as PieceListed;
    const carried = carriedBy(piece, moment, facts);
    return {
      ...{ piece, name: nameOfPiece(piece, known), kind: listed.kind, isRoot: rank === undefined },
      ...(listed.number ? { number: listed.number } : {}),
      garment: (known.traced.get(piece)?.garment ?? piece) as PieceId,
      ...(rank === undefined ? {} : { rank }),
      stays: threadStays(piece, carried, rank === undefined ? "was there" : "possibly reached", facts),
      cleanings: facts.cleanings
        .filter((each) => each.piece === piece)
        .sort((a, b) => a.at_ms - b.at_ms)
        .map(({ at_ms, how, evidence }) => ({
          at: wire(at_ms),
          how,
          isAccepted: facts.accepts(how, evidence),
        })),
    };
  };
  return [
    ...[...moments].map(([piece, at]) => thread(piece as PieceId, at)),
    ...contacts.map(({ piece, rank }) => thread(piece, soonest.get(piece) ?? 0, rank)),
  ];
}

function nameOfPiece(piece: PieceId, { names }: Known): Named {
  return names[piece] ?? { kind: "piece", id: piece, name: "piece" };
}

function startIds(start: TraceFrom): readonly string[] {
  return Object.values(start).filter(
    (value): value is Uuid => typeof value === "string" && value.length === 36,
  );
}

function startShown(start: TraceFrom): TraceStart {
  const told = Object.entries(start).map(([name, value]) => [
    name,
    typeof value === "number" ? wire(value) : value,
  ]);
  return Object.fromEntries(told) as TraceStart;
}

function startName(start: TraceFrom, { names }: Known, lanes: readonly TraceLane[]): string {
  if (start.kind === "load") {
    const inside = lanes.find(({ id }) => id === `load:${start.load}`);
    return inside ? `Load in ${inside.holder.name}` : "A load";
  }
  if (start.kind !== "pieces") return names[startIds(start)[0] ?? ""]?.name ?? start.kind;
  const [first] = start.pieces;
  const { name, detail } = (first && names[first]) ?? { name: "piece" };
  const one = detail ? `${name} ${detail.replace(/(.{4})(?=.)/g, "$1 ")}` : name;
  return start.pieces.length === 1 ? one : `${one} and ${start.pieces.length - 1} more`;
}
