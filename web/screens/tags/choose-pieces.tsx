/** Chooses the pieces that get a tag: those that came from another page, or those without a live tag at a place. */
import { useEffect, useState } from "preact/hooks";
import type { UntaggedOnWire } from "../../api/wire.ts";
import { Button } from "../../look/buttons.tsx";
import { DataTable } from "../../look/data-table.tsx";
import { SelectField } from "../../look/fields.tsx";
import { Notice } from "../../look/notice.tsx";
import { PRINT_WORDS } from "../../look/words-print.ts";
import { ask, loadList } from "../ask.ts";
import type { FormScreenProps } from "../forms/form-screen.ts";
import { Awaited } from "../record/awaited.tsx";
import { useAsked } from "../record/use-asked.ts";

const words = PRINT_WORDS;
const ANY = "";
const MOST = 10_000;

export type Chosen = readonly string[];
interface Named {
  readonly id: string;
  readonly name: string;
  readonly code?: string;
}

export function ChoosePieces(props: FormScreenProps & { readonly onChosen: (pieces: Chosen) => void }) {
  const [given] = useState(() => new URLSearchParams(location.search).get("pieces")?.split(",") ?? []);
  useEffect(() => {
    if (given.length > 0) props.onChosen(given);
  }, []);
  if (given.length > 0) return <p class="t-reason">{words.chosenBefore(given.length)}</p>;
  return <Untagged {...props} />;
}

function Untagged(props: FormScreenProps & { readonly onChosen: (pieces: Chosen) => void }) {
  const { client, say } = props;
  const [act] = useState(() => new URLSearchParams(location.search).get("act") ?? undefined);
  const [place, setPlace] = useState(() => new URLSearchParams(location.search).get("place") ?? ANY);
  const [kind, setKind] = useState(ANY);
  const [left, setLeft] = useState<ReadonlySet<string>>(new Set());
  const [lists, setLists] = useState<{ places: readonly Named[]; kinds: readonly Named[] }>({
    ...{ places: [], kinds: [] },
  });
  useEffect(() => {
    void Promise.all([loadList<Named>(client, "places"), loadList<Named>(client, "kinds")]).then(
      ([places, kinds]) => setLists({ places, kinds }),
    );
  }, []);
  const query = { ...(place ? { place } : {}), ...(kind ? { kind } : {}), ...(act ? { act } : {}) };
  const asking = useAsked(() => ask(client.get("/api/untagged-pieces", { query })), JSON.stringify(query));
  const { answer } = asking;
  useEffect(() => {
    props.onChosen((answer?.ids ?? []).filter((id) => !left.has(id)));
  }, [answer, left]);
  const turn = (id: string) => {
    const next = new Set(left);
    if (!next.delete(id)) next.add(id);
    setLeft(next);
  };
  return (
    <>
      <div class="column-grid">
        <SelectField
          label={words.place}
          value={place}
          options={[
            { value: ANY, label: words.anywhere },
            ...lists.places.map(({ id, name }) => ({ value: id, label: name })),
          ]}
          onChange={setPlace}
        />
        <SelectField
          label={words.kind}
          value={kind}
          options={[
            { value: ANY, label: words.anyKind },
            ...lists.kinds.map(({ code = "", name }) => ({ value: code, label: name })),
          ]}
          onChange={setKind}
        />
      </div>
      <Awaited asking={asking} what={words.forPieces.toLowerCase()} say={say} />
      {answer ? <Found found={answer} left={left} onTurn={turn} /> : null}
    </>
  );
}

interface FoundProps {
  readonly found: UntaggedOnWire;
  readonly left: ReadonlySet<string>;
  readonly onTurn: (id: string) => void;
}

function Found({ found, left, onTurn }: FoundProps) {
  const { ids, pieces, waiting } = found;
  if (ids.length === 0) {
    return (
      <Notice kind="empty" head={words.noneUntagged}>
        {words.noneUntaggedNext}
      </Notice>
    );
  }
  return (
    <section aria-label={words.untagged(ids.length)}>
      <p class="t-reason">
        {words.untagged(ids.length)} {ids.length === MOST ? words.untaggedMost : ""}{" "}
        {waiting > 0 ? words.waiting(waiting) : ""}
      </p>
      {pieces.length < ids.length ? (
        <p class="t-second">{words.firstShown(pieces.length, ids.length)}</p>
      ) : null}
      <DataTable
        caption={words.forPieces}
        hideCaption
        rows={pieces}
        rowKey={({ id }) => id}
        columns={[
          { key: "kind", head: words.piece, names: true, cell: (piece) => piece.kind },
          { key: "label", head: words.label, cell: ({ label }) => label },
          { key: "holder", head: words.holder, cell: ({ holder }) => holder },
          {
            key: "turn",
            head: words.leaveOut,
            cell: ({ id, kind, label }) => (
              <Button
                weight="quiet"
                name={`${left.has(id) ? words.takeIn : words.leaveOut}: ${kind} ${label}`}
                onPress={() => onTurn(id)}
              >
                {left.has(id) ? words.takeIn : words.leaveOut}
              </Button>
            ),
          },
        ]}
      />
    </section>
  );
}
