/** Changes who is at the bench: the badge was scanned, the PIN goes on big keys; the tray stays. */
import { useState } from "preact/hooks";
import { Button } from "../look/buttons.tsx";
import { Notice } from "../look/notice.tsx";
import { Dialog } from "../look/panel.tsx";
import type { Words } from "../look/words.ts";
import type { Asked } from "./sign-in-screen.tsx";

export interface PersonDialogProps {
  readonly badge: { readonly number: string; readonly name: string } | undefined;
  /** Scans that were taken since the badge, and wait. */
  readonly waiting: number;
  readonly say: Words;
  readonly change: (badge: string, pin?: string) => Promise<Asked<unknown>>;
  readonly onChanged: () => void;
  readonly onClose: () => void;
}

const KEYS = ["1", "2", "3", "4", "5", "6", "7", "8", "9", "0"];

export function PersonDialog(props: PersonDialogProps) {
  const { badge, say } = props;
  const [pin, setPin] = useState("");
  const [wrong, setWrong] = useState("");
  const close = () => {
    setPin("");
    setWrong("");
    props.onClose();
  };
  const send = async (withPin: boolean) => {
    if (!badge) return;
    const asked = await props.change(badge.number, withPin ? pin : undefined);
    setPin("");
    if ("problem" in asked) return setWrong(`${asked.problem.title} ${asked.problem.detail ?? ""}`);
    setWrong("");
    props.onChanged();
  };
  return (
    <Dialog
      open={badge !== undefined}
      onClose={close}
      title={badge ? say.isAtTheBench(badge.name) : ""}
      closeLabel={say.close}
      actions={
        <>
          <Button weight="quiet" onPress={() => void send(false)}>
            {say.turnInOnly}
          </Button>
          <Button weight="solid" onPress={() => void send(true)}>
            {say.changePerson}
          </Button>
        </>
      }
    >
      <form
        class="pin"
        onSubmit={(event) => {
          event.preventDefault();
          void send(true);
        }}
      >
        <label class="pin-label">
          {say.pin}
          <input
            class="field-input pin-input"
            type="password"
            inputMode="numeric"
            autocomplete="off"
            maxLength={6}
            value={pin}
            onInput={(event) => setPin(event.currentTarget.value.replace(/\D/g, ""))}
          />
        </label>
        <div class="pin-keys">
          {KEYS.map((key) => (
            <button
              type="button"
              class="pin-key"
              key={key}
              onClick={() => setPin((before) => (before + key).slice(0, 6))}
            >
              {key}
            </button>
          ))}
          <button type="button" class="pin-key" onClick={() => setPin((before) => before.slice(0, -1))}>
            {say.back}
          </button>
        </div>
      </form>
      <p role="status">{props.waiting > 0 ? say.scansWait(props.waiting) : ""}</p>
      {wrong ? (
        <Notice kind="fault" head={wrong} live="assertive">
          {say.trayKept}
        </Notice>
      ) : null}
    </Dialog>
  );
}
