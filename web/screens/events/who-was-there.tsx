/** Who and what was at an event: members by scan, number or station; of each, one tap says which set was worn. */
import { useEffect, useState } from "preact/hooks";
import type { HeldThen } from "../../../server/domain/contamination/event-views.ts";
import type { MemberBrief } from "../../../server/domain/scan-answer.ts";
import type { Client } from "../../api/client.ts";
import { Button } from "../../look/buttons.tsx";
import { Choice } from "../../look/choice.tsx";
import { SelectField, TextField } from "../../look/fields.tsx";
import { Notice } from "../../look/notice.tsx";
import { EVENT_WORDS } from "../../look/words-event.ts";
import { load } from "../ask.ts";
import { findThere } from "./find-there.ts";

const words = EVENT_WORDS;
const NONE = "";

/** What the form has collected: members with the set that was worn, and pieces scanned there. */
export interface Listed {
  readonly members: readonly string[];
  readonly worn: Readonly<Record<string, string>>;
  readonly held: readonly HeldThen[];
  readonly scanned: readonly { readonly id: string; readonly title: string }[];
}
export const NOBODY: Listed = { members: [], worn: {}, held: [], scanned: [] };

/** Says it as the command has it: presumed pieces are those of the sets that were worn, with what belongs to no set. */
export function listedCommand({ members, worn, held, scanned }: Listed) {
  const seen = new Set(scanned.map(({ id }) => id));
  const presumed = members.flatMap((member) => {
    const then = held.find((one) => one.member === member);
    const set = wornSet(worn, then);
    if (!then || set === undefined || set === NONE) return [];
    return [...(then.sets.find((one) => one.set === set)?.pieces ?? []), ...then.loose];
  });
  return {
    members: members.map((member) => {
      const set = wornSet(
        worn,
        held.find((one) => one.member === member),
      );
      return { member, ...(set ? { set } : {}) };
    }),
    pieces: [
      ...scanned.map(({ id }) => ({ piece: id, evidence: "scanned" })),
      ...presumed.filter((id) => !seen.has(id)).map((piece) => ({ piece, evidence: "presumed" })),
    ],
  };
}

/** What was said; a member who held one set alone is presumed to have worn it. */
function wornSet(worn: Listed["worn"], then: HeldThen | undefined): string | undefined {
  if (!then) return undefined;
  const said = worn[then.member];
  if (said !== undefined) return said;
  return then.sets.length === 1 ? then.sets[0]?.set : undefined;
}

export interface WhoWasThereProps {
  readonly client: Client;
  readonly members: readonly MemberBrief[];
  readonly span: { readonly from: string; readonly to: string } | undefined;
  readonly listed: Listed;
  readonly onChange: (listed: Listed) => void;
}

export function WhoWasThere(props: WhoWasThereProps) {
  const { client, listed, onChange, span } = props;
  const [text, setText] = useState("");
  const [told, setTold] = useState<string>();
  const key = `${listed.members.join(",")} ${span?.from} ${span?.to}`;
  useEffect(() => {
    if (!span || listed.members.length === 0) return;
    const query = { members: listed.members.join(","), from: span.from, to: span.to };
    void load<{ members: HeldThen[] }>(client, "/api/held-then", {}, query).then((asked) => {
      if ("answer" in asked) onChange({ ...listed, held: asked.answer.members });
    });
  }, [key]);
  const add = async (ids: readonly string[]) => {
    const members = [...listed.members, ...ids.filter((id) => !listed.members.includes(id))];
    onChange({ ...listed, members });
  };
  const take = async () => {
    const typed = text.trim();
    if (typed === "") return;
    setText("");
    const there = await findThere(client, props.members, typed);
    setTold(undefined);
    if (there.kind === "member") return add([there.id]);
    if (there.kind === "piece") {
      const others = listed.scanned.filter(({ id }) => id !== there.id);
      return onChange({ ...listed, scanned: [...others, there] });
    }
    setTold(there.kind === "not yours" ? words.notYours : words.notFound(typed));
  };
  const stations = new Map(
    props.members.flatMap(({ station }) => (station?.id ? [[station.id, station.name]] : [])),
  );
  return (
    <section class="page-section" aria-label={words.whoWasThere}>
      <h2 class="t-head">{words.whoWasThere}</h2>
      <form
        class="form"
        onSubmit={(event) => {
          event.preventDefault();
          void take();
        }}
      >
        <TextField label={words.scanThem} value={text} onInput={setText} mono scans="send" />
        <Button type="submit">{words.add}</Button>
      </form>
      {told ? <Notice kind="unknown" head={told} live="assertive" /> : null}
      {stations.size > 0 ? (
        <SelectField
          label={words.station}
          value=""
          options={[
            { value: "", label: words.chooseStation },
            ...[...stations].map(([value, label]) => ({ value: value as string, label })),
          ]}
          onChange={(id) =>
            void add(
              props.members.filter((one) => one.station?.id === id && !one.leftOn).map((one) => one.id),
            )
          }
        />
      ) : null}
      {listed.scanned.length > 0 ? (
        <p aria-live="polite">{`${words.scannedPieces(listed.scanned.length)}: ${listed.scanned.map(({ title }) => title).join(", ")}.`}</p>
      ) : null}
      {listed.members.length === 0 ? <p>{words.noneYet}</p> : <p>{words.presumedNote}</p>}
      {listed.members.map((member) => (
        <OneMember key={member} {...props} member={member} />
      ))}
    </section>
  );
}

function OneMember(props: WhoWasThereProps & { readonly member: string }) {
  const { listed, onChange, member } = props;
  const brief = props.members.find(({ id }) => id === member);
  const then = listed.held.find((one) => one.member === member);
  const name = then?.name ?? brief?.name ?? `Member ${brief?.number ?? ""}`;
  const off = () => onChange({ ...listed, members: listed.members.filter((one) => one !== member) });
  return (
    <div class="event-member">
      {then && then.sets.length > 0 ? (
        <Choice
          name={`worn-${member}`}
          legend={words.wornBy(name)}
          value={wornSet(listed.worn, then)}
          options={[
            ...then.sets.map(({ set, pieces }) => ({
              value: set,
              label: words.setOption(set, pieces.length),
            })),
            { value: NONE, label: words.noneOfThese },
          ]}
          onChange={(set) => onChange({ ...listed, worn: { ...listed.worn, [member]: set } })}
        />
      ) : (
        <p>{then ? words.heldNothing(name) : name}</p>
      )}
      {then && then.loose.length > 0 ? <p class="field-note">{words.alsoHeld(then.loose.length)}</p> : null}
      <Button weight="quiet" onPress={off}>
        {words.takeOff}
        <span class="for-ears">{` ${name}`}</span>
      </Button>
    </div>
  );
}
