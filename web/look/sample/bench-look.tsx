/** Look up: a coat shell with liner and DRD installed. */
import { Button } from "../buttons.tsx";
import { FactRows } from "../fact-rows.tsx";
import { GarmentBoard } from "../garment-board.tsx";
import { LastAct } from "../hem.tsx";
import { Bench } from "../page.tsx";
import { PieceHead } from "../piece-head.tsx";
import { LastActs } from "../trail-entry.tsx";
import { BenchFrame } from "./bench-frame.tsx";
import { nothing, OWN_LINER_TAG, SHELL_MODULES, SHELL_TAG, W } from "./sample-data.ts";

export function BenchLook() {
  return (
    <BenchFrame
      tape={{ verb: W.lookUp, second: W.lookUpSecond, writes: false }}
      hem={{
        hint: W.scanOrType,
        phoneScan: W.scanATag,
        note: <LastAct head={W.lastAct} text="10:24, three pieces moved to Rack B2" />,
        end: (
          <Button weight="quiet" onPress={nothing}>
            {W.correctIt}
          </Button>
        ),
      }}
    >
      <Bench
        table={
          <GarmentBoard
            shape="coat"
            shell="here"
            liner="here"
            drd="here"
            verdict="match"
            inHand="shell"
            name="Coat: shell, this piece; liner and DRD, labels match."
            labels={[
              { layer: "shell", name: W.shell, thisPiece: W.thisPiece, number: SHELL_TAG },
              { layer: "liner", name: W.liner, number: OWN_LINER_TAG, verdict: "match", word: W.match },
              { layer: "drd", name: W.drd, number: "J06N 3H4K 3VX9", verdict: "match", word: W.match },
            ]}
          />
        }
      >
        <PieceHead
          title={W.coatShell}
          lines={["Tarnholt K7, size 46 32 R, cut M", "Takes liner LK-2, made March 2022"]}
          number={SHELL_TAG}
          modules={SHELL_MODULES}
          tagName={`Tag ${SHELL_TAG}`}
        />
        <FactRows
          facts={[
            { label: W.withHolder, main: "Rack B2", rest: "gear cage, since today, 10:24" },
            { label: W.belongsTo, main: "Corwin Bask", rest: "Station 2, first set" },
            { label: W.dueNext, rest: "Advanced inspection by 3 Feb 2027" },
            { label: W.holds, rest: W.none },
          ]}
        />
        <div class="only-wide">
          <LastActs
            head={W.lastActs}
            acts={[
              { key: "3", when: "Today, 10:24", mark: "entry", says: "Moved to Rack B2." },
              {
                key: "2",
                when: "Today, 10:22",
                mark: "entry",
                says: "Liner and DRD installed. Both labels match.",
              },
              {
                key: "1",
                when: "Today, 10:20",
                mark: "entry",
                says: "Hold lifted: the wrong liner was taken out.",
              },
            ]}
          />
        </div>
        <div class="button-row">
          <Button keyHint="T" onPress={nothing}>
            {W.wholeTrail}
          </Button>
          <Button weight="quiet" keyHint="P" onPress={nothing}>
            {W.printRecord}
          </Button>
        </div>
      </Bench>
    </BenchFrame>
  );
}
