/** What stands between tape and hem: the piece looked up, two labels at their seam, or the tray. */

import { useRef, useState } from "preact/hooks";
import type { PieceView } from "../../../server/domain/piece-view.ts";
import type { PlaceBrief } from "../../../server/domain/scan-answer.ts";
import { Notice } from "../../look/notice.tsx";
import { sentence, type Words } from "../../look/words.ts";
import { EVENT_WORDS } from "../../look/words-event.ts";
import { goTo } from "../use-place.ts";
import { useSymbol } from "../use-symbol.ts";
import { ActBand } from "./act-band.tsx";
import { answerWords } from "./answer-words.ts";
import { bagSays } from "./bag-mode.ts";
import { OpeningBag, WaitingBags } from "./bag-panel.tsx";
import { asHolder } from "./bench-commands.ts";
import type { RefusalWords, Shown } from "./bench-run.ts";
import type { BenchScreenProps } from "./bench-screen.tsx";
import { sayWhen } from "./describe-piece.ts";
import { FitPanel } from "./fit-panel.tsx";
import { HoldDialog, type HoldQuestion } from "./hold-dialog.tsx";
import { RunningLoad } from "./load-band.tsx";
import { LookUpPanel } from "./look-up-panel.tsx";
import { hasTray } from "./mode.ts";
import { ReassemblePanel } from "./reassemble-panel.tsx";
import { RefusedReasons } from "./refused-reasons.tsx";
import { Strays } from "./strays.tsx";
import { TrayPanel } from "./tray-panel.tsx";
import type { Bench } from "./use-bench.ts";

export function BenchMiddle(props: BenchScreenProps & { readonly bench: Bench }) {
  const { bench, say, clock } = props;
  const { run } = bench;
  const { shown } = run;
  const reasons = shown.what === "refused" ? <RefusedReasons {...props} shown={shown} /> : null;
  const fault =
    shown.what === "fault" ? (
      <Notice kind="fault" head={say.notWritten} live="off">
        {`${shown.says} ${run.tray.length > 0 ? say.trayKept : ""}`}
      </Notice>
    ) : null;
  const isReassembly = run.mode.kind === "reassemble";
  const isInstall = run.mode.kind === "install" || isReassembly;
  if (shown.what === "fit" || (shown.what === "refused" && isInstall && run.shell)) {
    return (
      <>
        <FitMiddle {...props} reasons={shown.what === "refused" ? shown.reasons : []} />
        {isReassembly ? <ReassemblePanel bench={bench} clock={clock} say={say} /> : null}
      </>
    );
  }
  const already = shown.what === "already here" ? `${shown.piece.kind.name} ${say.isAlreadyHere}` : undefined;
  if (isReassembly) {
    return (
      <>
        {fault}
        {reasons}
        {already ? <Notice kind="unknown" head={sentence(already)} live="off" /> : null}
        <AnswerNotice shown={shown} say={say} />
        <ReassemblePanel bench={bench} clock={clock} say={say} />
      </>
    );
  }
  if (hasTray(run.mode)) {
    return (
      <>
        {fault}
        {reasons}
        {already ? <Notice kind="unknown" head={sentence(already)} live="off" /> : null}
        <AnswerNotice shown={shown} say={say} />
        <Strays run={run} now={clock.now} />
        <TrayPanel
          mode={run.mode}
          tray={run.tray}
          say={say}
          onTakeOff={(piece) => bench.step({ kind: "take off", piece })}
        />
        {run.mode.kind === "open a bag" ? <OpeningBag mode={run.mode} tray={run.tray} clock={clock} /> : null}
        {run.mode.kind === "load" ? <RunningLoad mode={run.mode} bench={bench} clock={clock} /> : null}
        {run.tray.length > 0 ? <ActBand {...props} /> : null}
      </>
    );
  }
  return (
    <>
      {fault}
      {reasons}
      <Strays run={run} now={clock.now} />
      <LookedUp {...props} clock={clock} shown={shown} />
    </>
  );
}

