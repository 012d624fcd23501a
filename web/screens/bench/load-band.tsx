/** The load mode beside its tray: which programme, what stands against it, how sure the time is, and what runs now. */
import type { ProgrammeView } from "../../../server/domain/cleaning/machine-view.ts";
import type { Role } from "../../../server/domain/register/account.ts";
import { Button } from "../../look/buttons.tsx";
import { Choice } from "../../look/choice.tsx";
import { TextField } from "../../look/fields.tsx";
import { Notice } from "../../look/notice.tsx";
import { Band } from "../../look/page.tsx";
import { countOf } from "../../look/words.ts";
import { CLEANING_WORDS, sayOver, sayProgramme } from "../../look/words-cleaning.ts";
import { sayWhen } from "./describe-piece.ts";
import { programmeOfMode } from "./load-mode.ts";
import type { Clock } from "./look-up-panel.tsx";
import type { LoadMode } from "./mode.ts";
import type { Bench } from "./use-bench.ts";

const words = CLEANING_WORDS;
/** How far a remembered time can be off; half an hour is proposed. Own judgement. */
const ABOUT_MINUTES = [10, 30, 120, 720] as const;

interface LoadChoicesProps {
  readonly mode: LoadMode;
  readonly bench: Bench;
  readonly role: Role;
}

export function LoadChoices({ mode, bench, role }: LoadChoicesProps) {
  const { machine } = mode;
  const { choices } = bench;
  const programme = programmeOfMode(mode);
  const minutes = choices.aboutMinutes ?? 30;
  return (
    <>
      {machine.programmes.length > 1 ? (
        <Choice
          name="programme"
          legend={words.programme}
          value={programme?.id ?? ""}
          options={machine.programmes.map((one) => ({ value: one.id as string, label: one.name }))}
          onChange={(id) =>
            bench.step({ kind: "mode chosen", mode: { kind: "load", machine, programme: id } })
          }
        />
      ) : null}
      {programme ? <ProgrammeSays programme={programme} /> : null}
      {programme && programme.over.length > 0 && role === "program manager" ? (
        <TextField
          label={words.reasonForLoad}
          value={choices.reason ?? ""}
          onInput={(reason) => bench.choose({ ...choices, reason })}
        />
      ) : null}
      {choices.earlier === undefined ? null : (
        <Choice
          name="about"
          legend={words.howSure}
          value={String(minutes)}
          options={ABOUT_MINUTES.map((value) => ({ value: String(value), label: words.aboutMinutes(value) }))}
          onChange={(value) => bench.choose({ ...choices, aboutMinutes: Number(value) })}
        />
      )}
    </>
  );
}

/** A programme over the limits is told by name and figure, before anybody starts it. */
function ProgrammeSays({ programme }: { readonly programme: ProgrammeView }) {
  const { over, unknown } = programme;
  return (
    <>
      <p>{sayProgramme(programme)}</p>
      {over.length > 0 ? (
        <Notice kind="fault" head={words.overLimits} live="off">
          {`${sayOver(over)} ${words.overLimitsNext}`}
        </Notice>
      ) : null}
      {unknown.length > 0 ? <p class="field-note">{words.cannotBeTold(unknown)}</p> : null}
    </>
  );
}

/** What runs in the machine, with its two ends for whoever has no card at hand. */
export function RunningLoad(props: {
  readonly mode: LoadMode;
  readonly bench: Bench;
  readonly clock: Clock;
}) {
  const { bench, clock } = props;
  const { machine } = props.mode;
  const { running } = machine;
  if (!running) return null;
  const end = (outcome: "as programmed" | "aborted") => bench.step({ kind: "end load", outcome });
  return (
    <Band>
      <p>
        <b>{words.runningSince(machine.name, sayWhen(running.since, clock.now, clock.timeZone))}</b>
        {` ${countOf(running.pieces, "piece", "pieces")}.`}
      </p>
      <div class="button-row">
        <Button weight="solid" onPress={() => end("as programmed")}>
          {words.endedAsProgrammed}
        </Button>
        <Button weight="quiet" onPress={() => end("aborted")}>
          {words.wasAborted}
        </Button>
      </div>
    </Band>
  );
}
