/** Issue a set: two garments and four single pieces on the tray; whole, or stopped by two reasons. */
import { useState } from "preact/hooks";
import { Button, Confirm } from "../buttons.tsx";
import { Choice } from "../choice.tsx";
import { GarmentFigure } from "../garment.tsx";
import { Band } from "../page.tsx";
import { PieceFigure, type PieceFigureName } from "../piece-figures.tsx";
import { TagNumber } from "../tag-figure.tsx";
import { Tray, type TrayPlace } from "../tray.tsx";
import { VerdictLine } from "../verdict.tsx";
import { BenchFrame } from "./bench-frame.tsx";
import { nothing, W } from "./sample-data.ts";

const CONDITIONS = [
  { value: "new", label: W.conditionNew },
  { value: "used", label: W.conditionUsed },
  { value: "findings", label: W.conditionFindings },
] as const;
type Condition = (typeof CONDITIONS)[number]["value"];

function piece(figure: PieceFigureName, name: string, number: string): TrayPlace {
  return {
    key: figure,
    size: "piece",
    name,
    figure: <PieceFigure piece={figure} name={name} />,
    below: <TagNumber number={number} />,
  };
}

function places(stopped: boolean): readonly TrayPlace[] {
  const verdict = stopped ? "differs" : "accepted";
  return [
    {
      key: "coat",
      size: "coat",
      name: W.coat,
      figure: (
        <GarmentFigure
          shape="coat"
          shell="here"
          liner="here"
          drd="here"
          verdict="match"
          name="Coat: shell, liner and DRD, labels match."
        />
      ),
      below: <VerdictLine verdict="match" word="shell, liner and DRD match" />,
    },
    {
      key: "pants",
      size: "pants",
      name: W.pants,
      stops: stopped,
      figure: (
        <GarmentFigure
          shape="pants"
          shell="here"
          liner="here"
          verdict={verdict}
          name={`Pants: ${verdict}.`}
        />
      ),
      below: <VerdictLine verdict={verdict} word={stopped ? W.differs : W.accepted} />,
    },
    piece("helmet", "Helmet", "KFF6 DGCC CX5X"),
    piece("hood", "Hood", "VFG7 6614 PG1P"),
    piece("gloves", "Gloves", "X6X7 N9C9 TFR4"),
    piece("boots", "Boots", "KJ10 3NH7 1K8R"),
  ];
}

export function BenchIssue(props: { readonly stopped: boolean }) {
  const { stopped } = props;
  const [condition, setCondition] = useState<Condition>("used");
  const confirm = (
    <Confirm
      label={stopped ? "Issue: 2 reasons" : "Issue 9 pieces"}
      blocked={stopped}
      keyHint="Enter"
      onPress={nothing}
    />
  );
  return (
    <BenchFrame
      tape={{
        verb: W.issueTo("Corwin Bask"),
        second: stopped ? "Stopped. Scan another pants liner, or clear the tray." : W.collects,
        writes: true,
      }}
      hem={{
        hint: W.scanOrType,
        phoneScan: W.scanATag,
        phoneSecond: confirm,
        threaded: !stopped,
        note: "Pants liner accepted by the maker’s statement of 2 Sep 2026.",
        end: (
          <>
            <Button weight="quiet" keyHint="Esc" onPress={nothing}>
              {W.clear}
            </Button>
            {confirm}
          </>
        ),
      }}
    >
      <Tray
        label="Tray"
        places={places(stopped)}
        whole={!stopped}
        head={stopped ? undefined : W.setComplete}
        says={stopped ? undefined : "9 pieces of 9. Nothing differs, nothing is held, nothing is overdue."}
      />
      <Band threaded={!stopped}>
        <Choice
          name="condition"
          legend={W.conditionAtIssue}
          options={CONDITIONS}
          value={condition}
          onChange={setCondition}
        />
        <div class="band-side">
          <p class="t-second">{W.receivedBy}</p>
          <p class="t-main">Corwin Bask</p>
          <p class="t-second">own card scanned, 10:31</p>
        </div>
      </Band>
    </BenchFrame>
  );
}
