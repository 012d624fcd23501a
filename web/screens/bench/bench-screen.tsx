/** The bench: the tape says what the next scan does, the middle shows the answer or the tray, the hem holds the confirm. */
import { useEffect, useRef, useState } from "preact/hooks";
import type { MemberBrief, PlaceBrief } from "../../../server/domain/scan-answer.ts";
import { Button, Confirm } from "../../look/buttons.tsx";
import { Choice } from "../../look/choice.tsx";
import { Hem, LastAct } from "../../look/hem.tsx";
import { Notice } from "../../look/notice.tsx";
import { Band, Page } from "../../look/page.tsx";
import { Reasons } from "../../look/reasons.tsx";
import { type Person, Tape } from "../../look/tape.tsx";
import { countOf, numberWord, sentence, type Words } from "../../look/words.ts";
import type { Sounds } from "../../scan/sounds.ts";
import { judgeTyping } from "../../scan/typed-number.ts";
import { goTo } from "../use-place.ts";
import { answerWords } from "./answer-words.ts";
import type { BenchPort } from "./bench-port.ts";
import type { RefusalWords, Shown } from "./bench-run.ts";
import { CameraDialog } from "./camera-dialog.tsx";
import { sayWhen } from "./describe-piece.ts";
import { FitPanel } from "./fit-panel.tsx";
import { type Clock, LookUpPanel } from "./look-up-panel.tsx";
import { hasTray, lacks, modeSays, modeVerb } from "./mode.ts";
import { ModeDialog } from "./mode-dialog.tsx";
import { traySays } from "./tray-check.ts";
import { TrayPanel } from "./tray-panel.tsx";
import { type Bench, useBench } from "./use-bench.ts";

export interface BenchScreenProps {
  /** Another page may lie over the bench; its keys then rest, and its tray stays. */
  readonly isOpen: boolean;
  readonly port: BenchPort;
  readonly sounds: Sounds;
  readonly say: Words;
  readonly person: Person;
  /** The account that is signed in. */
  readonly me: string;
  readonly clock: Clock;
  readonly places: readonly PlaceBrief[];
  readonly members: readonly MemberBrief[];
  readonly menuOpen: boolean;
  readonly onMenu: () => void;
  readonly onChangePerson: (badge: string, name: string) => void;
  readonly onPrintRecord: (piece: string) => void;
  readonly onTaken: () => void;
}

export function BenchScreen(props: BenchScreenProps) {
  const { say } = props;
  const bench = useBench(props);
  const { run } = bench;
  const [isChoosing, setChoosing] = useState(false);
  const [isTyping, setTyping] = useState(false);
  const [camera, setCamera] = useState(false);
  useKeys(bench, props.isOpen, {
    mode: () => setChoosing(true),
    trail: () => trailOf(run.shown, (id) => goTo(`/pieces/${id}`)),
    print: () => trailOf(run.shown, props.onPrintRecord),
  });
  const isStopped = run.shown.what === "refused";
  return (
    <Page
      tape={
        <Tape
          verb={modeVerb(run.mode, say)}
          second={isStopped ? `${say.stopped} ${say.stoppedNext}` : modeSays(run.mode, say)}
          writes={run.mode.kind !== "look up"}
          person={props.person}
          menuLabel={say.menu}
          menuOpen={props.menuOpen}
          onMenu={props.onMenu}
          changeLabel={say.changeMode}
          onChangeMode={() => setChoosing(true)}
        />
      }
      hem={
        <BenchHem
          {...props}
          bench={bench}
          isTyping={isTyping}
          onType={() => setTyping(!isTyping)}
          onCamera={() => setCamera(true)}
        />
      }
      sign={<Waiting bench={bench} say={say} />}
    >
      <Middle {...props} bench={bench} />
      <p
        class="hidden"
        role={bench.says.isStop ? "alert" : "status"}
        aria-live={bench.says.isStop ? "assertive" : "polite"}
        data-count={bench.says.count}
      >
        {bench.says.text}
      </p>
      <ModeDialog
        open={isChoosing}
        places={props.places}
        members={props.members}
        say={say}
        onChoose={(mode) => {
          setChoosing(false);
          bench.step({ kind: "mode chosen", mode });
        }}
        onClose={() => setChoosing(false)}
      />
      <CameraDialog open={camera} say={say} onScan={bench.take} onClose={() => setCamera(false)} />
    </Page>
  );
}

