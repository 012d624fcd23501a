/** Draws a piece as it stands on the bench: a garment with what is fitted in it, or the single piece. */
import type { FittingView, PieceView } from "../../../server/domain/piece-view.ts";
import { GarmentFigure, type LayerName, type LayerPresence } from "../../look/garment.tsx";
import { type BoardLabel, GarmentBoard } from "../../look/garment-board.tsx";
import { BenchFigure } from "../../look/page.tsx";
import { PieceFigure, type PieceFigureName } from "../../look/piece-figures.tsx";
import { VerdictLine } from "../../look/verdict.tsx";
import type { VerdictName } from "../../look/verdict-names.ts";
import { verdictWord } from "../../look/verdict-phrases.ts";
import { kindWords, midSentence, type Words } from "../../look/words.ts";
import { pieceName } from "./describe-piece.ts";

const RANK: readonly VerdictName[] = ["match", "none", "accepted", "not-read", "cannot-tell", "differs"];

/** Gives the worst verdict of a garment's fittings; none where nothing is fitted. */
export function worstOf(fitted: readonly FittingView[]): VerdictName {
  const verdicts = fitted.map(({ check }): VerdictName => check?.verdict ?? "none");
  return verdicts.reduce<VerdictName>(
    (worst, one) => (RANK.indexOf(one) > RANK.indexOf(worst) ? one : worst),
    fitted.length === 0 ? "none" : "match",
  );
}

const FIGURES: readonly (readonly [RegExp, PieceFigureName])[] = [
  [/hood/, "hood"],
  [/helmet/, "helmet"],
  [/glove/, "gloves"],
  [/boot/, "boots"],
  [/suspender/, "suspenders"],
  [/drd/, "drd"],
  [/coat-liner|winter-liner/, "coat-liner"],
  [/pants-liner/, "pants-liner"],
  [/pants/, "pants-shell"],
  [/coat|coverall/, "other"],
];

/** Draws the piece with its layers named around it, or the single piece in the middle of the table. */
export function PieceDrawing(props: { readonly piece: PieceView; readonly say: Words }) {
  const { piece, say } = props;
  const garment = asGarment(piece, say);
  if (garment) return <GarmentBoard {...garment} labels={boardLabels(piece, say)} />;
  const { fittedIn } = piece;
  return (
    <>
      <BenchFigure>
        <SmallDrawing piece={piece} say={say} />
      </BenchFigure>
      {fittedIn ? (
        <p class="fitted-in">
          {`${say.isIn} `}
          <a href={`/pieces/${fittedIn.piece.id}`}>{pieceName(fittedIn.piece, say)}</a>
          {fittedIn.check ? (
            <VerdictLine verdict={fittedIn.check.verdict} word={verdictWord(fittedIn.check.verdict, say)} />
          ) : null}
        </p>
      ) : null}
    </>
  );
}

/** Draws the piece alone, as on the tray. */
export function SmallDrawing(props: { readonly piece: PieceView; readonly say: Words }) {
  const { piece, say } = props;
  const garment = asGarment(piece, say);
  if (garment) return <GarmentFigure {...garment} />;
  const figure = FIGURES.find(([pattern]) => pattern.test(piece.kind.code))?.[1] ?? "other";
  return <PieceFigure piece={figure} name={piece.kind.name} />;
}

function boardLabels(piece: PieceView, say: Words): BoardLabel[] {
  const own: BoardLabel = { layer: "shell", name: say.shell, thisPiece: say.thisPiece, number: piece.number };
  const layers = piece.fitted.map(({ piece: layer, check }): BoardLabel => {
    const verdict: VerdictName = check?.verdict ?? "none";
    return {
      layer: layerOf(layer.kind.code),
      name: layer.kind.layer === "drd" ? say.drd : layer.kind.layer === "liner" ? say.liner : layer.kind.name,
      number: layer.number,
      verdict,
      word: verdictWord(verdict, say),
      href: `/pieces/${layer.id}`,
    };
  });
  const missing = piece.missing.map(({ layerKind }): BoardLabel => {
    const layer = layerOf(layerKind);
    return { layer, name: layer === "drd" ? say.drd : say.liner, verdict: "none", word: say.isMissing };
  });
  return [own, ...layers, ...missing];
}

function layerOf(kind: string): LayerName | "other" {
  if (kind.endsWith("drd")) return "drd";
  return kind.endsWith("coat-liner") || kind.endsWith("pants-liner") ? "liner" : "other";
}

/** Tells whether a layer is in a shell, is missing, or does not belong to it. */
export function garmentOf(shell: PieceView, wanted: LayerName): LayerPresence {
  const isHere = shell.fitted.some(({ layerKind }) => layerKind.includes(wanted));
  if (isHere) return "here";
  return shell.missing.some(({ layerKind }) => layerKind.includes(wanted)) ? "missing" : "absent";
}

function asGarment(piece: PieceView, say: Words) {
  const { garment, layer } = piece.kind;
  if (layer !== "shell" || !garment || garment === "coverall") return undefined;
  const has = (wanted: LayerName) => garmentOf(piece, wanted);
  const verdict = worstOf(piece.fitted);
  const drd = garment === "coat" ? has("drd") : undefined;
  return {
    shape: garment,
    shell: "here" as const,
    liner: has("liner"),
    ...(drd ? { drd } : {}),
    verdict,
    inHand: "shell" as const,
    name: garmentName(piece, verdict, say),
  };
}

function garmentName(piece: PieceView, verdict: VerdictName, say: Words): string {
  const layers = piece.fitted.map(({ piece: layer }) => midSentence(layer.kind.name));
  const missing = piece.missing.map(({ layerKind }) => kindWords(layerKind));
  const inside =
    layers.length > 0 ? `with ${layers.join(" and ")}, ${verdictWord(verdict, say)}` : "with nothing inside";
  return `${piece.kind.name} ${inside}${missing.length > 0 ? `; missing: ${missing.join(", ")}` : ""}`;
}
