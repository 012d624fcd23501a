/** The pieces of a holder's page, now or on a day, page by page where there are many. */
import type { ComponentChildren } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import type { HolderPage, PieceWith } from "../../../server/domain/page-views.ts";
import type { Trouble } from "../../api/answer.ts";
import { Button } from "../../look/buttons.tsx";
import { Notice } from "../../look/notice.tsx";
import type { Words } from "../../look/words.ts";
import { RECORD_WORDS } from "../../look/words-record.ts";
import type { Clock } from "../bench/look-up-panel.tsx";
import type { Asked } from "../sign-in-screen.tsx";
import { PieceTable } from "./piece-table.tsx";

export interface HolderPiecesProps {
  readonly page: HolderPage;
  /** What the pieces are counted as: "6 pieces there now". `isPart` says that there are more. */
  readonly head: (count: number, isPart: boolean) => string;
  readonly empty: ComponentChildren;
  readonly more: ((after: string) => Promise<Asked<HolderPage>>) | undefined;
  readonly clock: Clock;
  readonly say: Words;
}

interface Shown {
  readonly rows: readonly PieceWith[];
  readonly next: string | undefined;
  readonly problem?: Trouble;
}

export function HolderPieces(props: HolderPiecesProps) {
  const { page, say, clock } = props;
  const first: Shown = { rows: page.pieces, next: page.next };
  const [shown, setShown] = useState(first);
  const isAsking = useRef(false);
  useEffect(() => setShown(first), [page]);
  const more = async () => {
    if (isAsking.current || !props.more || shown.next === undefined) return;
    isAsking.current = true;
    const asked = await props.more(shown.next);
    isAsking.current = false;
    if ("problem" in asked) return setShown({ ...shown, problem: asked.problem });
    setShown({ rows: [...shown.rows, ...asked.answer.pieces], next: asked.answer.next });
  };
  if (page.pieces.length === 0) return <>{props.empty}</>;
  const head = props.head(shown.rows.length, shown.next !== undefined);
  return (
    <>
      <h2 class="t-head" aria-live="polite">
        {head}
      </h2>
      <PieceTable
        caption={head}
        rows={shown.rows}
        columns={["label", "belongsTo", "since", "state"]}
        clock={clock}
        say={say}
      />
      {shown.problem ? (
        <Notice kind="fault" head={`${RECORD_WORDS.notShown} ${shown.problem.title}`} live="assertive">
          {shown.problem.detail}
        </Notice>
      ) : null}
      {shown.next !== undefined && props.more ? (
        <div class="button-row">
          <Button onPress={() => void more()}>{RECORD_WORDS.more}</Button>
        </div>
      ) : null}
    </>
  );
}
