import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import { beforeAll, describe, expect, test } from "vitest";
import { drawTraceReport } from "../../labels/papers/trace-report.ts";
import { movePiecesAct } from "../../server/cases/bench-acts.ts";
import { correctMoveAct } from "../../server/cases/correct-acts.ts";
import { listTraces, readKeptTrace } from "../../server/cases/kept-traces.ts";
import {
  closeTraceAct,
  keepTraceAct,
  recordOutcomeAct,
  reopenTraceAct,
  traceAnewAct,
} from "../../server/cases/trace-acts.ts";
import { verifyLedger } from "../../server/cases/verify.ts";
import type { PieceId, Uuid } from "../../server/domain/ids.ts";
import { contactRows, sayNamed, sayPath } from "../../server/domain/tracing/contact-words.ts";
import type { TraceView } from "../../server/domain/tracing/trace-view.ts";
import { whenInUtc } from "../../server/domain/when-words.ts";
import { anId } from "../kit/acting.ts";
import { openDepartment, scanned } from "../kit/small-department.ts";
import { useTestDatabase } from "../kit/test-database.ts";
import { asking, iso, ms, NOW, on, tracedGear } from "../kit/traced-gear.ts";

const database = useTestDatabase();
const { tobin, odile, aPlace, register, move, chain } = tracedGear(() => database.app);
beforeAll(async () => {
  await openDepartment(() => database.app);
});

/** The words of a PDF, lines joined by blanks, read by a second library. */
async function textOf(pdf: Uint8Array): Promise<string> {
  const document = await getDocument({ data: pdf.slice(), verbosity: 0 }).promise;
  const words: string[] = [];
  for (let page = 1; page <= document.numPages; page++) {
    const { items } = await (await document.getPage(page)).getTextContent();
    for (const item of items) if ("str" in item && item.str.trim() !== "") words.push(item.str);
  }
  await document.loadingTask.destroy();
  return words.join(" ");
}

