/** Fields, lists, a table, a camera frame, the menu and a dialog. */
import { useState } from "preact/hooks";
import { Button } from "../buttons.tsx";
import { CameraPanel } from "../camera-panel.tsx";
import { DataTable } from "../data-table.tsx";
import { CheckField, SelectField, TextField } from "../fields.tsx";
import { ListRows } from "../list-rows.tsx";
import { Sheet } from "../page.tsx";
import { Dialog, MenuPanel } from "../panel.tsx";
import { PieceFigure, type PieceFigureName } from "../piece-figures.tsx";
import { TagNumber } from "../tag-figure.tsx";
import { nothing, SHELL_TAG, W } from "./sample-data.ts";

const PIECES: readonly PieceFigureName[] = [
  "coat-shell",
  "coat-liner",
  "drd",
  "pants-shell",
  "pants-liner",
  "suspenders",
  "helmet",
  "other",
];

const HELD = [
  { number: SHELL_TAG, what: W.coatShell, where: "Rack B2" },
  { number: "KFF6 DGCC CX5X", what: "Helmet", where: "Corwin Bask" },
];

export function FormsPage() {
  const [open, setOpen] = useState<"menu" | "dialog" | undefined>(undefined);
  return (
    <main>
      <Sheet>
        <h1 class="t-title">Register a piece</h1>
        <Fields />
        <div class="button-row">
          <Button onPress={() => setOpen("menu")}>{W.menu}</Button>
          <Button onPress={() => setOpen("dialog")}>Question</Button>
          <Button disabled onPress={nothing}>
            Not now
          </Button>
        </div>
        <ListRows
          label="Places"
          rows={[
            { key: "1", main: "Rack B2", second: "gear cage", end: "14 pieces", href: "#a" },
            { key: "2", main: "Engine 4", second: "Station 2", end: "3 pieces", href: "#b", current: true },
          ]}
        />
        <DataTable
          caption="Pieces on hold"
          columns={[
            { key: "what", head: "Piece", cell: (row) => row.what, names: true },
            { key: "number", head: "Tag", cell: (row) => <TagNumber number={row.number} /> },
            { key: "where", head: "With", cell: (row) => row.where, align: "right" },
          ]}
          rows={HELD}
          rowKey={(row) => row.number}
        />
        <div class="sample-pieces cutting-table">
          {PIECES.map((piece) => (
            <div key={piece}>
              <PieceFigure piece={piece} name={piece} />
            </div>
          ))}
        </div>
        <CameraPanel
          says="Hold the tag in the corners."
          actions={<Button onPress={nothing}>{W.close}</Button>}
        >
          <div />
        </CameraPanel>
        <MenuPanel
          open={open === "menu"}
          onClose={() => setOpen(undefined)}
          title={W.menu}
          closeLabel={W.close}
        >
          <ListRows
            rows={[
              { key: "bench", main: "Bench", onPress: nothing, current: true },
              { key: "find", main: "Find gear", onPress: nothing },
            ]}
          />
        </MenuPanel>
        <Dialog
          open={open === "dialog"}
          onClose={() => setOpen(undefined)}
          title="Lift this hold?"
          closeLabel={W.close}
          actions={<Button onPress={nothing}>Lift it</Button>}
        >
          <p>Hood VFG7 6614 PG1P is on hold: finding.</p>
        </Dialog>
      </Sheet>
    </main>
  );
}

function Fields() {
  const [size, setSize] = useState("46 32 R");
  const [kind, setKind] = useState("shell");
  const [checked, setChecked] = useState(true);
  return (
    <div class="sample-fields">
      <SelectField
        label="Kind"
        value={kind}
        onChange={setKind}
        options={[
          { value: "shell", label: W.coatShell },
          { value: "liner", label: W.coatLiner },
        ]}
      />
      <TextField label={W.size} value={size} onInput={setSize} note="As printed on the label." />
      <TextField
        label={W.tagNumber}
        value="C7K3 F92C XTKL"
        mono
        onInput={nothing}
        problem="Check symbols do not hold. Compare, then type again."
      />
      <TextField label="Note" value="" onInput={nothing} lines={3} />
      <CheckField label="The label was read" checked={checked} onChange={setChecked} />
    </div>
  );
}
