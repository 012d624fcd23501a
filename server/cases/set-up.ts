import type { ActId } from "../domain/ids.ts";
import {
  ACTION_CARDS,
  foldPolicy,
  POLICY_ID,
  type Settings,
  STARTING_SETTINGS,
} from "../domain/register/policy.ts";
import { STANDARD_KINDS } from "../domain/register/standard-kinds.ts";
import type { NewEntry } from "../domain/subjects.ts";
import type { Instant } from "../domain/time.ts";
import { uuidV7 } from "../ledger/uuid-v7.ts";
import { type ActScope, entriesOf, takeSubjects } from "../store/act-scope.ts";
import type { Db } from "../store/db.ts";
import { keepPersonName } from "../store/keep-secrets.ts";
import { otherManagers } from "../store/list-accounts.ts";
import { drawNumbers } from "./draw-numbers.ts";
import { makeLink, type NewLink } from "./one-time-links.ts";
import { type Act, runAct } from "./run-act.ts";
import { SYSTEM_ACCOUNT, SYSTEM_NAME, SYSTEM_ROLE } from "./system-account.ts";

interface SetUp {
  /** The time zone that the department starts with. */
  readonly timeZone: string;
}

/** Opens the system account, the standard kinds, the starting settings and the action cards: whatever is not there yet. */
export const setUpAct: Act<SetUp> = {
  name: "setUp",
  rules: "exclusive",
  async decide(scope, { timeZone }, { at }) {
    const account = await missingAccount(scope);
    const kinds = await missingKinds(scope, at);
    const policy = await missingPolicy(scope, timeZone);
    return { entries: [...account, ...kinds, ...policy] };
  },
};

async function missingAccount(scope: ActScope): Promise<NewEntry[]> {
  await takeSubjects(scope, "account", [SYSTEM_ACCOUNT]);
  if (entriesOf(scope, "account", SYSTEM_ACCOUNT).length > 0) return [];
  await keepPersonName(scope.tx, SYSTEM_ACCOUNT, SYSTEM_NAME);
  const entry = { kind: "AccountOpened" as const, account: { role: SYSTEM_ROLE } };
  return [{ subjectKind: "account", subject: SYSTEM_ACCOUNT, entry }];
}

async function missingKinds(scope: ActScope, at: Instant): Promise<NewEntry[]> {
  const known = new Set((await scope.tx.selectFrom("kind").select("code").execute()).map(({ code }) => code));
  return STANDARD_KINDS.filter(({ code }) => !known.has(code)).map((describes) => ({
    subjectKind: "kind",
    subject: uuidV7(at),
    entry: { kind: "KindDescribed", describes },
  }));
}

async function missingPolicy(scope: ActScope, timeZone: string): Promise<NewEntry[]> {
  await takeSubjects(scope, "policy", [POLICY_ID]);
  const entries = entriesOf(scope, "policy", POLICY_ID);
  const set = new Set(entries.flatMap(({ entry }) => (entry.kind === "SettingSet" ? [entry.name] : [])));
  const start: Settings = { ...STARTING_SETTINGS, "time zone": timeZone };
  const settings = (Object.keys(start) as (keyof Settings)[]).filter((name) => !set.has(name));
  const { cards } = foldPolicy(POLICY_ID, entries);
  const actions = ACTION_CARDS.filter((action) => !cards[action]);
  const numbers = await drawNumbers(scope.tx, actions.length);
  const onPolicy = (entry: Extract<NewEntry, { subjectKind: "policy" }>["entry"]): NewEntry => ({
    subjectKind: "policy",
    subject: POLICY_ID,
    entry,
  });
  return [
    ...settings.map((name) => onPolicy({ kind: "SettingSet", name, value: start[name] })),
    ...actions.flatMap((action, index) => {
      const number = numbers[index];
      return number ? [onPolicy({ kind: "ActionCarded", action, number })] : [];
    }),
  ];
}

/**
 * Brings a department's record to where work can start, at each start of the server. What is there already stays, so
 * that two servers may start at once and a new version may add a kind or a card.
 */
export async function setUp(
  db: Db,
  start: { readonly nowMs: number; readonly appBuild: string; readonly timeZone: string },
): Promise<void> {
  const at = start.nowMs as Instant;
  const envelope = {
    ...{
      id: uuidV7(start.nowMs) as ActId,
      by: SYSTEM_ACCOUNT,
      role: SYSTEM_ROLE,
      device: "server",
      deviceSeq: 0,
    },
    ...{ appBuild: start.appBuild, at, atOffsetMin: 0, sentAt: at },
  };
  const outcome = await runAct(db, setUpAct, { timeZone: start.timeZone }, envelope, start.nowMs);
  const stopped = "refusals" in outcome && outcome.refusals.find(({ code }) => code !== "nothing-to-do");
  if (stopped) throw new Error(`The department could not be set up: ${stopped.code}.`);
}

/** Makes the link of the first program manager while nobody can manage; undefined once somebody can. */
export async function firstManagerLink(db: Db, nowMs: number): Promise<NewLink | undefined> {
  const managers = await otherManagers(db, SYSTEM_ACCOUNT);
  return managers.length > 0 ? undefined : managerLink(db, nowMs);
}

/** Makes a link for one more program manager, for whoever has the server itself in hand and nobody who can sign in. */
export async function managerLink(db: Db, nowMs: number): Promise<NewLink> {
  const link = await makeLink(db, { purpose: "first manager", madeBy: SYSTEM_ACCOUNT }, nowMs);
  if (!link) throw new Error("A link without an account was refused.");
  return link;
}

/** The screen's address that a link's secret is put on, after `#`. */
export function linkPath({ token }: NewLink): string {
  return `/link#${token}`;
}
