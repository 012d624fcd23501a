/** Install liner: a liner that does not belong in the shell, and the pieces came in installed together. */
import { Button } from "../buttons.tsx";
import { GarmentFigure } from "../garment.tsx";
import { LastAct } from "../hem.tsx";
import { HoldRibbon } from "../hold-ribbon.tsx";
import { Bench, BenchFigure } from "../page.tsx";
import { Seam } from "../seam.tsx";
import { TagNumber } from "../tag-figure.tsx";
import { VerdictHead } from "../verdict.tsx";
import { type LabelRowFacts, seamRows, verdictHead, verdictSentences } from "../verdict-phrases.ts";
import { BenchFrame } from "./bench-frame.tsx";
import { LINER_TAG, nothing, OWN_LINER_TAG, SHELL_TAG, W } from "./sample-data.ts";

const ROWS: readonly LabelRowFacts[] = [
  { field: "garment", outer: "coat", inner: "coat", verdict: "match" },
  { field: "maker", outer: "Tarnholt", inner: "Tarnholt", verdict: "match" },
  { field: "model-or-code", outer: "LK-2", inner: "LK-3", verdict: "differs" },
  { field: "size", outer: "46 32 R", inner: "44 32 R", verdict: "differs" },
  { field: "pattern", outer: "M", inner: "M", verdict: "match" },
  { field: "made", outer: "Mar 2022", inner: "Aug 2023", verdict: "shown" },
];

export function BenchDiffers() {
  return (
    <BenchFrame
      tape={{ verb: W.installLiner, second: W.stoppedInstall, writes: true }}
      hem={{
        hint: W.scanOtherLiner,
        phoneScan: W.scanAnotherLiner,
        phoneSecond: <Button onPress={nothing}>{W.clear}</Button>,
        note: <LastAct head={W.lastAct} text="10:14, two pieces put on hold" />,
        end: (
          <Button keyHint="Esc" onPress={nothing}>
            {W.clearTray}
          </Button>
        ),
      }}
    >
      <Bench
        split="check"
        table={
          <>
            <BenchFigure>
              <GarmentFigure
                shape="coat"
                shell="here"
                liner="here"
                drd="here"
                verdict="differs"
                name="Coat: the liner does not belong in the shell and lies beside it."
              />
            </BenchFigure>
            <HoldRibbon head={W.onHold}>Both pieces, since 10:14. A program manager lifts it.</HoldRibbon>
          </>
        }
      >
        <VerdictHead
          verdict="differs"
          word={verdictHead("differs", W)}
          says={verdictSentences("differs", "liner", ROWS, W)}
        />
        <Seam
          caption="Labels of coat shell and coat liner"
          left={{ name: W.coatShell, number: SHELL_TAG }}
          right={{ name: W.coatLiner, number: LINER_TAG }}
          rows={seamRows(ROWS, W)}
        />
        <div class="own-layer">
          <p>
            <b>
              The liner of this shell is <TagNumber number={OWN_LINER_TAG} />
            </b>
            <br />
            It lies on Rack C1 since Fri 20 Nov, 09:41.
          </p>
          <span class="only-wide">
            <Button keyHint="W" onPress={nothing}>
              {W.recordWord}
            </Button>
          </span>
        </div>
      </Bench>
    </BenchFrame>
  );
}
