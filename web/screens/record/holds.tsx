/** What keeps a piece from being issued, across the whole page: holds, soil, retirement. */
import type { TrailPiece } from "../../../server/domain/page-views.ts";
import { HoldRibbon } from "../../look/hold-ribbon.tsx";
import type { Words } from "../../look/words.ts";
import { sayWhen } from "../bench/describe-piece.ts";
import type { Clock } from "../bench/look-up-panel.tsx";

export function Holds(props: { readonly piece: TrailPiece; readonly clock: Clock; readonly say: Words }) {
  const { piece, clock, say } = props;
  const since = (instant: string) => `since ${sayWhen(instant, clock.now, clock.timeZone)}`;
  return (
    <>
      {piece.holds.map((hold) => (
        <HoldRibbon key={hold.version} head={`${say.onHold} ${since(hold.placedAt)}.`} page>
          {`${say.holdKind[hold.kind]}. ${say.holdLiftedBy[hold.kind]}`}
        </HoldRibbon>
      ))}
      {piece.soiled ? (
        <HoldRibbon head={`${say.soiled}.`} page>
          {say.soiledSays}
        </HoldRibbon>
      ) : null}
      {piece.retiredAt ? (
        <HoldRibbon head={`${say.retired} ${since(piece.retiredAt)}.`} page>
          {say.retiredSays}
        </HoldRibbon>
      ) : null}
    </>
  );
}
