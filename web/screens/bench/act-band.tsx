/** What belongs to an act beside its pieces: when it happened, and what the mode asks to know. */
import type { ComponentChildren } from "preact";
import { HOW_CLEANED, type HowCleaned } from "../../../server/domain/pieces/piece-entries.ts";
import { Button } from "../../look/buttons.tsx";
import { Choice } from "../../look/choice.tsx";
import { SelectField, TextField } from "../../look/fields.tsx";
import { Band } from "../../look/page.tsx";
import { CLEANING_WORDS } from "../../look/words-cleaning.ts";
import type { BenchScreenProps } from "./bench-screen.tsx";
import { LoadChoices } from "./load-band.tsx";
import type { Bench } from "./use-bench.ts";

type BandProps = BenchScreenProps & { readonly bench: Bench };
const words = CLEANING_WORDS;

export function ActBand(props: BandProps) {
  const { mode } = props.bench.run;
  return (
    <Band threaded>
      <div class="act-choices">
        {asks(props)}
        <When
          {...props}
          earlierLabel={mode.kind === "load" ? words.cameOut : props.say.earlier}
          exactly={mode.kind === "load" ? words.cameOutAbout : props.say.whenExactly}
        />
      </div>
    </Band>
  );
}

/** What the mode asks to know; nothing for most. */
function asks(props: BandProps): ComponentChildren {
  const { mode } = props.bench.run;
  switch (mode.kind) {
    case "issue":
      return <IssueChoices {...props} />;
    case "turn in":
      return <IntakeChoices {...props} />;
    case "load":
      return <LoadChoices mode={mode} bench={props.bench} role={props.role} />;
    case "washed":
      return (
        <SelectField
          label={words.how}
          value={mode.how ?? "advanced cleaning"}
          options={HOW_CLEANED.map((value) => ({ value, label: words.howCleaned[value] }))}
          onChange={(how) =>
            props.bench.step({ kind: "mode chosen", mode: { kind: "washed", how: how as HowCleaned } })
          }
        />
      );
    default:
      return null;
  }
}

function IssueChoices({ bench, say }: BandProps) {
  const { choices } = bench;
  return (
    <>
      <Choice
        name="condition"
        legend={say.conditionAtIssue}
        value={choices.condition}
        options={[
          { value: "new", label: say.conditionNew },
          { value: "used, no finding", label: say.conditionUsed },
          { value: "used, findings on record", label: say.conditionFindings },
        ]}
        onChange={(condition) => bench.choose({ ...choices, condition })}
      />
      <Choice
        name="fit"
        legend={say.fitOnWearer}
        value={choices.isFitSeen ? "seen" : "not"}
        options={[
          { value: "not", label: say.fitNotRecorded },
          { value: "seen", label: say.fitSeen },
        ]}
        onChange={(value) => bench.choose({ ...choices, isFitSeen: value === "seen" })}
      />
    </>
  );
}

/** One tap each: pockets were gone through, and it is wet; what is wet has a place to dry. */
function IntakeChoices({ bench, places }: BandProps) {
  const { choices } = bench;
  const { mode } = bench.run;
  const drying = places.filter(({ what, closed }) => what === "drying" && !closed);
  const isThere = (id: string) => mode.kind === "turn in" && mode.to?.id === id;
  return (
    <>
      <Choice
        name="pockets"
        legend={words.pockets}
        value={choices.arePocketsChecked ? "checked" : "not"}
        options={[
          { value: "not", label: words.pocketsNot },
          { value: "checked", label: words.pocketsChecked },
        ]}
        onChange={(value) => bench.choose({ ...choices, arePocketsChecked: value === "checked" })}
      />
      <Choice
        name="wet"
        legend={words.wetOrDry}
        value={choices.isWet ? "wet" : "dry"}
        options={[
          { value: "dry", label: words.dry },
          { value: "wet", label: words.wet },
        ]}
        onChange={(value) => bench.choose({ ...choices, isWet: value === "wet" })}
      />
      {choices.isWet && mode.kind === "turn in"
        ? drying
            .filter(({ id }) => !isThere(id))
            .map((to) => (
              <Button
                key={to.id}
                weight="quiet"
                onPress={() => bench.step({ kind: "mode chosen", mode: { ...mode, to } })}
              >
                {words.toDryAt(to.name)}
              </Button>
            ))
        : null}
    </>
  );
}

function When(props: BandProps & { readonly earlierLabel: string; readonly exactly: string }) {
  const { bench, say } = props;
  const { choices } = bench;
  const isEarlier = choices.earlier !== undefined;
  return (
    <>
      <Choice
        name="when"
        legend={say.whenItWas}
        value={isEarlier ? "earlier" : "now"}
        options={[
          { value: "now", label: say.nowAssumed },
          { value: "earlier", label: props.earlierLabel },
        ]}
        onChange={(value) => {
          const { earlier: _, ...rest } = choices;
          bench.choose(value === "now" ? rest : { ...rest, earlier: "" });
        }}
      />
      {isEarlier ? (
        <TextField
          label={props.exactly}
          type="datetime-local"
          value={choices.earlier ?? ""}
          onInput={(earlier) => bench.choose({ ...choices, earlier })}
        />
      ) : null}
    </>
  );
}
