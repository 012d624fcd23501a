/** The tray of the modes that collect: garments together, the rest in a row, what it says as a whole, and its reasons. */
import { Notice } from "../../look/notice.tsx";
import { Band } from "../../look/page.tsx";
import { TagNumber } from "../../look/tag-figure.tsx";
import { Tray, type TrayPlace } from "../../look/tray.tsx";
import { countAlike } from "../../look/tray-layout.ts";
import { VerdictLine } from "../../look/verdict.tsx";
import { verdictWord } from "../../look/verdict-phrases.ts";
import { countOf, type Words } from "../../look/words.ts";
import type { TrayPiece } from "./bench-run.ts";
import type { Mode } from "./mode.ts";
import { SmallDrawing, worstOf } from "./piece-figure.tsx";
import { traySays } from "./tray-check.ts";

export interface TrayPanelProps {
  readonly mode: Mode;
  readonly tray: readonly TrayPiece[];
  readonly say: Words;
  readonly onTakeOff: (piece: string) => void;
}

/** As many places as the table has room for; more of a kind are counted. */
const MOST_PLACES = 6;

export function TrayPanel(props: TrayPanelProps) {
  const { tray, say, mode } = props;
  if (tray.length === 0) {
    return (
      <section class="cutting-table tray-empty">
        <Notice kind="empty" head={say.trayEmpty}>
          {say.trayEmptyNext}
        </Notice>
      </section>
    );
  }
  const told = traySays(mode, tray, say);
  return (
    <>
      <Tray
        label={say.trayLabel}
        places={placesOf(tray, told.stopping, say)}
        head={told.head}
        says={told.says}
        whole={told.stopping.size === 0}
      />
      <TrayList {...props} stopping={told.stopping} />
    </>
  );
}

function placesOf(tray: readonly TrayPiece[], stopping: ReadonlySet<string>, say: Words): TrayPlace[] {
  // A layer that lies on the tray with its own shell is drawn in it.
  const shells = new Set(tray.map(({ piece }) => piece.id));
  const apart = tray.filter(({ piece }) => !piece.fittedIn || !shells.has(piece.fittedIn.piece.id));
  const counted = countAlike(apart, ({ piece }) => (apart.length > MOST_PLACES ? piece.kind.code : piece.id));
  return counted.slice(0, MOST_PLACES).map(({ item: { piece }, count }): TrayPlace => {
    const isGarment = piece.kind.layer === "shell" && piece.kind.garment !== "coverall";
    const isStopping = apart.some(
      (one) => one.piece.kind.code === piece.kind.code && stopping.has(one.piece.id),
    );
    const verdict = worstOf(piece.fitted);
    return {
      key: piece.id,
      size: isGarment ? (piece.kind.garment === "pants" ? "pants" : "coat") : "piece",
      figure: <SmallDrawing piece={piece} say={say} />,
      name:
        count > 1
          ? `${piece.kind.name}, ${count}`
          : isGarment
            ? (say[piece.kind.garment as "coat"] ?? piece.kind.name)
            : piece.kind.name,
      below:
        isGarment && piece.fitted.length > 0 ? (
          <VerdictLine verdict={verdict} word={verdictWord(verdict, say)} />
        ) : piece.number ? (
          <TagNumber number={piece.number} />
        ) : (
          say.noTag
        ),
      stops: count > 1 ? isStopping : stopping.has(piece.id),
    };
  });
}

/** The tray in words: what lies there, with a way to take a piece off again. */
function TrayList(props: TrayPanelProps & { readonly stopping: ReadonlySet<string> }) {
  const { tray, say } = props;
  return (
    <Band threaded={props.stopping.size === 0}>
      <details class="tray-list">
        <summary>{countOf(tray.length, "piece on the tray", "pieces on the tray")}</summary>
        <ul>
          {tray.map(({ piece, evidence }) => (
            <li key={piece.id} class="tray-list-row">
              <span>
                <b>{piece.kind.name}</b> {piece.number ? <TagNumber number={piece.number} /> : null}
                {` ${[piece.label.size, evidence === "typed" ? "typed" : undefined].filter(Boolean).join(", ")}`}
              </span>
              <button type="button" class="tray-list-off" onClick={() => props.onTakeOff(piece.id)}>
                {say.takeOff}
                <span class="for-ears">{` ${piece.kind.name} ${piece.number ?? ""}`}</span>
              </button>
            </li>
          ))}
        </ul>
      </details>
    </Band>
  );
}