function LookedUp(props: BenchScreenProps & { readonly bench: Bench; readonly shown: Shown }) {
  const { shown, say, clock, bench } = props;
  const answer = shown.what === "answer" ? shown.answer : undefined;
  const piece = answer && "piece" in answer ? answer.piece : undefined;
  const modules = useSymbol(piece?.number, props.symbolOf);
  const [question, setQuestion] = useState<HoldQuestion>();
  const mayAct = ["technician", "inspector", "program manager"].includes(props.role);
  if (!piece) {
    if (answer) return <AnswerNotice shown={shown} say={say} />;
    return shown.what === "nothing" ? (
      <div class="bench-empty cutting-table">
        <Notice kind="empty" head={emptyHead(bench, say)}>
          {bench.run.mode.kind === "pack a bag" ? bagSays(bench.run.mode) : say.scanFirst}
        </Notice>
        {props.loadBags && mayAct && bench.run.mode.kind === "look up" ? (
          <WaitingBags load={props.loadBags} bench={bench} clock={clock} />
        ) : null}
      </div>
    ) : null;
  }
  const ended = answer?.kind === "piece" && answer.tag.state !== "attached" ? answer.tag : undefined;
  const act = async (command: "placeHold" | "liftHold", body: object) => {
    const says = command === "liftHold" ? say.liftWritten : say.holdWritten;
    await bench.actOn(command, body, says, command === "liftHold" ? say.notLifted : say.notWritten);
  };
  const isolate = async (place: PlaceBrief) => {
    const holder = asHolder(piece.holder);
    const handled = { piece: piece.id, evidence: "scanned", ...(holder ? { reliedOn: { holder } } : {}) };
    const to = { kind: "place", id: place.id };
    const body = { pieces: [handled], to, purpose: "transfer" };
    const says = EVENT_WORDS.sentToIsolation(piece.kind.name, place.name);
    await bench.actOn("movePieces", body, says, EVENT_WORDS.notSent);
  };
  return (
    <>
      <LookUpPanel
        piece={piece}
        clock={clock}
        say={say}
        modules={modules}
        notice={
          ended &&
          say.tagEnded(
            ended.state,
            ended.endedAt && sayWhen(ended.endedAt, clock.now, clock.timeZone),
            ended.supersededBy,
          )
        }
        onPrint={() => props.onPrintRecord(piece.id)}
        onAttachTag={
          mayAct ? () => bench.step({ kind: "mode chosen", mode: { kind: "attach tag", piece } }) : undefined
        }
        isolation={mayAct ? isolationFor(piece, props.places) : undefined}
        onIsolate={(place) => void isolate(place)}
        onPutOnHold={mayAct ? () => setQuestion({ piece }) : undefined}
        onLift={mayAct ? (hold) => setQuestion({ piece, lifts: hold }) : undefined}
      />
      <HoldDialog
        question={question}
        say={say}
        onAct={(command, body) => void act(command, body)}
        onClose={() => setQuestion(undefined)}
      />
    </>
  );
}

/** The isolation place that a piece on a contamination hold is not at yet. */
function isolationFor(piece: PieceView, places: readonly PlaceBrief[]): PlaceBrief | undefined {
  if (!piece.holds.some(({ kind }) => kind === "contamination")) return undefined;
  const isolation = places.filter(({ what, closed }) => what === "isolation" && !closed);
  return isolation.some(({ id }) => id === piece.holder.id) ? undefined : isolation[0];
}

function emptyHead({ run: { mode } }: Bench, say: Words): string {
  return mode.kind === "pack a bag" ? (mode.bag?.name ?? EVENT_WORDS.packABag) : say.nothingScanned;
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
  if (!fit) return shown.what === "refused" ? <RefusedReasons {...props} shown={shown} /> : null;
  const also = reasons
    .filter(({ isLabels }) => !isLabels)
    .map(({ what, why, next }) => [what, why, next && `${say.next} ${next}`].filter(Boolean).join(" "));
  const byEye = async () => {
    const body = { shell: fit.shell.id, layer: fit.layer.id };
    await bench.actOn("compareByEye", body, say.compareByEye, say.notWritten);
  };
  const inspects = props.role === "inspector" || props.role === "program manager";
  return (
    <FitPanel
      shell={fit.shell}
      layer={fit.layer}
      clock={clock}
      say={say}
      also={also}
      onByEye={inspects ? () => void byEye() : undefined}
      onMakersWord={inspects ? () => goTo(`/models?shell=${fit.shell.id}&layer=${fit.layer.id}`) : undefined}
    />
  );
}
