/** The trail of a piece for anyone to read: what it is, where it has been, what was done; printed by the browser. */
import { useEffect, useState } from "preact/hooks";
import type { TrailEntry, TrailView } from "../../server/domain/page-views.ts";
import { Button } from "../look/buttons.tsx";
import { Notice } from "../look/notice.tsx";
import { Sheet } from "../look/page.tsx";
import { StayTimeline } from "../look/stay-timeline.tsx";
import { TagFigure } from "../look/tag-figure.tsx";
import { TrailTitle } from "../look/trail-title.tsx";
import { midSentence, sentence, type Words } from "../look/words.ts";
import { CORRECT_WORDS } from "../look/words-correct.ts";
import { RECORD_WORDS } from "../look/words-record.ts";
import type { Clock } from "./bench/look-up-panel.tsx";
import { Awaited } from "./record/awaited.tsx";
import { CorrectDialog, type CorrectDialogProps } from "./record/correct-dialog.tsx";
import { localMoment, sayLongDay, sayStamp } from "./record/days.ts";
import { Fittings } from "./record/fittings.tsx";
import type { Frame } from "./record/frame.ts";
import { Holds } from "./record/holds.tsx";
import { KnownAt, KnownThen } from "./record/known-at.tsx";
import { leadOf, sayPosition } from "./record/lead-words.ts";
import { Said } from "./record/said.tsx";
import { isShortName, stayLanes } from "./record/stay-lanes.ts";
import { TrailEntries } from "./record/trail-entries.tsx";
import { trailGroups, trailRows } from "./record/trail-rows.ts";
import { useAsked } from "./record/use-asked.ts";
import { useKeys } from "./record/use-keys.ts";
import { useSend, WrittenOrNot } from "./record/use-send.tsx";
import { type Asked, Cautions } from "./sign-in-screen.tsx";
import type { SymbolModules } from "./use-symbol.ts";

const words = RECORD_WORDS;

export interface Correcting {
  readonly send: (command: "correctMove" | "takeBackAct", body: object) => Promise<Asked<unknown>>;
  readonly holders: CorrectDialogProps["holders"];
}

export interface TrailScreenProps {
  readonly say: Words;
  readonly clock: Clock;
  readonly frame: Frame;
  /** Asks for the trail as known now, or at a position of the record. */
  readonly load: (knownAt?: number) => Promise<Asked<TrailView>>;
  /** Gives the modules of a tag's symbol; without them the tag shows its number alone. */
  readonly symbolOf?: ((number: string) => Promise<SymbolModules | undefined>) | undefined;
  /** For those who may correct: sends it, and gives the holders to choose among. */
  readonly correcting?: Correcting | undefined;
  /** Single letters as keys; false switches them off. */
  readonly keys?: boolean | undefined;
}

export function TrailScreen(props: TrailScreenProps) {
  const [knownAt, setKnownAt] = useState<number>();
  const asking = useAsked(() => props.load(knownAt), String(knownAt ?? "now"));
  const { answer } = asking;
  useKeys({ p: () => window.print() }, props.keys ?? true);
  return props.frame({
    verb: words.trail,
    second: words.trailSays,
    children: (
      <>
        <Awaited
          asking={asking}
          what={words.theTrail}
          say={props.say}
          onNow={knownAt === undefined ? undefined : () => setKnownAt(undefined)}
        />
        {answer ? (
          <TrailPage {...props} view={answer} onKnownAt={setKnownAt} onChanged={asking.again} />
        ) : null}
      </>
    ),
  });
}

type PageProps = TrailScreenProps & {
  readonly view: TrailView;
  readonly onKnownAt: (position: number | undefined) => void;
  readonly onChanged: () => void;
};

function TrailPage(props: PageProps) {
  const { view, clock, say } = props;
  const { piece } = view;
  const number = piece.tags.find(({ state }) => state === "attached")?.number;
  const modules = useSymbol(number, props.symbolOf);
  const tag = number ? (
    <TagFigure number={number} modules={modules} name={words.tagNamed(number)} />
  ) : undefined;
  return (
    <>
      <Sheet>
        <PrintHead view={view} clock={clock} />
        <KnownThen shown={view.knownAt} clock={clock} />
        <Changed view={view} />
        <TrailTitle title={words.trailOf(piece.kind.name)} tag={tag}>
          <Said text={leadOf(view, clock)} />
        </TrailTitle>
      </Sheet>
      <Holds piece={piece} clock={clock} say={say} />
      <Sheet>
        <WhereItHasBeen {...props} />
        <Fittings view={view} clock={clock} />
        <WhatWasDone {...props} />
        <KnownAt shown={view.knownAt} clock={clock} onAsk={props.onKnownAt} />
        <footer class="print-foot only-print">
          <Cautions say={say} />
        </footer>
      </Sheet>
    </>
  );
}

