/** Draws again, as a run of its own, the tags of a run that are on no piece yet. */
import { useState } from "preact/hooks";
import type { Trouble } from "../../api/answer.ts";
import { newId } from "../../api/uuid-v7.ts";
import type { PrintRunOnWire } from "../../api/wire.ts";
import { Button } from "../../look/buttons.tsx";
import { Notice } from "../../look/notice.tsx";
import { PRINT_WORDS } from "../../look/words-print.ts";
import { Cautions } from "./cautions.tsx";
import type { DrawnRunProps } from "./drawn-run.tsx";
import { FIRST_CHOICE, PrintOn, type PrintOnChoice, usedProblem } from "./print-on.tsx";

const words = PRINT_WORDS;

export function DrawAgain(props: DrawnRunProps & { readonly seen: PrintRunOnWire }) {
  const { client, seen, options, onOpen } = props;
  const [isOpen, setOpen] = useState(false);
  const [isRead, setRead] = useState(false);
  const [on, setOn] = useState<PrintOnChoice>({
    ...FIRST_CHOICE,
    stock: options.tagStocks.find(({ name }) => name === seen.stock)?.name ?? "roll",
    dpi: options.dpis.find((dpi) => dpi === seen.dpi) ?? "203",
  });
  const [wrong, setWrong] = useState<Trouble>();
  const count = (seen.states.reserved ?? 0) + (seen.states.printed ?? 0);
  if (seen.what === "cards" || count === 0) return null;
  const draw = async () => {
    const command = { run: newId<string>(), ...on, used: Number(on.used), ackCautions: true as const };
    const body = client.newOrder(command);
    const answer = await client.post("/api/print-runs/{id}/again", { params: { id: seen.id }, body });
    if (answer.ok) onOpen(answer.answer.about);
    else setWrong(answer.problem);
  };
  return (
    <section class="page-section">
      <Button weight="quiet" expanded={isOpen} controls="draw-again" onPress={() => setOpen(!isOpen)}>
        {words.drawAgain(count)}
      </Button>
      <div id="draw-again" hidden={!isOpen} class="page-form">
        <p class="t-second">{words.drawAgainSays}</p>
        <PrintOn options={options} choice={on} onChoice={setOn} withWords />
        <Cautions options={options} isSheet={on.stock !== "roll"} isRead={isRead} onRead={setRead} />
        {wrong ? (
          <Notice kind="fault" head={wrong.title} live="assertive">
            {wrong.detail}
          </Notice>
        ) : null}
        <Button disabled={!isRead || usedProblem(on, options) !== undefined} onPress={() => void draw()}>
          {words.draw(count)}
        </Button>
      </div>
    </section>
  );
}
