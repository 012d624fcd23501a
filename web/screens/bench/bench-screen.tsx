/** The bench: the tape says what the next scan does, the middle shows the answer or the tray, the hem holds the confirm. */
import { useEffect, useState } from "preact/hooks";
import type { BagShown } from "../../../server/domain/custody/bag-views.ts";
import type { Role } from "../../../server/domain/register/account.ts";
import type { MemberBrief, PlaceBrief } from "../../../server/domain/scan-answer.ts";
import { Page } from "../../look/page.tsx";
import { type Person, Tape } from "../../look/tape.tsx";
import type { Words } from "../../look/words.ts";
import type { ScanEvent } from "../../scan/scan-event.ts";
import type { Sounds } from "../../scan/sounds.ts";
import { goTo } from "../use-place.ts";
import type { SymbolModules } from "../use-symbol.ts";
import type { Packer } from "./bag-mode.ts";
import { BenchHem, PhoneActs, Waiting } from "./bench-hem.tsx";
import { BenchMiddle } from "./bench-middle.tsx";
import type { BenchPort } from "./bench-port.ts";
import type { Shown } from "./bench-run.ts";
import { CameraDialog } from "./camera-dialog.tsx";
import type { Clock } from "./look-up-panel.tsx";
import { modeSays, modeVerb, type OtherParty, writes } from "./mode.ts";
import { ModeDialog } from "./mode-dialog.tsx";
import { type Bench, useBench } from "./use-bench.ts";

export interface BenchScreenProps {
  /** Another page may lie over the bench; its keys then rest, and its tray stays. */
  readonly isOpen: boolean;
  readonly port: BenchPort;
  readonly sounds: Sounds;
  readonly say: Words;
  readonly person: Person;
  /** The account that is signed in, and its role. */
  readonly me: string;
  /** Signed in by a bare badge, which is enough for a turn-in only. */
  readonly isTurnInOnly?: boolean;
  /** A badge was scanned, and it is not said yet who is here: scans wait. */
  readonly isChanging: boolean;
  readonly onWaiting: (scans: number) => void;
  readonly role: Role;
  readonly clock: Clock;
  readonly places: readonly PlaceBrief[];
  readonly members: readonly MemberBrief[];
  /** The member behind the account, whose bag a bare badge packs. */
  readonly packer?: Packer | undefined;
  readonly loadBags?: (() => Promise<readonly BagShown[]>) | undefined;
  readonly others: readonly OtherParty[];
  readonly menuOpen: boolean;
  readonly onMenu: () => void;
  readonly onChangePerson: (badge: string, name: string) => void;
  readonly onPrintRecord: (piece: string) => void;
  readonly onTaken: () => void;
  readonly symbolOf: (number: string) => Promise<SymbolModules | undefined>;
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
  useTurnInOnly(bench, props.isTurnInOnly === true, props.packer);
  useEffect(() => {
    if (!props.isChanging) bench.release();
  }, [props.isChanging]);
  useEffect(() => props.onWaiting(bench.asking.length), [bench.asking.length]);
  const isStopped = run.shown.what === "refused";
  return (
    <Page
      tape={
        <Tape
          verb={modeVerb(run.mode, say)}
          second={isStopped ? `${say.stopped} ${say.stoppedNext}` : modeSays(run.mode, say)}
          writes={writes(run.mode)}
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
          onChangeMode={() => setChoosing(true)}
        />
      }
      sign={props.isChanging ? null : <Waiting bench={bench} say={say} />}
    >
      <BenchMiddle {...props} bench={bench} />
      <PhoneActs {...props} bench={bench} />
      <p
        class="for-ears"
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
        others={props.others}
        say={say}
        onChoose={(mode) => {
          setChoosing(false);
          bench.step({ kind: "mode chosen", mode });
        }}
        onCard={({ number }, mode) => {
          setChoosing(false);
          if (mode) bench.step({ kind: "mode chosen", mode });
          if (number) bench.take(typedScan(number));
        }}
        onClose={() => setChoosing(false)}
      />
      <CameraDialog open={camera} say={say} onScan={bench.take} onClose={() => setCamera(false)} />
    </Page>
  );
}

function typedScan(text: string): ScanEvent {
  return { text, carrier: "hand", symbology: "", via: "typed", time: Date.now(), device: "keyboard" };
}

function trailOf(shown: Shown, open: (piece: string) => void): void {
  if (shown.what === "answer" && "piece" in shown.answer && shown.answer.piece) open(shown.answer.piece.id);
}

/** A bare badge is answered in turn-in alone: the bench goes there with its tray, and back there from any other mode. */
function useTurnInOnly(bench: Bench, isTurnInOnly: boolean, packer: Packer | undefined): void {
  const { mode, tray } = bench.run;
  const bag = mode.kind === "turn in" && tray.length === 0 && mode.to?.what === "bag" ? mode.to : undefined;
  const isPacking = mode.kind === "pack a bag" && mode.bag !== undefined;
  useEffect(() => {
    if (!isTurnInOnly) return;
    // A badge and a bag's card are all that a drop after hours needs: two scans, and nothing to tap.
    if (packer && bag) bench.step({ kind: "mode chosen", mode: { kind: "pack a bag", bag } });
    else if (packer && isPacking) bench.step({ kind: "pack for", packer });
    else if (mode.kind !== "turn in") {
      bench.step({ kind: "mode chosen", mode: { kind: "turn in", soiled: true } });
    }
  }, [isTurnInOnly, mode.kind, bag?.id, isPacking]);
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