/** Says that entries are not as they were written; nothing on this page outweighs it. */
function Changed(props: { readonly view: TrailView }) {
  const { changed } = props.view.checked;
  if (changed.length === 0) return null;
  const which = changed.map(({ version, position, code }) => {
    const what = version === undefined ? words.actAt(position ?? 0) : words.entryNumber(version);
    return `${what}: ${code.replaceAll("-", " ")}`;
  });
  return (
    <Notice kind="fault" head={words.changedHead(changed.length)} live="assertive">
      {words.changedSays(sentence(which.join("; ")))}
    </Notice>
  );
}

function useSymbol(number: string | undefined, symbolOf: TrailScreenProps["symbolOf"]) {
  const [modules, setModules] = useState<SymbolModules>();
  useEffect(() => {
    let isCurrent = true;
    setModules(undefined);
    if (number && symbolOf) void symbolOf(number).then((found) => isCurrent && setModules(found));
    return () => {
      isCurrent = false;
    };
  }, [number]);
  return modules;
}

function WhereItHasBeen(props: PageProps) {
  const { view, clock, say } = props;
  const first = view.stays[0];
  if (!first) {
    return (
      <Notice kind="empty" head={say.whereItHasBeen} live="off">
        {words.noStays}
      </Notice>
    );
  }
  const end = view.knownAt ? Date.parse(view.knownAt.recordedAt) : clock.now;
  const last = view.stays.at(-1);
  const since = sayLongDay(localMoment(Date.parse(first.from), clock.timeZone).day);
  return (
    <>
      <h2 class="t-head">{say.whereItHasBeen}</h2>
      <StayTimeline
        {...stayLanes(view.stays, end, clock.timeZone, words)}
        name={words.whereSince(midSentence(view.piece.kind.name), since)}
        nowLabel={last && !view.knownAt ? nowWords(last.holder.name) : undefined}
        held={view.piece.holds.length > 0}
      />
    </>
  );
}

function nowWords(name: string): string {
  return isShortName(name) ? words.nowAt(name) : words.now;
}

function WhatWasDone(props: PageProps) {
  const { view, clock, say } = props;
  const [order, setOrder] = useState<"newest first" | "oldest first">("newest first");
  const isNewest = order === "newest first";
  const [wrong, setWrong] = useState<TrailEntry>();
  const sending = useSend();
  const { correcting } = props;
  const correct: CorrectDialogProps["onSend"] = async (command, body, { version }) => {
    setWrong(undefined);
    if (!correcting) return;
    const isWritten = await sending.send(
      () => correcting.send(command, body),
      CORRECT_WORDS.written(version),
    );
    if (isWritten) props.onChanged();
  };
  const rows = trailRows(view.entries, view.stays, clock.now);
  return (
    <>
      <div class="trail-bar">
        <h2 class="t-head">{words.whatWasDone[order]}</h2>
        <div class="trail-bar-buttons no-print">
          <Button weight="quiet" onPress={() => setOrder(isNewest ? "oldest first" : "newest first")}>
            {isNewest ? say.oldestFirst : say.newestFirst}
          </Button>
          <Button keyHint="P" onPress={() => window.print()}>
            {say.printTrail}
          </Button>
        </div>
      </div>
      <WrittenOrNot sending={sending} say={say} />
      <TrailEntries
        onCorrect={correcting && !view.knownAt ? setWrong : undefined}
        groups={trailGroups(rows, clock.timeZone, order)}
        names={view.names}
        clock={clock}
        say={say}
      />
      {correcting ? (
        <CorrectDialog
          piece={view.piece.id}
          entry={wrong}
          holders={correcting.holders}
          clock={clock}
          say={say}
          onSend={correct}
          onClose={() => setWrong(undefined)}
        />
      ) : null}
    </>
  );
}

/** Stands on paper only: when it was printed and where the record stood then. */
function PrintHead(props: Pick<PageProps, "view" | "clock">) {
  const { view, clock } = props;
  const stamp = sayStamp(clock.now, clock.timeZone);
  const newest = Math.max(0, ...view.entries.map((entry) => entry.position));
  const position = view.knownAt
    ? words.printedThen(sayPosition(view.knownAt.position))
    : words.printedPosition(sayPosition(newest));
  return <p class="print-head only-print">{`${words.printedOn(stamp)} ${position}`}</p>;
}
