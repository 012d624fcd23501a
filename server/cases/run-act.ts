import { waysOut } from "../domain/custody/late-record.ts";
import type { AccountId, ActId, Uuid } from "../domain/ids.ts";
import type { Decided, Refusal } from "../domain/refusal.ts";
import type { Role } from "../domain/register/account.ts";
import type { NewEntry } from "../domain/subjects.ts";
import type { Instant } from "../domain/time.ts";
import { canonicalBytes, type LedgerValue, sha256 } from "../ledger/canonical.ts";
import { type ActScope, lockRules, openScope, writeAct } from "../store/act-scope.ts";
import { findAct, type KnownAct, type WrittenAct } from "../store/append-act.ts";
import type { Db } from "../store/db.ts";
import { PlacesInShellsTaken } from "../store/fitting-places.ts";
import { SubjectFault, SubjectFaults } from "../store/project-subject.ts";

/** Who acts, from where and when, as the client states it; the server adds position and recorded time. */
export interface ActEnvelope {
  readonly id: ActId;
  readonly by: AccountId;
  /** The role in which the person acts; decides what an act may do, and is no part of the chain. */
  readonly role: Role;
  readonly device: string;
  readonly deviceSeq: number;
  readonly appBuild: string;
  readonly at: Instant;
  readonly atOffsetMin: number;
  readonly sentAt: Instant;
}

export type ActOutcome = { readonly written: WrittenAct } | { readonly refusals: readonly Refusal[] };

/** One use case: reads under locks what it needs, asks the domain, and hands back entries or refusals. */
export interface Act<Command> {
  /** The imperative name that the ledger keeps, such as `movePieces`. */
  readonly name: string;
  /** How the rules are locked; "by itself" shares them with the first question that it asks. */
  readonly rules: "shared" | "exclusive" | "by itself";
  readonly decide: (
    scope: ActScope,
    command: Command,
    envelope: ActEnvelope,
  ) => Promise<Decided<readonly NewEntry[]>>;
}

/** How far a device's clock may run ahead before its time is refused. Own judgement. */
const CLOCK_AHEAD_MS = 5 * 60_000;
/**
 * Deadlock, lost race, and a key or a time that somebody else took between our look and our writing: decided anew, the
 * act meets what is there now and says so in its own words.
 */
const RETRIED = new Set(["40P01", "40001", "23505", "23P01"]);

/**
 * Runs one act in one transaction: all of it is written, or none. The same act sent again gets the first result;
 * the same id with another command or person is refused. Deadlocks and lost races are tried again, five times.
 */
export async function runAct<Command>(
  db: Db,
  act: Act<Command>,
  command: Command,
  envelope: ActEnvelope,
  nowMs: number = Date.now(),
): Promise<ActOutcome> {
  if (envelope.at > nowMs + CLOCK_AHEAD_MS) {
    return { refusals: [{ code: "in-the-future", at: envelope.at, now: nowMs as Instant }] };
  }
  const commandHash = sha256(canonicalBytes({ name: act.name, command: command as LedgerValue }));
  for (let tries = 1; ; tries++) {
    try {
      return { written: await writeOnce(db, act, command, envelope, commandHash, nowMs) };
    } catch (failure) {
      // Whatever stands in its way, an act that was written once is answered with what it wrote then.
      const known = await findAct(db, envelope.id);
      if (known) return answerAgain(known, envelope, commandHash);
      if (failure instanceof Refused) return { refusals: failure.refusals };
      if (failure instanceof SubjectFault) return { refusals: [misfit(failure, act, command, envelope)] };
      if (failure instanceof SubjectFaults) {
        return { refusals: failure.faults.map((one) => misfit(one, act, command, envelope)) };
      }
      if (failure instanceof PlacesInShellsTaken) return { refusals: failure.refusals };
      if (tries < 5 && isRetried(failure)) continue;
      throw failure;
    }
  }
}

/** What would contradict the record, with what can be written instead. */
function misfit<Command>(
  { subject, fault }: SubjectFault,
  { name }: Act<Command>,
  command: Command,
  { at }: ActEnvelope,
): Refusal {
  const isThereAndBack =
    typeof command === "object" && command !== null && "thereAndBack" in command && !!command.thereAndBack;
  return {
    code: "does-not-fit-the-record",
    subject,
    fault,
    offers: waysOut(fault, { name, at, isThereAndBack }),
  };
}

function answerAgain(known: KnownAct, envelope: ActEnvelope, commandHash: Buffer): ActOutcome {
  const { by, commandHash: hash, ...written } = known;
  if (by === envelope.by && hash.equals(commandHash)) return { written };
  return { refusals: [{ code: "repeated-id", act: envelope.id as Uuid }] };
}

/** Leaves the transaction without a trace: a refused act writes no row. */
class Refused extends Error {
  readonly refusals: readonly Refusal[];
  constructor(refusals: readonly Refusal[]) {
    super("refused");
    this.refusals = refusals;
  }
}

/**
 * Writes an act that nobody wrote before. A second sending meets the first one's locks, or its key, and fails after it
 * is there: no look beforehand is needed, and the ordinary act pays nothing for the rare repetition.
 */
async function writeOnce<Command>(
  db: Db,
  act: Act<Command>,
  command: Command,
  envelope: ActEnvelope,
  commandHash: Buffer,
  nowMs: number,
): Promise<WrittenAct> {
  return db.transaction().execute(async (tx) => {
    if (act.rules !== "by itself") await lockRules(tx, act.rules);
    const scope = openScope(tx);
    const decided = await act.decide(scope, command, envelope);
    if ("refusals" in decided) throw new Refused(decided.refusals);
    if (decided.entries.length === 0) throw new Refused([{ code: "nothing-to-do" }]);
    const { role: _, ...header } = envelope;
    const written = await writeAct(
      scope,
      { ...header, command: act.name, commandHash },
      decided.entries,
      nowMs,
    );
    return { id: envelope.id, at: envelope.at, ...written };
  });
}

function isRetried(failure: unknown): boolean {
  return failure instanceof Error && "code" in failure && RETRIED.has(String(failure.code));
}
