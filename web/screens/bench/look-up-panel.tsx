/** What look up shows: the garment on the table; the facts, holds and last acts on the cloth. */

import type { PieceView } from "../../../server/domain/piece-view.ts";
import type { PlaceBrief } from "../../../server/domain/scan-answer.ts";
import { Button, ButtonLink } from "../../look/buttons.tsx";
import { type Fact, FactRows } from "../../look/fact-rows.tsx";
import { HoldRibbon } from "../../look/hold-ribbon.tsx";
import { Bench } from "../../look/page.tsx";
import { PieceHead } from "../../look/piece-head.tsx";
import type { TrailMarkName } from "../../look/stitches.tsx";
import { LastActs } from "../../look/trail-entry.tsx";
import { sentence, type Words } from "../../look/words.ts";
import { EVENT_WORDS } from "../../look/words-event.ts";
import { actSentence, isLate } from "../entry-words.ts";
import { sayCents } from "../forms/field-rules.ts";
import type { SymbolModules } from "../use-symbol.ts";
import { holderParts, labelLines, sayMade, sayWhen } from "./describe-piece.ts";
import { PieceDrawing } from "./piece-figure.tsx";
import { notesOf, reasonsOf } from "./ready-words.ts";

export interface Clock {
  readonly now: number;
  readonly timeZone: string;
}

export interface LookUpPanelProps {
  readonly piece: PieceView;
  /** Above the facts: that the tag was replaced, that the piece is on the tray already. */
  readonly notice?: string | undefined;
  readonly clock: Clock;
  readonly say: Words;
  readonly modules?: SymbolModules | undefined;
  readonly onAttachTag?: (() => void) | undefined;
  /** The isolation place that the piece can go to in one tap. */
  readonly isolation?: PlaceBrief | undefined;
  readonly onIsolate?: ((place: PlaceBrief) => void) | undefined;
  readonly onPutOnHold?: (() => void) | undefined;
  readonly onLift?: ((hold: PieceView["holds"][number]) => void) | undefined;
  readonly onPrint: () => void;
}

export function LookUpPanel(props: LookUpPanelProps) {
  const { piece, say, clock, isolation } = props;
  return (
    <Bench
      table={
        <>
          <PieceDrawing piece={piece} say={say} />
          <Holds piece={piece} clock={clock} say={say} onLift={props.onLift} />
        </>
      }
    >
      {props.notice ? <p class="look-up-notice">{props.notice}</p> : null}
      <PieceHead
        title={piece.kind.name}
        lines={labelLines(piece, say)}
        number={piece.number}
        modules={props.modules}
        tagName={piece.number ? `Tag ${piece.number}` : say.noTag}
      />
      <FactRows facts={factsOf(piece, clock, say)} />
      <LastActs
        head={say.lastActs}
        acts={piece.lastActs.slice(0, 3).map((act) => ({
          key: act.act,
          when: sentence(sayWhen(act.at, clock.now, clock.timeZone)),
          mark: markOf(act),
          says: act.entries.map((entry) => actSentence(entry, piece.names)).join(" "),
        }))}
      />
      <div class="button-row">
        <ButtonLink href={`/pieces/${piece.id}`} keyHint="T">
          {say.wholeTrail}
        </ButtonLink>
        <Button weight="quiet" keyHint="P" onPress={props.onPrint}>
          {say.printRecord}
        </Button>
        {isolation && props.onIsolate ? (
          <Button weight="solid" onPress={() => props.onIsolate?.(isolation)}>
            {EVENT_WORDS.toIsolation(isolation.name)}
          </Button>
        ) : null}
        {props.onPutOnHold ? (
          <Button weight="quiet" onPress={props.onPutOnHold}>
            {say.putOnHold}
          </Button>
        ) : null}
        {props.onAttachTag ? (
          <ButtonLink href={`/property?piece=${piece.id}`}>{say.foundProperty}</ButtonLink>
        ) : null}
        {props.onAttachTag ? (
          <Button weight="quiet" onPress={props.onAttachTag}>
            {say.attachTag}
          </Button>
        ) : null}
      </div>
    </Bench>
  );
}

