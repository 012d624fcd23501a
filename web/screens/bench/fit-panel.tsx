/** What install shows: the shell with the layer on it, the verdict, and both labels at one seam. */

import { checkBriefs, joinFacts } from "../../../server/domain/label-check/check-briefs.ts";
import type { LabelCheck } from "../../../server/domain/label-check/label-verdict.ts";
import type { PieceView } from "../../../server/domain/piece-view.ts";
import { Button } from "../../look/buttons.tsx";
import { GarmentFigure } from "../../look/garment.tsx";
import { Bench, BenchFigure } from "../../look/page.tsx";
import { Seam } from "../../look/seam.tsx";
import { TagNumber } from "../../look/tag-figure.tsx";
import { VerdictHead } from "../../look/verdict.tsx";
import { seamRows, verdictHead } from "../../look/verdict-phrases.ts";
import { midSentence, type Words } from "../../look/words.ts";
import { sayMade, sayWhen } from "./describe-piece.ts";
import { fitSays } from "./fit-words.ts";
import type { Clock } from "./look-up-panel.tsx";
import { garmentOf } from "./piece-figure.tsx";

export interface FitPanelProps {
  readonly shell: PieceView;
  readonly layer: PieceView;
  readonly clock: Clock;
  readonly say: Words;
  /** What else stands against it: not a layer, in another shell, the place taken. */
  readonly also?: readonly string[] | undefined;
  readonly onMakersWord?: (() => void) | undefined;
  /** For inspectors, where a label was not read or nothing tells. */
  readonly onByEye?: (() => void) | undefined;
}

/** Checks two pieces on the bench by what came with them. Undefined where there is nothing to compare. */
export function checkOnBench(shell: PieceView, layer: PieceView): LabelCheck | undefined {
  return checkBriefs(shell, layer, joinFacts(shell.forLabelCheck, layer.forLabelCheck));
}

export function FitPanel(props: FitPanelProps) {
  const { shell, layer, say } = props;
  const check = checkOnBench(shell, layer);
  if (!check) return <p>{say.nothingToCompare}</p>;
  const { garment } = shell.kind;
  const isDrd = layer.kind.layer === "drd";
  return (
    <Bench
      split="check"
      table={
        <BenchFigure>
          {garment && garment !== "coverall" ? (
            <GarmentFigure
              shape={garment}
              shell="here"
              liner={isDrd ? garmentOf(shell, "liner") : "here"}
              drd={isDrd ? "here" : garmentOf(shell, "drd")}
              verdict={check.verdict}
              inHand={isDrd ? "drd" : "liner"}
              name={`${layer.kind.name} on ${midSentence(shell.kind.name)}: ${verdictHead(check.verdict, say)}`}
              moving
            />
          ) : null}
        </BenchFigure>
      }
    >
      <VerdictHead
        verdict={check.verdict}
        word={verdictHead(check.verdict, say)}
        says={fitSays(check, layer, say)}
      />
      <Seam
        caption={`${shell.kind.name} and ${midSentence(layer.kind.name)}`}
        left={sideOf(shell)}
        right={sideOf(layer)}
        rows={seamRows(check.rows.map(withMade), say)}
        rightCloth={isDrd ? "plain" : "liner"}
      />
      {(props.also ?? []).map((line) => (
        <p class="fit-also" key={line}>
          {line}
        </p>
      ))}
      <RecordedInstead {...props} />
      {props.onByEye && (check.verdict === "not-read" || check.verdict === "cannot-tell") ? (
        <div class="button-row">
          <Button onPress={props.onByEye}>{say.compareByEye}</Button>
          <p>{say.compareByEyeSays}</p>
        </div>
      ) : null}
    </Bench>
  );
}

/** Says manufacture dates as people do; the check holds them as the record does. */
function withMade(row: LabelCheck["rows"][number]): LabelCheck["rows"][number] {
  if (row.field !== "made") return row;
  const { outer, inner, ...rest } = row;
  return {
    ...rest,
    ...(outer ? { outer: sayMade(outer) } : {}),
    ...(inner ? { inner: sayMade(inner) } : {}),
  };
}

function sideOf(piece: PieceView) {
  return { name: piece.kind.name, ...(piece.number ? { number: piece.number } : {}) };
}

/** Says which layer is on record in this shell when another is on the bench, and where that one is. */
function RecordedInstead({ shell, layer, clock, say, onMakersWord }: FitPanelProps) {
  const recorded = shell.fitted.find(
    ({ layerKind, piece }) => layerKind === layer.kind.code && piece.id !== layer.id,
  );
  const own = recorded?.piece;
  return (
    <div class="own-layer">
      <div>
        {own ? (
          <p>
            <b>
              {say.ownLayer(midSentence(layer.kind.name))}{" "}
              {own.number ? <TagNumber number={own.number} /> : say.noTag}
            </b>
            <br />
            {`${own.holder.name}, since ${sayWhen(own.heldSince, clock.now, clock.timeZone)}.`}
          </p>
        ) : null}
      </div>
      {onMakersWord ? (
        <Button keyHint="W" onPress={onMakersWord}>
          {say.recordWord}
        </Button>
      ) : null}
    </div>
  );
}
