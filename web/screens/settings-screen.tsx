/** The department's own rules; every change is an entry. */
import { useState } from "preact/hooks";
import type { Settings } from "../../server/domain/register/policy.ts";
import { Button } from "../look/buttons.tsx";
import { Choice } from "../look/choice.tsx";
import { TextField } from "../look/fields.tsx";
import { Notice } from "../look/notice.tsx";
import { Sheet } from "../look/page.tsx";
import { FORM_WORDS } from "../look/words-forms.ts";
import { ask } from "./ask.ts";
import { focusFirstWrong } from "./forms/focus-wrong.ts";
import type { FormScreenProps } from "./forms/form-screen.ts";
import { LimitFields } from "./forms/limit-fields.tsx";
import { NotForYou } from "./forms/not-for-you.tsx";
import { changedSettings, settingProblems } from "./forms/setting-draft.ts";
import { useActs } from "./forms/use-acts.ts";
import { Awaited } from "./record/awaited.tsx";
import { useAsked } from "./record/use-asked.ts";
import { useSend, WrittenOrNot } from "./record/use-send.tsx";

const words = FORM_WORDS;

export type SettingsScreenProps = FormScreenProps & {
  /** Told when something was written: words and time zone hold for every screen. */
  readonly onChanged?: (() => void) | undefined;
};

export function SettingsScreen(props: SettingsScreenProps) {
  const asking = useAsked(() => ask(props.client.get("/api/settings")), "settings");
  const { answer } = asking;
  const manages = props.me.role === "program manager";
  return props.frame({
    verb: props.say.settings,
    second: words.settingsSay,
    children: manages ? (
      <>
        <Awaited asking={asking} what={words.theSettings} say={props.say} />
        {answer ? <SettingsForm {...props} before={answer} again={asking.again} /> : null}
      </>
    ) : (
      <NotForYou />
    ),
  });
}

type FormProps = SettingsScreenProps & { readonly before: Settings; readonly again: () => void };

function SettingsForm(props: FormProps) {
  const { before, say } = props;
  const sendAct = useActs(props.client);
  const sending = useSend();
  const [draft, setDraft] = useState<Settings>(before);
  const [isTried, setTried] = useState(false);
  const set = (changes: Partial<Settings>) => {
    setDraft({ ...draft, ...changes });
    setTried(false);
  };
  const settings = changedSettings(before, draft);
  const count = Object.keys(settings).length;
  const problems = isTried ? settingProblems(before, draft) : {};
  const send = async (event: Event) => {
    event.preventDefault();
    setTried(true);
    focusFirstWrong(event.currentTarget as HTMLElement);
    if (count === 0 || Object.keys(settingProblems(before, draft)).length > 0) return;
    const isWritten = await sending.send(
      () => sendAct("setSettings", { settings }),
      words.settingsWritten(count),
    );
    if (!isWritten) return;
    setTried(false);
    props.again();
    props.onChanged?.();
  };
  return (
    <Sheet narrow>
      <form class="form" noValidate onSubmit={(event) => void send(event)}>
        <TextField
          label={words.departmentName}
          value={draft["department name"]}
          onInput={(name) => set({ "department name": name })}
          note={words.departmentNameNote}
          problem={problems["department name"]}
        />
        <TextField
          label={words.departmentCode}
          value={draft["department code"]}
          onInput={(code) => set({ "department code": code })}
          note={words.departmentCodeNote}
          problem={problems["department code"]}
        />
        <TextField
          label={words.timeZone}
          value={draft["time zone"]}
          onInput={(zone) => set({ "time zone": zone })}
          note={words.timeZoneNote}
          problem={problems["time zone"]}
          listId="time-zones"
        />
        <datalist id="time-zones">
          {Intl.supportedValuesOf("timeZone").map((zone) => (
            <option key={zone} value={zone} />
          ))}
        </datalist>
        <Choice
          name="labels-not-read"
          legend={words.labelsNotRead}
          value={draft["labels not read"]}
          options={(["stop", "only say so"] as const).map((value) => ({
            ...{ value, label: words.stopOrSay[value] },
          }))}
          onChange={(value) => set({ "labels not read": value })}
        />
        <p class="field-note">{words.labelsNotReadNote}</p>
        <Choice
          name="screen-words"
          legend={words.screenWords}
          value={draft["screen words"]}
          options={(["US", "international"] as const).map((value) => ({
            ...{ value, label: words.screenWordsIs[value] },
          }))}
          onChange={(value) => set({ "screen words": value })}
        />
        <LimitFields draft={draft} problems={problems} onChange={set} />
        <WrittenOrNot sending={sending} say={say} />
        {isTried && count === 0 ? <Notice kind="empty" head={words.nothingChanged} /> : null}
        <Button type="submit" weight="solid">
          {words.saveSettings}
        </Button>
      </form>
    </Sheet>
  );
}
