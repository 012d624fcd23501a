import { describe, expect, it } from "vitest";
import {
  type AccountDraft,
  accountOf,
  accountProblems,
  EMPTY_ACCOUNT,
  EMPTY_SECRETS,
  secretsOf,
  secretsProblems,
} from "./account-draft.ts";

const problemsOf = (changes: Partial<AccountDraft>) =>
  Object.keys(accountProblems({ ...EMPTY_ACCOUNT, ...changes })).sort();

describe("an account", () => {
  it("needs a name, or a member who has one", () => {
    expect(problemsOf({})).toEqual(["name"]);
    expect(problemsOf({ member: "m1" })).toEqual([]);
    expect(problemsOf({ name: "Inez Calloway" })).toEqual([]);
  });

  it("of a member needs the member, of a company officer the station", () => {
    expect(problemsOf({ name: "Corwin Bask", role: "member" })).toEqual(["member"]);
    expect(problemsOf({ name: "Petra Oxholm", role: "company officer" })).toEqual(["station"]);
  });

  it("keeps a station for a company officer alone", () => {
    const draft = { name: " Petra Oxholm ", member: "", station: "s2" };
    expect(accountOf({ ...draft, role: "company officer" }, "a1")).toEqual({
      ...{ account: "a1", role: "company officer", station: "s2", name: "Petra Oxholm" },
    });
    expect(accountOf({ ...draft, role: "inspector" }, "a1")).not.toHaveProperty("station");
  });
});

describe("one's own secrets", () => {
  const unequal = "not the same";
  const wrong = (changes: Partial<typeof EMPTY_SECRETS>) =>
    Object.keys(secretsProblems({ ...EMPTY_SECRETS, passphrase: "now", ...changes }, unequal)).sort();

  it("change only by the passphrase that holds now, and to something new", () => {
    expect(Object.keys(secretsProblems(EMPTY_SECRETS, unequal)).sort()).toEqual([
      ...["newPassphrase", "passphrase"],
    ]);
    expect(wrong({ newPin: "4711" })).toEqual([]);
    const long = "seven brass couplings";
    expect(wrong({ newPassphrase: long, again: long })).toEqual([]);
  });

  it("are judged as the server judges them", () => {
    expect(wrong({ newPassphrase: "too short", again: "too short" })).toEqual(["newPassphrase"]);
    expect(wrong({ newPassphrase: "seven brass couplings", again: "seven" })).toEqual(["again"]);
    for (const newPin of ["123", "1111", "12345678", "12a4"]) expect(wrong({ newPin })).toEqual(["newPin"]);
  });

  it("that stay as they are are not sent", () => {
    expect(secretsOf({ ...EMPTY_SECRETS, passphrase: "now", newPin: "4711" })).toEqual({
      ...{ passphrase: "now", newPin: "4711" },
    });
  });
});