describe("a kept trace", () => {
  async function keep(root: PieceId, isDrill = false): Promise<Uuid> {
    const id = anId<Uuid>();
    const start = { kind: "pieces" as const, pieces: [root], at: ms(2, "08:00") };
    const command = { id, name: "a coat shell", isDrill, asked: asking(start) };
    await tobin.must(keepTraceAct, command, on(20, "09:00"));
    return id;
  }
  async function read(id: Uuid): Promise<TraceView> {
    const view = await readKeptTrace(database.app, id, NOW);
    if (!view?.kept) throw new Error("not kept");
    return view;
  }

  test("a stay recorded three days late changes its answer, and it says so", async () => {
    const { root, bag, peg, boots } = await chain();
    const id = await keep(root);
    expect((await read(id)).kept).toMatchObject({ changedSince: [], status: "open" });
    const elsewhere = await aPlace("apart");
    await move(await register("hood", elsewhere), elsewhere, on(20, "10:00"));
    expect((await read(id)).kept?.changedSince).toEqual([]);
    // Said on the 23rd: the boots lay in the bag for an hour on the 2nd.
    await tobin.must(
      movePiecesAct,
      { pieces: scanned(boots), to: { kind: "place", id: bag }, purpose: "transfer", thereAndBack: false },
      on(2, "10:00"),
    );
    const { kept, contacts } = await read(id);
    expect(kept?.changedSince).toMatchObject([
      { subject: boots, at: iso(on(2, "10:00")), command: "movePieces" },
    ]);
    expect(kept?.anew?.added).toMatchObject([{ id: boots }]);
    expect(kept?.anew?.gone).toEqual([]);
    expect(contacts.some(({ piece }) => piece === boots)).toBe(true);
    await tobin.must(traceAnewAct, { trace: id }, on(23, "09:00"));
    expect((await read(id)).kept?.changedSince).toEqual([]);
    // Taken back: it was another pair.
    const [entry] = await database.app
      .selectFrom("stay")
      .select("from_version")
      .where("piece", "=", boots)
      .where("holder", "=", bag)
      .execute();
    await odile.must(
      correctMoveAct,
      { piece: boots, version: entry?.from_version ?? 0, void: true, note: "another pair" },
      on(24, "09:00"),
    );
    expect((await read(id)).kept?.anew).toMatchObject({ added: [], gone: [{ id: boots }] });
    expect(peg).toBeDefined();
  });

  test("it is worked until each piece has an outcome; not found is the program manager's, and ends with the next sighting", async () => {
    const { root, liner, hood } = await chain();
    const id = await keep(root);
    const outcome = (piece: PieceId, word: "found" | "cleared" | "not found", reason?: string) => ({
      ...{ trace: id, pieces: scanned(piece), outcome: word },
      ...(reason ? { reason } : {}),
    });
    expect(await tobin.refusalsOf(recordOutcomeAct, outcome(root, "found"))).toEqual(["not-on-the-list"]);
    expect(await tobin.refusalsOf(recordOutcomeAct, outcome(liner, "cleared"))).toEqual(["reason-needed"]);
    expect(await tobin.refusalsOf(recordOutcomeAct, outcome(liner, "not found", "searched"))).toEqual([
      "role",
    ]);
    await tobin.must(recordOutcomeAct, outcome(liner, "found"), on(21, "09:00"));
    expect(await odile.refusalsOf(closeTraceAct, { trace: id })).toEqual(["without-outcome"]);
    await odile.must(recordOutcomeAct, outcome(hood, "not found", "searched Station 4"), on(21, "10:00"));
    await odile.must(closeTraceAct, { trace: id }, on(21, "11:00"));
    const closed = await read(id);
    expect(closed.kept?.status).toBe("closed");
    expect(closed.contacts.map((contact) => contact.outcome)).toMatchObject([
      { outcome: "found", evidence: "scanned" },
      { outcome: "not found", reason: "searched Station 4" },
    ]);
    await move(hood, await aPlace("shared"), on(22, "09:00"));
    const again = await read(id);
    expect(again.kept?.status).toBe("open");
    expect(again.contacts[1]?.outcome).toMatchObject({ seenSince: iso(on(22, "09:00")) });
    await odile.must(reopenTraceAct, { trace: id }, on(22, "10:00"));
    expect(await odile.refusalsOf(closeTraceAct, { trace: id })).toEqual(["without-outcome"]);
  });

  test("a drill is told apart, tells its times and its share found, and places no holds", async () => {
    const { root, liner } = await chain();
    const id = await keep(root, true);
    await tobin.must(
      recordOutcomeAct,
      { trace: id, pieces: scanned(liner), outcome: "found" },
      on(20, "09:30"),
    );
    expect((await read(id)).kept).toMatchObject({
      isDrill: true,
      drill: { toLastOutcomeMs: 30 * 60_000, foundShare: 0.5 },
    });
    expect((await listTraces(database.app)).find((one) => one.id === id)).toMatchObject({
      isDrill: true,
      settled: 1,
    });
    const holds = await database.app
      .selectFrom("hold")
      .selectAll()
      .where("piece", "in", [root, liner])
      .execute();
    expect(holds).toEqual([]);
  });

  test("its spreadsheet and its report say what the screen says, under the caution", async () => {
    const { root, liner } = await chain();
    const id = await keep(root, true);
    await tobin.must(
      recordOutcomeAct,
      { trace: id, pieces: scanned(liner), outcome: "isolated" },
      on(20, "09:30"),
    );
    const view = await read(id);
    const [header, ...rows] = contactRows(view);
    const column = (name: string) => rows.map((row) => row[header?.indexOf(name) ?? -1]);
    expect(column("piece")).toEqual(view.contacts.map(({ piece }) => piece));
    expect(column("first moment")).toEqual(view.contacts.map(({ firstMoment }) => firstMoment));
    expect(column("outcome")).toEqual(["isolated", "no outcome yet"]);
    expect(column("shared minutes")).toEqual(view.contacts.map(({ sharedMs }) => String(sharedMs / 60_000)));
    const pdf = await drawTraceReport(view, whenInUtc);
    expect(Buffer.from(await drawTraceReport(view, whenInUtc)).equals(Buffer.from(pdf))).toBe(true);
    const text = await textOf(pdf);
    for (const says of [
      "Drill. It places no holds.",
      "Possible contact is not proof of exposure.",
      "Outcome: isolated",
    ])
      expect(text).toContain(says);
    for (const contact of view.contacts) {
      expect(text).toContain(`${contact.rank}. ${sayNamed(contact.name)}`);
      expect(text).toContain(sayPath(contact, view, whenInUtc).slice(0, 60));
    }
    expect(text).not.toMatch(/contaminated by|safe|exposed by/);
  });

  test("everything that is kept of traces follows from the ledger", async () => {
    const { findings } = await verifyLedger(database.app, { seals: [], onProgress: () => {} });
    expect(findings).toEqual([]);
  });
});
