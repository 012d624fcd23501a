import { foldLoad } from "../domain/cleaning/load.ts";
import { foldMachine } from "../domain/cleaning/machine.ts";
import { foldEvent } from "../domain/contamination/contamination-event.ts";
import type { Uuid } from "../domain/ids.ts";
import type { Versioned } from "../domain/pieces/piece-entries.ts";
import { foldPiece, isFault, type PieceFault } from "../domain/pieces/piece-state.ts";
import { foldAcceptance } from "../domain/register/acceptance.ts";
import { foldAccount } from "../domain/register/account.ts";
import { foldKind } from "../domain/register/kind.ts";
import { foldMember } from "../domain/register/member.ts";
import { foldModel } from "../domain/register/model.ts";
import { foldOutside, foldProvider } from "../domain/register/parties.ts";
import { foldPlace } from "../domain/register/place.ts";
import { foldPolicy, POLICY_ID } from "../domain/register/policy.ts";
import type { EntriesOf, SubjectKind } from "../domain/subjects.ts";
import { foldTag } from "../domain/tags/tag-entries.ts";
import { pieceOfTag } from "../domain/tags/tag-state.ts";
import { foldTrace } from "../domain/tracing/kept-trace.ts";
import { rowsOfLoad, rowsOfMachine } from "./cleaning-rows.ts";
import { instantCell, type ProjectedRow, type Projection, rowsOfPiece } from "./projected-rows.ts";
import { rowsOfTrace } from "./trace-rows.ts";

export class SubjectFault extends Error {
  readonly subject: Uuid;
  readonly fault: PieceFault;
  constructor(subject: Uuid, fault: PieceFault) {
    super(`The entries of ${subject} contradict each other: ${fault.code} at version ${fault.version}.`);
    this.subject = subject;
    this.fault = fault;
  }
}

/** Every subject whose entries would contradict each other. */
export class SubjectFaults extends Error {
  readonly faults: readonly SubjectFault[];
  constructor(faults: readonly SubjectFault[]) {
    super(faults.map(({ message }) => message).join(" "));
    this.faults = faults;
  }
}

type Entries<Kind extends SubjectKind> = readonly Versioned<EntriesOf[Kind]>[];
type Projectors = { readonly [Kind in SubjectKind]: (id: never, entries: Entries<Kind>) => Projection };

