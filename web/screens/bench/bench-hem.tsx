/** The hem of the bench: what is typed, the last act, clear, take back, and the one confirm. */
import { useEffect, useState } from "preact/hooks";
import { Button, Confirm } from "../../look/buttons.tsx";
import { Hem, LastAct } from "../../look/hem.tsx";
import { Notice } from "../../look/notice.tsx";
import { countOf, type Words } from "../../look/words.ts";
import { judgeTyping } from "../../scan/typed-number.ts";
import type { DoneAct } from "./bench-run.ts";
import type { BenchScreenProps } from "./bench-screen.tsx";
import { sayWhen } from "./describe-piece.ts";
import type { Clock } from "./look-up-panel.tsx";
import { hasTray, lacks, modeVerb } from "./mode.ts";
import { traySays } from "./tray-check.ts";
import type { Bench } from "./use-bench.ts";

export interface HemParts {
  readonly bench: Bench;
  readonly isTyping: boolean;
  readonly onType: () => void;
  readonly onCamera: () => void;
  readonly onChangeMode: () => void;
}

export function BenchHem(props: BenchScreenProps & HemParts) {
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
    run.mode.kind === "reassemble" && run.mode.step === "lay out" ? (
      <Confirm
        label={say.reassemble.startInstalling}
        onPress={() => bench.step({ kind: "confirm" })}
        keyHint="Enter"
      />
    ) : hasTray(run.mode) && run.tray.length > 0 ? (
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
  const lesser = lesserActs(bench, say, confirm !== null);
  const { lastAct } = run;
  return (
    <Hem
      scan={{ label: say.tagNumber, hint: say.scanOrType, value: typed, onInput: setTyped, onEnter: enter }}
      note={
        judged.code === "under way" || judged.code === "does not hold" || judged.code === "holds" ? (
          <p class="typing-note">{say.typing(judged)}</p>
        ) : lastAct ? (
          <LastActLine act={lastAct} say={say} clock={clock} />
        ) : null
      }
      end={
        <>
          <Button weight="quiet" onPress={props.onCamera}>
            {say.scanATag}
          </Button>
          {lesser.clear}
          {lesser.looks}
          {lesser.correct}
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
        second: confirm ?? lesser.clear ?? undefined,
        below: (
          <Button weight="bare" onPress={props.onChangeMode}>
            {say.changeMode}
          </Button>
        ),
      }}
    />
  );
}

/** The acts beside the confirm: clear the tray, make a turn-in of the last looks, take the last act back. */
function lesserActs(bench: Bench, say: Words, hasConfirm: boolean) {
  const { run } = bench;
  const clear =
    run.tray.length > 0 || run.shell || run.reassembly ? (
      <Button weight="quiet" keyHint="Esc" onPress={() => bench.step({ kind: "clear" })}>
        {say.clear}
      </Button>
    ) : null;
  const correct =
    run.lastAct && !hasConfirm ? (
      <Button weight="quiet" onPress={() => void bench.takeBack()}>
        {say.takeItBack}
      </Button>
    ) : null;
  const looks =
    run.mode.kind === "look up" && run.looks.length > 0 ? (
      <Button weight="quiet" onPress={() => bench.step({ kind: "looks to turn-in" })}>
        {say.looksToTurnIn(run.looks.length)}
      </Button>
    ) : null;
  return { clear, looks, correct };
}

/** On a phone the hem has room for two buttons: the last act and the lesser acts stand at the end of the middle. */
export function PhoneActs(props: BenchScreenProps & { readonly bench: Bench }) {
  const { bench, say, clock } = props;
  const { run } = bench;
  const hasConfirm = hasTray(run.mode) && run.tray.length > 0;
  const { clear, looks, correct } = lesserActs(bench, say, hasConfirm);
  if (!(hasConfirm && clear) && !looks && !correct) return null;
  return (
    <div class="phone-acts only-phone">
      {run.lastAct ? <LastActLine act={run.lastAct} say={say} clock={clock} /> : null}
      <div class="button-row">
        {hasConfirm ? clear : null}
        {looks}
        {correct}
      </div>
    </div>
  );
}

function LastActLine(props: { readonly act: DoneAct; readonly say: Words; readonly clock: Clock }) {
  const { act, say, clock } = props;
  const when = sayWhen(new Date(act.at).toISOString(), clock.now, clock.timeZone);
  return <LastAct head={say.lastAct} text={`${when}, ${act.says}`} />;
}

/** Says that the server is being asked: nothing for the first 400 ms, then what for, at 2 s that one may scan on. */
export function Waiting(props: { readonly bench: Bench; readonly say: Words }) {
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
