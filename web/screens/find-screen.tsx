/** Finds pieces by tag, serial, member, place, model, size, state or last sight; each row opens its trail. */
import { useEffect, useRef, useState } from "preact/hooks";
import type { PieceListed, PiecesFound } from "../../server/domain/page-views.ts";
import type { Trouble } from "../api/answer.ts";
import { Button } from "../look/buttons.tsx";
import { Notice } from "../look/notice.tsx";
import { Sheet } from "../look/page.tsx";
import type { Words } from "../look/words.ts";
import { RECORD_WORDS } from "../look/words-record.ts";
import type { Clock } from "./bench/look-up-panel.tsx";
import { Awaited } from "./record/awaited.tsx";
import { FindForm, type FindFormProps } from "./record/find-form.tsx";
import { EMPTY_QUERY, type FindQuery, isSameQuery } from "./record/find-query.ts";
import type { Frame } from "./record/frame.ts";
import { PieceTable } from "./record/piece-table.tsx";
import { useAsked } from "./record/use-asked.ts";
import type { Asked } from "./sign-in-screen.tsx";

const words = RECORD_WORDS;

export interface FindScreenProps extends Omit<FindFormProps, "query" | "onFind"> {
  readonly say: Words;
  readonly clock: Clock;
  readonly frame: Frame;
  /** Asks for a page of what fits; `after` is the cursor that the page before ended with. */
  readonly find: (query: FindQuery, after?: string) => Promise<Asked<PiecesFound>>;
  /** What is searched when the page opens, such as what its address says. */
  readonly query?: FindQuery | undefined;
  /** Hears what is searched, so that the address can say it. */
  readonly onSearched?: ((query: FindQuery) => void) | undefined;
}

export function FindScreen(props: FindScreenProps) {
  const [query, setQuery] = useState<FindQuery>(props.query ?? EMPTY_QUERY);
  const search = (wanted: FindQuery) => {
    setQuery(wanted);
    props.onSearched?.(wanted);
  };
  return props.frame({
    verb: props.say.find,
    second: words.findSays,
    children: (
      <>
        <Sheet>
          <FindForm {...props} query={query} onFind={search} />
          {isSameQuery(query, EMPTY_QUERY) ? (
            <div class="page-section">
              <Notice kind="empty" head={words.notSearched} live="off">
                {words.notSearchedNext}
              </Notice>
            </div>
          ) : null}
        </Sheet>
        {isSameQuery(query, EMPTY_QUERY) ? null : (
          <Results {...props} query={query} key={JSON.stringify(query)} />
        )}
      </>
    ),
  });
}

function Results(props: FindScreenProps & { readonly query: FindQuery }) {
  const asking = useAsked(() => props.find(props.query), "first");
  return (
    <>
      <Awaited asking={asking} what={words.theGear} say={props.say} />
      {asking.answer ? <Found {...props} first={asking.answer} /> : null}
    </>
  );
}

interface More {
  readonly rows: readonly PieceListed[];
  readonly next: string | undefined;
  readonly problem?: Trouble | undefined;
}

function Found(props: FindScreenProps & { readonly query: FindQuery; readonly first: PiecesFound }) {
  const { first, say, clock } = props;
  const [found, setFound] = useState<More>({ rows: first.rows, next: first.next });
  const isAsking = useRef(false);
  useEffect(() => setFound({ rows: first.rows, next: first.next }), [first]);
  const more = async () => {
    if (isAsking.current || found.next === undefined) return;
    isAsking.current = true;
    const asked = await props.find(props.query, found.next);
    isAsking.current = false;
    if ("problem" in asked) return setFound({ ...found, problem: asked.problem });
    setFound({ rows: [...found.rows, ...asked.answer.rows], next: asked.answer.next });
  };
  if (found.rows.length === 0) {
    return (
      <Sheet>
        <Notice kind="empty" head={words.nothingFound}>
          {words.nothingFoundNext}
        </Notice>
      </Sheet>
    );
  }
  const head = words.rowsShown(found.rows.length, found.next !== undefined);
  return (
    <Sheet>
      <h2 class="t-head" aria-live="polite">
        {head}
      </h2>
      <PieceTable
        caption={head}
        rows={found.rows}
        columns={["label", "with", "belongsTo", "state", "lastSeen"]}
        clock={clock}
        say={say}
      />
      {found.problem ? (
        <Notice kind="fault" head={`${words.notShown} ${found.problem.title}`} live="assertive">
          {found.problem.detail}
        </Notice>
      ) : null}
      {found.next === undefined ? null : (
        <div class="button-row">
          <Button onPress={() => void more()}>{words.more}</Button>
        </div>
      )}
    </Sheet>
  );
}