/** What each subject's entries make true in the tables. */
const PROJECTORS: Projectors = {
  piece(id, entries) {
    const state = foldPiece(id, entries);
    if (isFault(state)) throw new SubjectFault(id, state);
    return rowsOfPiece(state);
  },
  tag(id, entries) {
    const tag = foldTag(id, entries);
    if (!tag) return {};
    const row: ProjectedRow = {
      id,
      number: tag.number,
      state: tag.state.status,
      piece: pieceOfTag(tag.state) ?? null,
      meant_for: tag.meantFor ?? null,
      position: "position" in tag.state ? tag.state.position : null,
      run: tag.run ?? null,
      attached_at: tag.attachedAt === undefined ? null : instantCell(tag.attachedAt),
      superseded_by: tag.state.status === "superseded" ? tag.state.by : null,
      version: tag.version,
    };
    return { tag: [row], numbered: numbered(tag.number, "tag", id, tag.version) };
  },
  place(id, entries) {
    const place = foldPlace(id, entries);
    if (!place) return {};
    const { side, within, number, cleanings, ...rest } = place;
    const row = { ...rest, side: side ?? null, within: within ?? null, number: number ?? null };
    return {
      place: [row],
      place_cleaned: cleanings.map((at, index) => ({ place: id, n: index + 1, cleaned_at: instantCell(at) })),
      numbered: numbered(number, "place", id, place.version),
      named: named("place", place, { name: place.name, up: within }),
    };
  },
  member(id, entries) {
    const member = foldMember(id, entries);
    if (!member) return {};
    const { number, station, shift, leftOn, card, version } = member;
    const row = {
      ...{ id, number, version },
      station: station ?? null,
      shift: shift ?? null,
      left_on: leftOn ?? null,
      card: card ?? null,
    };
    return {
      member: [row],
      numbered: numbered(card, "member", id, version),
      named: named("member", member, { detail: number, up: station }),
    };
  },
  provider(id, entries) {
    const provider = foldProvider(id, entries);
    if (!provider) return {};
    const { verifiedUntil, verifiedBy, ...rest } = provider;
    return {
      provider: [{ ...rest, verified_until: verifiedUntil ?? null, verified_by: verifiedBy ?? null }],
      named: named("provider", provider, { name: provider.name }),
    };
  },
  outside(id, entries) {
    const outside = foldOutside(id, entries);
    if (!outside) return {};
    const { name, what } = outside;
    return { outside: [{ ...outside }], named: named("outside", outside, { name, detail: what }) };
  },
  kind(id, entries) {
    const kind = foldKind(id, entries);
    if (!kind) return {};
    return { kind: [{ ...kind, garment: kind.garment ?? null, layer: kind.layer ?? null }] };
  },
  model(id, entries) {
    const model = foldModel(id, entries);
    if (!model) return {};
    const { maker, name, kind, layers, wash, source, takes, version } = model;
    const told = { source: source.what, source_by: source.by, source_on: source.on ?? null };
    return {
      model: [{ id, maker, name, kind, layers, wash: wash ?? null, ...told, version }],
      model_takes: takes.map((row, index) => ({
        model: id,
        n: index + 1,
        layer_kind: row.layerKind,
        takes_model: row.takesModel ?? null,
        takes_code: row.takesLinerCode ?? null,
      })),
      named: named("model", model, { name, detail: maker }),
    };
  },
  acceptance(id, entries) {
    const word = foldAcceptance(id, entries);
    if (!word) return {};
    const row = {
      ...{ id, scope: word.scope, document: word.document, withdrawn: word.withdrawn },
      said_by: word.saidBy,
      said_by_name: word.saidByName,
      said_on: word.saidOn,
      version: word.version,
    };
    return { acceptance: [row] };
  },
  policy(id, entries) {
    const policy = foldPolicy(id, entries);
    const { version } = policy;
    const settings = { ...policy.settings, "action cards": policy.cards };
    const cards = Object.values(policy.cards).flatMap((number) =>
      numbered(number, "action", POLICY_ID, version),
    );
    return {
      contaminant: policy.contaminants.map((rule) => ({ code: rule.code, policy: id, rule, version })),
      setting: Object.entries(settings).map(([name, value]) => ({ name, policy: id, value, version })),
      numbered: cards,
    };
  },
  "contamination-event"(id, entries) {
    const event = foldEvent(id, entries);
    if (!event) return {};
    const { name, place, where, incident, kinds, members, version } = event;
    const row = {
      ...{ id, name, kinds, version },
      from_at: instantCell(event.from),
      to_at: instantCell(event.to),
      place: place ?? null,
      where_told: where ?? null,
      incident: incident ?? null,
    };
    return {
      contamination_event: [row],
      event_member: members.map(({ member, set, evidence, version: said }) => {
        return { event: id, member, set_name: set ?? null, evidence, version: said };
      }),
      named: named("contamination-event", event, { name, detail: incident }),
    };
  },
  trace(id, entries) {
    const trace = foldTrace(id, entries);
    return trace ? { ...rowsOfTrace(trace), named: named("trace", trace, { name: trace.facts.name }) } : {};
  },
  account(id, entries) {
    const account = foldAccount(id, entries);
    if (!account) return {};
    const { role, member, station, badge, closed, version } = account;
    const row = {
      id,
      role,
      member: member ?? null,
      station: station ?? null,
      badge: badge ?? null,
      closed,
      version,
    };
    return {
      account: [row],
      numbered: numbered(badge, "badge", id, version),
      named: named("account", account, { detail: role, up: member }),
    };
  },
  load(id, entries) {
    const load = foldLoad(id, entries);
    return load ? rowsOfLoad(load) : {};
  },
  machine(id, entries) {
    const machine = foldMachine(id, entries);
    if (!machine) return {};
    const { name, place } = machine;
    return { ...rowsOfMachine(machine), named: named("machine", machine, { name, up: place }) };
  },
};

/** How an id is named on screens. Names of people stand apart, so that they can be removed. */
function named(
  kind: string,
  { id, version }: { readonly id: string; readonly version: number },
  told: {
    readonly name?: string;
    readonly detail?: string | undefined;
    readonly up?: string | undefined;
  },
): ProjectedRow[] {
  const { name, detail, up } = told;
  return [{ id, kind, name: name ?? null, detail: detail ?? null, up: up ?? null, version }];
}

function numbered(
  number: string | undefined,
  names: string,
  subject: string,
  version: number,
): ProjectedRow[] {
  return number ? [{ number, names, subject, version }] : [];
}

/**
 * Computes the rows that a subject's entries make true, in every projected table.
 * Throws SubjectFault when a piece's entries contradict each other; no entries give no rows.
 */
export function projectSubject(
  kind: SubjectKind,
  id: Uuid,
  entries: readonly Versioned<EntriesOf[SubjectKind]>[],
): Projection {
  if (entries.length === 0) return {};
  return PROJECTORS[kind](id as never, entries as never);
}
