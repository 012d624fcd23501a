/** All machines of the department; one is described here, and each leads to its page. */
import { useState } from "preact/hooks";
import type { MachineView } from "../../../server/domain/cleaning/machine-view.ts";
import type { ProviderState } from "../../../server/domain/register/parties.ts";
import type { PlaceBrief } from "../../../server/domain/scan-answer.ts";
import { Button } from "../../look/buttons.tsx";
import { ListRows } from "../../look/list-rows.tsx";
import { Notice } from "../../look/notice.tsx";
import { Sheet } from "../../look/page.tsx";
import { Dialog } from "../../look/panel.tsx";
import { MACHINE_WORDS } from "../../look/words-machines.ts";
import { load } from "../ask.ts";
import { sayWhen } from "../bench/describe-piece.ts";
import type { FormScreenProps } from "../forms/form-screen.ts";
import { useActs } from "../forms/use-acts.ts";
import { Awaited } from "../record/awaited.tsx";
import { useAsked } from "../record/use-asked.ts";
import { useSend, WrittenOrNot } from "../record/use-send.tsx";
import { type MachineAsked, MachineDialog } from "./machine-dialog.tsx";
import { ProviderLoadForm } from "./provider-load-form.tsx";
import { SideOfBench } from "./side-of-bench.tsx";

const words = MACHINE_WORDS;

export type MachinesScreenProps = FormScreenProps & { readonly places: readonly PlaceBrief[] };

export function MachinesScreen(props: MachinesScreenProps) {
  const asking = useAsked(
    () => load<{ machines: readonly MachineView[] }>(props.client, "/api/machines"),
    "machines",
  );
  return props.frame({
    verb: props.say.machines,
    second: words.says,
    children: (
      <>
        <Awaited asking={asking} what={words.theMachines} say={props.say} />
        {asking.answer ? (
          <MachineList {...props} machines={asking.answer.machines} again={asking.again} />
        ) : null}
      </>
    ),
  });
}

type ListProps = MachinesScreenProps & {
  readonly machines: readonly MachineView[];
  readonly again: () => void;
};

function MachineList(props: ListProps) {
  const { machines, say, clock, me } = props;
  const [asked, setAsked] = useState<MachineAsked>();
  const [isManifest, setManifest] = useState(false);
  const providers = useAsked(
    () => load<{ providers: readonly ProviderState[] }>(props.client, "/api/providers"),
    "providers",
  );
  const sendAct = useActs(props.client);
  const sending = useSend();
  const mayDescribe = ["technician", "inspector", "program manager"].includes(me.role);
  const when = (at: string) => sayWhen(at, clock.now, clock.timeZone);
  return (
    <Sheet>
      <WrittenOrNot sending={sending} say={say} />
      {mayDescribe ? (
        <div class="button-row">
          <Button weight="quiet" onPress={() => setAsked({ what: "machine" })}>
            {words.asks.machine}
          </Button>
          <Button weight="quiet" onPress={() => setManifest(true)}>
            {words.atProvider}
          </Button>
        </div>
      ) : null}
      {machines.length === 0 ? (
        <Notice kind="empty" head={words.none} live="off">
          {words.noneNext}
        </Notice>
      ) : null}
      <section class="page-section">
        <ListRows
          label={say.machines}
          rows={machines.map((machine) => ({
            key: machine.id,
            main: machine.name,
            second: [
              words.sorts[machine.what],
              machine.running
                ? words.runs(when(machine.running.since), machine.running.pieces)
                : words.isIdle,
              machine.lastCheck
                ? words.lastCheck(machine.lastCheck.outcome, when(machine.lastCheck.at))
                : words.neverChecked,
            ]
              .map((part) => part.replace(/\.$/, ""))
              .join(". ")
              .concat("."),
            href: `/machines/${machine.id}`,
          }))}
        />
      </section>
      {mayDescribe ? <SideOfBench /> : null}
      <Dialog
        open={isManifest}
        onClose={() => setManifest(false)}
        title={words.atProvider}
        closeLabel={say.close}
      >
        {isManifest && providers.answer ? (
          <ProviderLoadForm
            client={props.client}
            providers={providers.answer.providers}
            timeZone={clock.timeZone}
            onSend={(body, says) => {
              setManifest(false);
              void sending.send(() => sendAct("recordProviderLoad", body as never), says);
            }}
          />
        ) : null}
      </Dialog>
      <MachineDialog
        asked={asked}
        places={props.places}
        say={say}
        onSend={(command, body, says) => {
          setAsked(undefined);
          void sending
            .send(() => sendAct(command, body as never), says)
            .then((isWritten) => isWritten && props.again());
        }}
        onShut={() => setAsked(undefined)}
      />
    </Sheet>
  );
}
