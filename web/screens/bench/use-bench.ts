/** The bench's state with all that it does: scans asked in order, acts sent, sounds made, answers spoken. */
import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { PieceId } from "../../../server/domain/ids.ts";
import type { ScanAnswer } from "../../../server/domain/scan-answer.ts";
import { midSentence, type Words } from "../../look/words.ts";
import { EVENT_WORDS } from "../../look/words-event.ts";
import type { ScanEvent } from "../../scan/scan-event.ts";
import { openScanLine, type ScanLine } from "../../scan/scan-line.ts";
import type { Sounds } from "../../scan/sounds.ts";
import { listenForWedge } from "../../scan/wedge-listener.ts";
import { type ActChoices, commandOf } from "./bench-commands.ts";
import type { BenchPort } from "./bench-port.ts";
import { AT_REST, type BenchEffect, type BenchEvent, type BenchRun, stepBench } from "./bench-run.ts";
import { modeVerb } from "./mode.ts";
import { spoken } from "./spoken.ts";

export interface Bench {
  readonly run: BenchRun;
  /** Scans that were taken and have no answer yet; the first since when, in milliseconds. */
  readonly asking: readonly { readonly text: string; readonly since: number }[];
  /** What a screen reader hears of the last answer. */
  readonly says: { readonly text: string; readonly isStop: boolean; readonly count: number };
  readonly choices: ActChoices;
  choose(choices: ActChoices): void;
  take(event: ScanEvent): void;
  /** Takes what was scanned since a badge, once it is said who is here. */
  release(): void;
  step(event: BenchEvent): void;
  takeBack(): Promise<void>;
  /** Sends an act about what is shown, and asks for the piece anew once it is written. */
  actOn(command: string, body: object, says: string, verb: string): Promise<void>;
}

export interface BenchParts {
  readonly port: BenchPort;
  readonly sounds: Sounds;
  readonly say: Words;
  readonly me: string;
  readonly onChangePerson: (badge: string, name: string) => void;
  /** A scan was taken, wherever in the program somebody was. */
  readonly onTaken: () => void;
}

/** Without a tray a mode falls back to look up after this pause. Own judgement; a department can ask for another. */
const PAUSE_MS = 90_000;

type Asked = { readonly answer: ScanAnswer } | { readonly failed: string };

export function useBench(parts: BenchParts): Bench {
  const [run, setRun] = useState<BenchRun>(AT_REST);
  const [asking, setAsking] = useState<Bench["asking"]>([]);
  const [says, setSays] = useState<Bench["says"]>({ text: "", isStop: false, count: 0 });
  const [choices, setChoices] = useState<ActChoices>({ condition: "used, no finding", isFitSeen: false });
  const now = useRef({ run, choices, parts });
  now.current = { ...now.current, choices, parts };

  const step = useMemo(() => {
    const speak = (text: string, isStop: boolean) =>
      setSays((before) => (text ? { text, isStop, count: before.count + 1 } : before));
    const take = (event: BenchEvent) => {
      const next = stepBench(now.current.run, event);
      now.current = { ...now.current, run: next.run };
      setRun(next.run);
      if (event.kind === "written") {
        // What was said of one act is not said of the next.
        setChoices(({ isWet: _, arePocketsChecked: __, reason: ___, ...kept }) => kept);
      }
      const told = spoken(event, next.run, now.current.parts.say);
      speak(told.text, told.isStop);
      for (const effect of next.effects) void carryOut(effect, () => now.current, take);
    };
    return take;
  }, []);

  const line = useMemo<ScanLine>(
    () =>
      openScanLine<Asked>({
        ask: async (scan) => ({ answer: await now.current.parts.port.scan(scan, now.current.run.mode.kind) }),
        failed: (_, cause) => ({ failed: cause instanceof Error ? cause.message : String(cause) }),
        apply: (scan, asked) => {
          setAsking((waiting) => waiting.slice(1));
          if ("failed" in asked) step({ kind: "fault", says: asked.failed });
          else step({ kind: "scanned", answer: asked.answer, via: scan.via });
          // Whoever holds the badge is not at the bench yet: what is scanned now is not the other person's.
          return "answer" in asked && asked.answer.kind === "badge" ? "hold" : undefined;
        },
        refuse: () => step({ kind: "fault", says: now.current.parts.say.tooManyScans }),
      }),
    [step],
  );

  const take = useMemo(
    () => (event: ScanEvent) => {
      now.current.parts.onTaken();
      setAsking((waiting) => [...waiting, { text: event.text, since: Date.now() }]);
      line.take(event);
    },
    [line],
  );

  useEffect(() => {
    const wedge = listenForWedge(window);
    wedge.listen(take);
    return () => wedge.stop();
  }, [take]);

  useEffect(() => {
    const timer = setTimeout(() => step({ kind: "idle" }), PAUSE_MS);
    return () => clearTimeout(timer);
  }, [run, step]);

  const takeBack = async () => {
    const last = now.current.run.lastAct;
    if (!last) return;
    const reply = await parts.port.act("takeBackAct", { act: last.act, note: parts.say.takenBack });
    if ("written" in reply) {
      step({
        kind: "written",
        act: reply.written.id,
        says: parts.say.tookBack(last.says),
        at: reply.written.at,
      });
    } else step(asEvent(reply, parts.say.notTakenBack));
  };

  const actOn = async (command: string, body: object, says: string, verb: string) => {
    const { shown } = now.current.run;
    const number =
      shown.what === "answer" && "piece" in shown.answer ? shown.answer.piece?.number : undefined;
    step(await sent(parts.port, command, body, says, verb));
    if (number) {
      take({
        text: number,
        carrier: "hand",
        symbology: "",
        via: "typed",
        time: Date.now(),
        device: "keyboard",
      });
    }
  };
  return {
    run,
    asking,
    says,
    choices,
    choose: setChoices,
    take,
    release: line.release,
    step,
    takeBack,
    actOn,
  };
}