/** Gives the mark of an act on a trail: a correction, a hold, written down later, or an ordinary entry. */
function markOf(act: PieceView["lastActs"][number]): TrailMarkName {
  const kinds = act.entries.map(({ entry }) => entry.kind);
  if (kinds.includes("EntryCorrected")) return "correction";
  if (kinds.includes("HoldPlaced")) return "hold";
  return isLate(act.at, act.recordedAt) ? "late" : "entry";
}

function factsOf(piece: PieceView, clock: Clock, say: Words): readonly Fact[] {
  const { main, around } = holderParts(piece);
  const since = `since ${sayWhen(piece.heldSince, clock.now, clock.timeZone)}`;
  const facts: Fact[] = [{ label: say.withHolder, main, rest: [around, since].filter(Boolean).join(", ") }];
  const { assignment, lastSeen, ready } = piece;
  if (assignment) {
    const rest = [assignment.station?.name, assignment.set].filter(Boolean).join(", ");
    facts.push({ label: say.belongsTo, main: assignment.member.name, rest });
  }
  const reasons = ready.isReady ? [] : reasonsOf(ready.reasons, piece, say);
  facts.push({
    label: say.ready,
    rest: ready.isReady ? say.yes : `${say.no}: ${reasons.join(" ")}`,
  });
  const notes = notesOf(ready.notes, piece, say);
  if (notes.length > 0) facts.push({ label: say.alsoSaid, rest: notes.join(" ") });
  const file = fileWords(piece, say);
  if (file) facts.push({ label: say.onFile, rest: file });
  if (piece.holds.length === 0) facts.push({ label: say.holds, rest: say.none });
  if (lastSeen) {
    const seen = [
      sayWhen(lastSeen.at, clock.now, clock.timeZone),
      lastSeen.where?.name,
      lastSeen.by && `by ${lastSeen.by.name}`,
    ];
    facts.push({ label: say.lastSeen, rest: seen.filter(Boolean).join(", ") });
  }
  return facts;
}

/** Says what is on file beside the label; whose it is only where it is not the department's own. */
function fileWords(piece: PieceView, say: Words): string {
  const { owner, funding, purchaseOrder, priceCents, inServiceOn } = piece;
  const owned = owner.kind === "department" ? undefined : say.ownedBy(owner.name ?? owner.kind);
  const parts = [
    owned,
    funding && say.fundedBy(funding),
    purchaseOrder && say.orderIs(purchaseOrder),
    priceCents === undefined ? undefined : say.priceIs(sayCents(priceCents)),
    inServiceOn && say.inServiceSince(sayMade(inServiceOn)),
  ];
  return sentence(parts.filter(Boolean).join(", "));
}

type HoldsProps = Pick<LookUpPanelProps, "piece" | "clock" | "say" | "onLift">;

function ofEvent({ event }: PieceView["holds"][number], { names }: PieceView): string {
  return event ? `, ${names[event]?.name ?? ""}` : "";
}

/** Says what a contamination hold still asks for: which cleaning ends it, or that nobody set that. */
function asksOf({ version }: PieceView["holds"][number], { asks = [] }: PieceView): string {
  const open = asks.find((one) => one.version === version)?.open ?? [];
  return open.map(({ name, endedBy }) => `${EVENT_WORDS.stillAsked(name, endedBy)} `).join("");
}

function Holds(props: HoldsProps) {
  const { piece, clock, say } = props;
  return (
    <>
      {piece.holds.map((hold) => (
        <HoldRibbon key={hold.version} head={say.onHold}>
          {`${say.holdKind[hold.kind]}${ofEvent(hold, piece)}, since ${sayWhen(hold.placedAt, clock.now, clock.timeZone)}. ${asksOf(hold, piece)}${say.holdLiftedBy[hold.kind]}`}
          {props.onLift ? (
            <button type="button" class="hold-lift" onClick={() => props.onLift?.(hold)}>
              {say.liftHold}
            </button>
          ) : null}
        </HoldRibbon>
      ))}
      {piece.soiled ? <HoldRibbon head={say.soiled}>{say.soiledSays}</HoldRibbon> : null}
      {piece.retiredAt ? (
        <HoldRibbon head={say.retired}>
          {`Since ${sayWhen(piece.retiredAt, clock.now, clock.timeZone)}. ${say.retiredSays}`}
        </HoldRibbon>
      ) : null}
    </>
  );
}
