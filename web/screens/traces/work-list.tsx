/** Working a kept list: a scan finds a piece of it at once, one tap more says what became of it. */
import { useState } from "preact/hooks";
import {
  OUTCOMES,
  type OutcomeWord,
  type TraceContact,
  type TraceView,
} from "../../../server/domain/tracing/trace-view.ts";
import { Button } from "../../look/buttons.tsx";
import { Choice } from "../../look/choice.tsx";
import { TextField } from "../../look/fields.tsx";
import { TRACING_WORDS } from "../../look/words-tracing.ts";
import { findThere } from "../events/find-there.ts";
import type { FormScreenProps } from "../forms/form-screen.ts";
import { useActs } from "../forms/use-acts.ts";
import { useSend, WrittenOrNot } from "../record/use-send.tsx";
import { nameOf } from "./trace-words.ts";

const words = TRACING_WORDS;

export type WorkListProps = FormScreenProps & {
  readonly view: TraceView;
  readonly trace: string;
  readonly chosen: string | undefined;
  readonly onChoose: (piece: string | undefined) => void;
  readonly onWritten: () => void;
};

export function WorkList(props: WorkListProps) {
  const { client, view, trace, say, me, chosen, onChoose } = props;
  const [text, setText] = useState("");
  const [told, setTold] = useState<string>();
  const [isScanned, setScanned] = useState(false);
  const sendAct = useActs(client);
  const sending = useSend();
  const contact = view.contacts.find(({ piece }) => piece === chosen);
  const record = async (
    of: TraceContact,
    outcome: OutcomeWord,
    evidence: "scanned" | "described",
    reason = "",
  ) => {
    const pieces = [{ piece: of.piece, evidence }];
    const body = { trace, pieces, outcome, ...(reason.trim() ? { reason: reason.trim() } : {}) };
    const says = words.recorded(nameOf(of), words.outcomes[outcome]);
    const isWritten = await sending.send(() => sendAct("recordOutcome", body as never), says);
    if (isWritten) props.onWritten();
    return isWritten;
  };
  const take = async () => {
    const typed = text.trim();
    if (typed === "") return;
    setText("");
    const there = await findThere(client, [], typed);
    if (there.kind !== "piece") {
      setTold(words.notFound(typed));
      return;
    }
    const found = view.contacts.find(({ piece }) => piece === there.id);
    setTold(found ? words.foundNow(there.title) : words.notOnList(there.title));
    if (!found) return;
    setScanned(true);
    onChoose(found.piece);
    if (!found.outcome || found.outcome.seenSince) await record(found, "found", "scanned");
  };
  return (
    <section class="page-section no-print">
      <h2 class="t-head">{words.work}</h2>
      <form
        class="form"
        onSubmit={(submitted) => {
          submitted.preventDefault();
          void take();
        }}
      >
        <TextField label={words.scanPiece} value={text} onInput={setText} mono scans="send" />
        <Button type="submit">{words.take}</Button>
      </form>
      <p role="status" class="t-lead">
        {told ?? ""}
      </p>
      <WrittenOrNot sending={sending} say={say} />
      {contact ? (
        <OutcomeForm
          key={contact.piece}
          contact={contact}
          mayMiss={me.role === "program manager"}
          onRecord={async (outcome, reason) => {
            const isSeen = isScanned && outcome !== "not found";
            if (await record(contact, outcome, isSeen ? "scanned" : "described", reason)) {
              setScanned(false);
              setTold(undefined);
              onChoose(undefined);
            }
          }}
          onClear={() => onChoose(undefined)}
        />
      ) : null}
    </section>
  );
}

function OutcomeForm(props: {
  readonly contact: TraceContact;
  readonly mayMiss: boolean;
  readonly onRecord: (outcome: OutcomeWord, reason: string) => Promise<void>;
  readonly onClear: () => void;
}) {
  const [outcome, setOutcome] = useState<OutcomeWord>();
  const [reason, setReason] = useState("");
  return (
    <div class="form page-form">
      <Choice
        name="outcome"
        legend={words.outcomeOf(nameOf(props.contact))}
        value={outcome}
        options={OUTCOMES.filter((word) => props.mayMiss || word !== "not found").map((value) => ({
          value,
          label: words.outcomes[value],
        }))}
        onChange={setOutcome}
      />
      {outcome === "cleared" || outcome === "not found" ? (
        <TextField
          label={words.reason}
          note={words.reasonNote}
          value={reason}
          onInput={setReason}
          lines={2}
        />
      ) : null}
      <div class="button-row">
        <Button weight="quiet" onPress={props.onClear}>
          {words.clear}
        </Button>
        <Button
          weight="solid"
          disabled={outcome === undefined}
          onPress={() => {
            if (outcome) void props.onRecord(outcome, reason);
          }}
        >
          {words.record}
        </Button>
      </div>
    </div>
  );
}