interface Now {
  readonly run: BenchRun;
  readonly choices: ActChoices;
  readonly parts: BenchParts;
}

async function carryOut(
  effect: BenchEffect,
  now: () => Now,
  step: (event: BenchEvent) => void,
): Promise<void> {
  const { parts, run, choices } = now();
  const { port, say } = parts;
  switch (effect.do) {
    case "sound":
      return parts.sounds.play(effect.sound);
    case "read list":
      return readList(effect.pieces, now, step);
    case "read last load":
      return readLastLoad(effect.machine, now, step);
    case "change person":
      return parts.onChangePerson(effect.badge, effect.name);
    case "confirm": {
      const command = commandOf(run.mode, run.tray, choices, parts.me, effect.thereAndBack);
      if (!command) return step({ kind: "refused", verb: say.notWritten, reasons: [lacking(run, say)] });
      const verb = say.notWrittenFor(run.mode.kind);
      const at = command.isNow ? undefined : momentOf(choices);
      const written = await sent(port, command.command, command.body, command.says, verb, at);
      if (written.kind !== "written" || !command.load) return step(written);
      const running = { ...command.load, since: new Date(written.at).toISOString() };
      return step({ ...written, running });
    }
    case "install": {
      const { shell, layer } = effect;
      const body = { shell: shell.id, layer: layer.piece.id, evidence: layer.evidence };
      const says = `${midSentence(layer.piece.kind.name)} installed`;
      return step(await sent(port, "installLayer", body, says, say.notInstalled));
    }
    case "end load": {
      const { load, outcome, machine } = effect;
      const says = outcome === "aborted" ? say.loadAborted(machine) : say.loadEnded(machine);
      const written = await sent(port, "endLoad", { load, outcome }, says, say.notEnded);
      return step(written.kind === "written" ? { ...written, running: null } : written);
    }
    case "wipe": {
      const evidence = effect.via === "typed" ? "typed" : "scanned";
      const says = say.wiped(effect.name);
      return step(await sent(port, "wipePlace", { place: effect.place, evidence }, says, say.notWritten));
    }
    case "pack": {
      const { bag, packer } = effect;
      const says = EVENT_WORDS.packed(bag.name, packer.name);
      const body = { bag: bag.id, member: packer.id };
      return step(await sent(port, "packBag", body, says, EVENT_WORDS.notPacked, momentOf(choices)));
    }
    case "attach": {
      const { piece, number, via } = effect;
      const used = new Set(
        piece.tags.filter(({ state }) => state === "attached").map(({ position }) => position),
      );
      const position = ["main", "left", "right", "second"].find((one) => !used.has(one)) ?? "second";
      const proof = via === "typed" ? "typed" : "scanned";
      const body = { piece: piece.id, number, position: positionFor(piece.kind.code, position), proof };
      return step(await sent(port, "attachTag", body, say.tagAttached(number), say.tagNotAttached));
    }
  }
}

/** Asks for the list; an answer that a later scan has overtaken is left, since that scan asks too. */
async function readList(
  pieces: readonly PieceId[],
  now: () => Now,
  step: (event: BenchEvent) => void,
): Promise<void> {
  try {
    const list = await now().parts.port.benchList(pieces);
    const lying = now().run.reassembly?.lying.length ?? 0;
    if (lying === pieces.length) step({ kind: "list read", list });
  } catch (cause) {
    step({ kind: "fault", says: cause instanceof Error ? cause.message : String(cause) });
  }
}

/** Asks what a machine's last load took out, and lays it on the list. */
async function readLastLoad(
  machine: string,
  now: () => Now,
  step: (event: BenchEvent) => void,
): Promise<void> {
  try {
    step({ kind: "laid out", pieces: await now().parts.port.lastLoad(machine) });
  } catch (cause) {
    step({ kind: "fault", says: cause instanceof Error ? cause.message : String(cause) });
  }
}

/** Pairs have a left and a right tag; everything else a main and a second one. */
function positionFor(kind: string, free: string): string {
  if (kind.endsWith("-pair")) return free === "main" ? "left" : free;
  return free === "left" || free === "right" ? "second" : free;
}

/** The moment that was chosen for the act; undefined for now. */
function momentOf({ earlier }: ActChoices): number | undefined {
  const at = earlier ? Date.parse(earlier) : Number.NaN;
  return Number.isNaN(at) ? undefined : at;
}

async function sent(
  port: BenchPort,
  command: string,
  body: object,
  says: string,
  verb: string,
  at?: number,
): Promise<BenchEvent> {
  const reply = await port.act(command, body, at);
  if ("written" in reply) return { kind: "written", act: reply.written.id, says, at: reply.written.at };
  return asEvent(reply, verb);
}

function asEvent(
  reply: Exclude<Awaited<ReturnType<BenchPort["act"]>>, { written: unknown }>,
  verb: string,
): BenchEvent {
  return "refused" in reply
    ? { kind: "refused", verb, reasons: reply.refused }
    : { kind: "fault", says: reply.fault };
}

function lacking(run: BenchRun, say: Words) {
  return { what: `${modeVerb(run.mode, say)} ${say.lacksSomething}`, next: say.scanItsCard, isHold: false };
}
