/** Changes the mode by touch or keyboard: what a card does by a scan. */
import { useState } from "preact/hooks";
import type { MemberBrief, PlaceBrief } from "../../../server/domain/scan-answer.ts";
import { TextField } from "../../look/fields.tsx";
import { ListRows } from "../../look/list-rows.tsx";
import { Dialog } from "../../look/panel.tsx";
import type { Words } from "../../look/words.ts";
import { EVENT_WORDS } from "../../look/words-event.ts";
import { type Mode, memberName, type OtherParty } from "./mode.ts";

export interface ModeDialogProps {
  readonly open: boolean;
  readonly places: readonly PlaceBrief[];
  readonly members: readonly MemberBrief[];
  /** Providers and outside parties. */
  readonly others: readonly OtherParty[];
  readonly say: Words;
  readonly onChoose: (mode: Mode) => void;
  /** What the card of a place does when it is scanned, for whoever has it not at hand. */
  readonly onCard: (place: PlaceBrief, mode?: Mode) => void;
  readonly onClose: () => void;
}

type Step =
  | "mode"
  | "hand over"
  | "transfer"
  | "turn in"
  | "turn in soiled"
  | "issue"
  | "as found"
  | "load"
  | "wiped";

export function ModeDialog(props: ModeDialogProps) {
  const { say } = props;
  const [step, setStep] = useState<Step>("mode");
  const choose = (mode: Mode) => {
    setStep("mode");
    props.onChoose(mode);
  };
  const close = () => {
    setStep("mode");
    props.onClose();
  };
  return (
    <Dialog open={props.open} onClose={close} title={say.changeMode} closeLabel={say.close}>
      {step === "mode" ? (
        <ListRows
          label={say.changeMode}
          rows={[
            {
              key: "look up",
              main: say.lookUp,
              second: say.lookUpSecond,
              onPress: () => choose({ kind: "look up" }),
            },
            {
              key: "transfer",
              main: say.transfer,
              second: say.transferHint,
              onPress: () => setStep("transfer"),
            },
            {
              key: "hand over",
              main: say.handOver,
              second: say.handOverHint,
              onPress: () => setStep("hand over"),
            },
            {
              key: "soiled",
              main: say.turnInSoiled,
              second: say.turnInSoiledSecond,
              onPress: () => setStep("turn in soiled"),
            },
            { key: "turn in", main: say.turnIn, second: say.turnInHint, onPress: () => setStep("turn in") },
            { key: "issue", main: say.issue, second: say.issueHint, onPress: () => setStep("issue") },
            {
              key: "install",
              main: say.install,
              second: say.installSecond,
              onPress: () => choose({ kind: "install" }),
            },
            {
              key: "lay out",
              main: say.reassemble.layOut,
              second: say.reassemble.layOutHint,
              onPress: () => choose({ kind: "reassemble", step: "lay out" }),
            },
            {
              key: "reassemble",
              main: say.reassemble.verb,
              second: say.reassemble.second,
              onPress: () => choose({ kind: "reassemble", step: "install" }),
            },
            {
              key: "separate",
              main: say.separate,
              second: say.separateSecond,
              onPress: () => choose({ kind: "separate" }),
            },
            { key: "load", main: say.loadMode, second: say.loadHint, onPress: () => setStep("load") },
            {
              key: "washed",
              main: say.recordWash,
              second: say.washHint,
              onPress: () => choose({ kind: "washed" }),
            },
            {
              key: "attach",
              main: say.attachTag,
              second: say.attachFirst,
              onPress: () => choose({ kind: "attach tag" }),
            },
            {
              key: "pack",
              main: EVENT_WORDS.packABag,
              second: EVENT_WORDS.packSays,
              onPress: () => choose({ kind: "pack a bag" }),
            },
            {
              key: "found",
              main: say.asFound,
              second: say.asFoundSecond,
              onPress: () => setStep("as found"),
            },
            { key: "wiped", main: say.placeWiped, second: say.wipedHint, onPress: () => setStep("wiped") },
          ]}
        />
      ) : (
        <PartyList
          {...props}
          step={step}
          onChoose={choose}
          onCard={(place, mode) => {
            setStep("mode");
            props.onCard(place, mode);
          }}
        />
      )}
    </Dialog>
  );
}

function PartyList(props: ModeDialogProps & { readonly step: Exclude<Step, "mode"> }) {
  const { step, say } = props;
  const [text, setText] = useState("");
  const others = step === "hand over" ? props.others : [];
  const places =
    step === "issue" || step === "hand over" ? [] : props.places.filter((place) => isFor(step, place));
  const members = step === "issue" || step === "as found" ? props.members : [];
  const isIn = (name: string) => name.toLowerCase().includes(text.trim().toLowerCase());
  const rows = [
    ...others
      .filter(({ name }) => isIn(name))
      .map((other) => ({
        key: other.id,
        main: other.name,
        second: undefined,
        onPress: () => props.onChoose({ kind: "hand over", to: other }),
      })),
    ...places
      .filter(({ name }) => isIn(name))
      .map((place) => ({
        key: place.id,
        main: place.name,
        second: place.within?.name,
        onPress: () => {
          if (step === "load") props.onCard(place);
          else if (step === "wiped") props.onCard(place, { kind: "wiped" });
          else props.onChoose(modeAt(step, place));
        },
      })),
    ...members
      .filter((member) => isIn(`${memberName(member)} ${member.number}`))
      .map((member) => ({
        key: member.id,
        main: memberName(member),
        second: [member.number, member.station?.name].filter(Boolean).join(", "),
        onPress: () => props.onChoose(modeWith(step, member)),
      })),
  ];
  return (
    <>
      <TextField
        label={step === "issue" ? say.findMember : step === "hand over" ? say.findParty : say.findPlace}
        value={text}
        onInput={setText}
        name="party"
      />
      <ListRows label={say.changeMode} rows={rows.slice(0, 60)} />
    </>
  );
}

/** A machine's card and the card of a place that was wiped are pressed here as if they were scanned. */
function isFor(step: Exclude<Step, "mode">, { closed, number, what }: PlaceBrief): boolean {
  if (closed) return false;
  if (step === "load") return number !== undefined && (what === "washer" || what === "dryer");
  return step !== "wiped" || number !== undefined;
}

function modeAt(step: Exclude<Step, "mode">, place: PlaceBrief): Mode {
  switch (step) {
    case "turn in":
      return { kind: "turn in", soiled: false, to: place };
    case "turn in soiled":
      return { kind: "turn in", soiled: true, to: place };
    case "as found":
      return { kind: "as found", where: { kind: "place", place } };
    default:
      return { kind: "transfer", to: place };
  }
}

function modeWith(step: Exclude<Step, "mode">, member: MemberBrief): Mode {
  return step === "as found"
    ? { kind: "as found", where: { kind: "member", member } }
    : { kind: "issue", to: member };
}