function Middle(props: BenchScreenProps & { readonly bench: Bench }) {
  const { bench, say, clock } = props;
  const { run } = bench;
  const { shown } = run;
  const reasons = shown.what === "refused" ? <RefusedReasons shown={shown} say={say} /> : null;
  const fault =
    shown.what === "fault" ? (
      <Notice kind="fault" head={say.notWritten} live="off">
        {`${shown.says} ${run.tray.length > 0 ? say.trayKept : ""}`}
      </Notice>
    ) : null;
  if (shown.what === "fit" || (shown.what === "refused" && run.mode.kind === "install" && run.shell)) {
    return <FitMiddle {...props} reasons={shown.what === "refused" ? shown.reasons : []} />;
  }
  if (hasTray(run.mode)) {
    const already =
      shown.what === "already here" ? `${shown.piece.kind.name} ${say.isAlreadyHere}` : undefined;
    return (
      <>
        {fault}
        {reasons}
        {already ? <Notice kind="unknown" head={sentence(already)} live="off" /> : null}
        <AnswerNotice shown={shown} say={say} />
        <TrayPanel
          mode={run.mode}
          tray={run.tray}
          say={say}
          onTakeOff={(piece) => bench.step({ kind: "take off", piece })}
        />
        {run.mode.kind === "issue" && run.tray.length > 0 ? <IssueBand bench={bench} say={say} /> : null}
      </>
    );
  }
  return (
    <>
      {fault}
      {reasons}
      <LookedUp {...props} clock={clock} shown={shown} />
    </>
  );
}

function LookedUp(props: BenchScreenProps & { readonly bench: Bench; readonly shown: Shown }) {
  const { shown, say, clock, bench } = props;
  const answer = shown.what === "answer" ? shown.answer : undefined;
  const piece = answer && "piece" in answer ? answer.piece : undefined;
  if (!piece) {
    if (answer) return <AnswerNotice shown={shown} say={say} />;
    return shown.what === "nothing" ? (
      <div class="bench-empty cutting-table">
        <Notice kind="empty" head={say.nothingScanned}>
          {say.scanFirst}
        </Notice>
      </div>
    ) : null;
  }
  const ended = answer?.kind === "piece" && answer.tag.state !== "attached" ? answer.tag : undefined;
  return (
    <LookUpPanel
      piece={piece}
      clock={clock}
      say={say}
      notice={
        ended &&
        say.tagEnded(
          ended.state,
          ended.endedAt && sayWhen(ended.endedAt, clock.now, clock.timeZone),
          ended.supersededBy,
        )
      }
      onPrint={() => props.onPrintRecord(piece.id)}
      onAttachTag={() => bench.step({ kind: "mode chosen", mode: { kind: "attach tag", piece } })}
    />
  );
}

function AnswerNotice(props: { readonly shown: Shown; readonly say: Words }) {
  const words = props.shown.what === "answer" ? answerWords(props.shown.answer, props.say) : undefined;
  if (!words) return null;
  return (
    <Notice kind="unknown" head={words.what} live="off">
      {[words.why, words.next && `${props.say.next} ${words.next}`].filter(Boolean).join(" ")}
    </Notice>
  );
}

function FitMiddle(
  props: BenchScreenProps & { readonly bench: Bench; readonly reasons: readonly RefusalWords[] },
) {
  const { bench, reasons, say, clock } = props;
  const lastFit = useRef<Extract<Shown, { what: "fit" }>>(undefined);
  const { shown } = bench.run;
  if (shown.what === "fit") lastFit.current = shown;
  const fit = lastFit.current;
  if (!fit) return shown.what === "refused" ? <RefusedReasons shown={shown} say={say} /> : null;
  const also = reasons
    .filter(({ isLabels }) => !isLabels)
    .map(({ what, why, next }) => [what, why, next && `${say.next} ${next}`].filter(Boolean).join(" "));
  return <FitPanel shell={fit.shell} layer={fit.layer} clock={clock} say={say} also={also} />;
}

function RefusedReasons(props: { readonly shown: Extract<Shown, { what: "refused" }>; readonly say: Words }) {
  const { shown, say } = props;
  const count = shown.reasons.length;
  return (
    <Reasons
      id="reasons"
      head={`${shown.verb} ${sentence(numberWord(count))} ${count === 1 ? say.reason : say.reasons}.`}
      nextWord={say.next}
      reasons={shown.reasons.map(({ what, why, next, isHold }, index) => ({
        key: String(index),
        mark: isHold ? "hold" : "differs",
        what,
        why,
        next,
      }))}
    />
  );
}

function IssueBand(props: { readonly bench: Bench; readonly say: Words }) {
  const { bench, say } = props;
  const { choices } = bench;
  return (
    <Band>
      <Choice
        name="condition"
        legend={say.conditionAtIssue}
        value={choices.condition}
        options={[
          { value: "new", label: say.conditionNew },
          { value: "used, no finding", label: say.conditionUsed },
          { value: "used, findings on record", label: say.conditionFindings },
        ]}
        onChange={(condition) => bench.choose({ ...choices, condition })}
      />
      <Choice
        name="fit"
        legend={say.fitOnWearer}
        value={choices.isFitSeen ? "seen" : "not"}
        options={[
          { value: "not", label: say.fitNotRecorded },
          { value: "seen", label: say.fitSeen },
        ]}
        onChange={(value) => bench.choose({ ...choices, isFitSeen: value === "seen" })}
      />
    </Band>
  );
}

