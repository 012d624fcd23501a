/** One machine: its programmes, its checks, and what it ran. A fault leads to all that ran since its last good check. */
import { useState } from "preact/hooks";
import type { MachinePage, MachineRan } from "../../../server/domain/cleaning/machine-view.ts";
import type { PlaceBrief } from "../../../server/domain/scan-answer.ts";
import { Button } from "../../look/buttons.tsx";
import { ListRows } from "../../look/list-rows.tsx";
import { Notice } from "../../look/notice.tsx";
import { Sheet } from "../../look/page.tsx";
import { sayOver, sayProgramme } from "../../look/words-cleaning.ts";
import { MACHINE_WORDS } from "../../look/words-machines.ts";
import { load } from "../ask.ts";
import { sayWhen } from "../bench/describe-piece.ts";
import type { FormScreenProps } from "../forms/form-screen.ts";
import { useActs } from "../forms/use-acts.ts";
import { Awaited } from "../record/awaited.tsx";
import { useAsked } from "../record/use-asked.ts";
import { useSend, WrittenOrNot } from "../record/use-send.tsx";
import { LoadsTable } from "./loads-table.tsx";
import { type MachineAsked, MachineDialog } from "./machine-dialog.tsx";
import { sayDiameter } from "./machine-draft.ts";

const words = MACHINE_WORDS;

export type MachineScreenProps = FormScreenProps & {
  readonly places: readonly PlaceBrief[];
  readonly machine: string;
  /** Told when the moment of a fault was chosen, so that the address keeps it. */
  readonly foundAt: string | undefined;
};

export function MachineScreen(props: MachineScreenProps) {
  const { client, machine, say } = props;
  const asking = useAsked(() => load<MachinePage>(client, "/api/machines/{machine}", { machine }), machine);
  const page = asking.answer;
  return props.frame({
    verb: page?.name ?? say.machines,
    second: page ? kindAndPlace(page) : words.says,
    children: (
      <>
        <Awaited asking={asking} what={words.theMachine} say={say} />
        {page ? <MachineOnPage {...props} page={page} again={asking.again} /> : null}
      </>
    ),
  });
}

/** A machine whose place has its name needs to be told once only. */
function kindAndPlace({ what, name, place }: MachinePage): string {
  return place.name === name ? words.sorts[what] : `${words.sorts[what]}, ${place.name}`;
}

type PageProps = MachineScreenProps & { readonly page: MachinePage; readonly again: () => void };

function MachineOnPage(props: PageProps) {
  const { page, say, clock, me } = props;
  const [asked, setAsked] = useState<MachineAsked>();
  const sendAct = useActs(props.client);
  const sending = useSend();
  const mayDescribe = ["technician", "inspector", "program manager"].includes(me.role);
  const when = (at: string) => sayWhen(at, clock.now, clock.timeZone);
  const send = async (command: Parameters<typeof sendAct>[0], body: object, says: string) => {
    setAsked(undefined);
    if (await sending.send(() => sendAct(command, body as never), says)) props.again();
  };
  const facts = [
    page.drumDiameterMm ? `${words.drum}: ${sayDiameter(page.drumDiameterMm)}.` : "",
    page.mostGarments ? `${words.most}: ${page.mostGarments}.` : "",
    page.running ? words.runs(when(page.running.since), page.running.pieces) : words.isIdle,
  ];
  return (
    <Sheet>
      <WrittenOrNot sending={sending} say={say} />
      <p class="page-lead">{facts.filter(Boolean).join(" ")}</p>
      {mayDescribe ? (
        <div class="button-row">
          <Button weight="quiet" onPress={() => setAsked({ what: "check", machine: page })}>
            {words.asks.check}
          </Button>
          <Button weight="quiet" onPress={() => setAsked({ what: "programme", machine: page })}>
            {words.asks.programme}
          </Button>
          <Button weight="quiet" onPress={() => setAsked({ what: "machine", machine: page })}>
            {words.change}
          </Button>
          {me.role === "program manager" ? (
            <Button
              weight="quiet"
              onPress={() => void send("closeMachine", { machine: page.id }, words.closed(page.name))}
            >
              {words.closeIt}
            </Button>
          ) : null}
        </div>
      ) : null}
      {props.foundAt ? <Ran key={props.foundAt} {...props} /> : null}
      <section class="page-section">
        <h2 class="t-head">{words.programmes}</h2>
        {page.programmes.length === 0 ? <Notice kind="unknown" head={words.noProgramme} live="off" /> : null}
        <ListRows
          label={words.programmes}
          rows={page.programmes.map((programme) => ({
            key: programme.id,
            main: sayProgramme(programme),
            second: [programme.usual ? words.usualMark : "", sayOver(programme.over)]
              .filter(Boolean)
              .join(" "),
            onPress: mayDescribe
              ? () => setAsked({ what: "programme", machine: page, programme })
              : undefined,
          }))}
        />
      </section>
      <section class="page-section">
        <h2 class="t-head">{words.checks}</h2>
        {page.checks.length === 0 ? <p>{words.noChecks}</p> : null}
        <ListRows
          label={words.checks}
          rows={page.checks.slice(0, 20).map((check) => ({
            key: check.at,
            main: `${words.outcomes[check.outcome]}, ${when(check.at)}`,
            ...(check.outcome === "faulty"
              ? {
                  second: words.whatItRanThen,
                  href: `/machines/${page.id}?found-faulty-at=${encodeURIComponent(check.at)}`,
                  current: props.foundAt === check.at,
                }
              : {}),
          }))}
        />
      </section>
      {props.foundAt ? null : <Ran {...props} />}
      <MachineDialog
        asked={asked}
        places={props.places}
        say={say}
        onSend={(command, body, says) => void send(command, body, says)}
        onShut={() => setAsked(undefined)}
      />
    </Sheet>
  );
}

function Ran(props: PageProps) {
  const { client, machine, foundAt, say, clock } = props;
  const query = foundAt ? { "found-faulty-at": foundAt } : {};
  const asking = useAsked(
    () => load<MachineRan>(client, "/api/machines/{machine}/loads", { machine }, query),
    `${machine} ${foundAt}`,
  );
  const ran = asking.answer;
  const when = (at: string | undefined) => (at ? sayWhen(at, clock.now, clock.timeZone) : undefined);
  const pieces = new Set(ran?.loads.flatMap((one) => one.pieces.map(({ id }) => id)));
  const csv = `/api/machines/${machine}/loads.csv${foundAt ? `?found-faulty-at=${encodeURIComponent(foundAt)}` : ""}`;
  return (
    <section class="page-section">
      <div class="trail-bar">
        <h2 class="t-head">{words.loads}</h2>
        <a class="button button-quiet" href={csv} download>
          {words.csv}
        </a>
      </div>
      <Awaited asking={asking} what={words.theMachine} say={say} />
      {ran && foundAt ? (
        <Notice kind="unknown" head={words.between(when(ran.from), when(ran.to))} live="off">
          {words.inDoubt}
        </Notice>
      ) : null}
      {ran ? <p>{words.loadsSay(ran.loads.length, pieces.size)}</p> : null}
      {ran && ran.loads.length === 0 ? <p>{words.noLoads}</p> : null}
      {ran && ran.loads.length > 0 ? (
        <LoadsTable loads={ran.loads} clock={clock} isWhole={foundAt !== undefined} />
      ) : null}
      {foundAt ? <a href={`/machines/${machine}`}>{words.allLoads}</a> : null}
    </section>
  );
}
