/** Puts a piece on hold, or lifts a hold, with the reason. Who may lift which hold is decided by the server. */
import { useState } from "preact/hooks";
import type { PieceView } from "../../../server/domain/piece-view.ts";
import { HOLD_KINDS, type HoldKind } from "../../../server/domain/pieces/piece-entries.ts";
import { Button } from "../../look/buttons.tsx";
import { SelectField, TextField } from "../../look/fields.tsx";
import { Dialog } from "../../look/panel.tsx";
import type { Words } from "../../look/words.ts";

/** What is asked: a new hold on a piece, or the lifting of the hold that an entry placed. */
export interface HoldQuestion {
  readonly piece: PieceView;
  readonly lifts?: { readonly version: number; readonly kind: HoldKind };
}

export interface HoldDialogProps {
  readonly question: HoldQuestion | undefined;
  readonly say: Words;
  readonly onAct: (command: "placeHold" | "liftHold", body: object) => void;
  readonly onClose: () => void;
}

/** Holds that somebody places by hand; "differs" comes and goes with what is fitted. */
const PLACED = HOLD_KINDS.filter((kind) => kind !== "differs");

export function HoldDialog(props: HoldDialogProps) {
  const { question, say } = props;
  const [note, setNote] = useState("");
  const [kind, setKind] = useState<HoldKind>("finding");
  const lifts = question?.lifts;
  const close = () => {
    setNote("");
    props.onClose();
  };
  const send = () => {
    if (!question || note.trim() === "") return;
    const piece = question.piece.id;
    if (lifts) props.onAct("liftHold", { piece, version: lifts.version, note: note.trim() });
    else props.onAct("placeHold", { pieces: [piece], hold: kind, note: note.trim() });
    close();
  };
  const title = lifts ? `${say.liftHold}: ${say.holdKind[lifts.kind]}` : say.putOnHold;
  return (
    <Dialog
      open={question !== undefined}
      onClose={close}
      title={title}
      closeLabel={say.close}
      actions={
        <Button weight="solid" onPress={send} disabled={note.trim() === ""}>
          {lifts ? say.liftHold : say.putOnHold}
        </Button>
      }
    >
      {lifts ? null : (
        <SelectField
          label={say.holds}
          value={kind}
          options={PLACED.map((value) => ({ value, label: say.holdKind[value] }))}
          onChange={(value) => setKind(value as HoldKind)}
        />
      )}
      <TextField
        label={lifts ? say.whyLift : say.whyHold}
        value={note}
        onInput={setNote}
        lines={3}
        required
      />
    </Dialog>
  );
}