interface HemParts {
  readonly bench: Bench;
  readonly isTyping: boolean;
  readonly onType: () => void;
  readonly onCamera: () => void;
}

function BenchHem(props: BenchScreenProps & HemParts) {
  const { bench, say, clock } = props;
  const { run } = bench;
  const [typed, setTyped] = useState("");
  const judged = judgeTyping(typed);
  const enter = (text: string) => {
    if (text.trim() === "") return;
    setTyped("");
    bench.take({ text, carrier: "hand", symbology: "", via: "typed", time: Date.now(), device: "keyboard" });
  };
  const told = traySays(run.mode, run.tray, say);
  const missing = lacks(run.mode);
  const isBlocked = told.stopping.size > 0 || missing !== undefined;
  const confirm =
    hasTray(run.mode) && run.tray.length > 0 ? (
      <Confirm
        label={
          isBlocked
            ? say.confirmBlocked(modeVerb(run.mode, say), Math.max(told.reasons.length, 1))
            : say.confirmWords(run.mode.kind, countOf(run.tray.length, "piece", "pieces"))
        }
        blocked={isBlocked}
        onPress={() => bench.step({ kind: "confirm" })}
        onRefused={() => bench.step({ kind: "confirm" })}
        reasonsId="reasons"
        keyHint="Enter"
      />
    ) : null;
  const clear =
    run.tray.length > 0 || run.shell ? (
      <Button weight="quiet" keyHint="Esc" onPress={() => bench.step({ kind: "clear" })}>
        {say.clear}
      </Button>
    ) : null;
  const { lastAct } = run;
  const correct =
    lastAct && !confirm ? (
      <Button weight="quiet" onPress={() => void bench.takeBack()}>
        {say.takeItBack}
      </Button>
    ) : null;
  return (
    <Hem
      scan={{ label: say.tagNumber, hint: say.scanOrType, value: typed, onInput: setTyped, onEnter: enter }}
      note={
        judged.code === "under way" || judged.code === "does not hold" || judged.code === "holds" ? (
          <p class="typing-note">{say.typing(judged)}</p>
        ) : lastAct ? (
          <LastAct
            head={say.lastAct}
            text={`${sayWhen(new Date(lastAct.at).toISOString(), clock.now, clock.timeZone)}, ${lastAct.says}`}
          />
        ) : null
      }
      end={
        <>
          {clear}
          {correct}
          {confirm}
        </>
      }
      threaded={confirm !== null && !isBlocked}
      person={props.person}
      phone={{
        scanLabel: say.scanATag,
        onScan: props.onCamera,
        typeLabel: say.typeATag,
        onType: props.onType,
        typing: props.isTyping,
        ...(confirm ? { second: confirm } : {}),
      }}
    />
  );
}

/** Says that the server is being asked: nothing for the first 400 ms, then what for, at 2 s that one may scan on. */
function Waiting(props: { readonly bench: Bench; readonly say: Words }) {
  const { bench, say } = props;
  const [now, setNow] = useState(Date.now());
  const first = bench.asking[0];
  useEffect(() => {
    if (!first) return;
    const timer = setInterval(() => setNow(Date.now()), 200);
    return () => clearInterval(timer);
  }, [first]);
  if (!first) return null;
  const waited = now - first.since;
  if (waited < 400) return null;
  return (
    <Notice kind="waiting" head={say.askingFor(first.text)} live="off">
      {waited > 2000 ? say.slowServer : ""}
    </Notice>
  );
}

function trailOf(shown: Shown, open: (piece: string) => void): void {
  if (shown.what === "answer" && "piece" in shown.answer && shown.answer.piece) open(shown.answer.piece.id);
}

/** Single letters work outside fields; Enter confirms and Esc clears. A scan's own Enter never reaches here. */
function useKeys(
  bench: Bench,
  isOpen: boolean,
  on: { mode: () => void; trail: () => void; print: () => void },
): void {
  useEffect(() => {
    if (!isOpen) return;
    const listen = (event: KeyboardEvent) => {
      const target = event.target as HTMLElement | null;
      const isField = target?.closest("input, select, textarea, dialog, [contenteditable]");
      if (event.defaultPrevented || event.ctrlKey || event.altKey || event.metaKey || isField) return;
      const isButton = target?.closest("button, a, summary");
      if (event.key === "Enter" && !isButton) bench.step({ kind: "confirm" });
      else if (event.key === "Escape") bench.step({ kind: "clear" });
      else if (event.key === "o") on.mode();
      else if (event.key === "t") on.trail();
      else if (event.key === "p") on.print();
    };
    window.addEventListener("keydown", listen);
    return () => window.removeEventListener("keydown", listen);
  });
}
