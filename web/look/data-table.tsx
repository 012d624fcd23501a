/** A table of plain rows: heads over creases; on phones each row stands as a block with its heads before the values. */
import type { ComponentChildren } from "preact";

export type Column<Row> = {
  readonly key: string;
  readonly head: string;
  readonly cell: (row: Row) => ComponentChildren;
  readonly align?: "left" | "right" | undefined;
  /** The cell that names the row: set bold and read as its head. */
  readonly names?: boolean | undefined;
};

export type DataTableProps<Row> = {
  readonly caption: string;
  readonly columns: readonly Column<Row>[];
  readonly rows: readonly Row[];
  readonly rowKey: (row: Row) => string;
  readonly hideCaption?: boolean | undefined;
};

/** Draws the table. */
export function DataTable<Row>(props: DataTableProps<Row>) {
  return (
    <table class="data-table">
      <caption class={props.hideCaption ? "for-ears" : "data-table-caption"}>{props.caption}</caption>
      <thead>
        <tr>
          {props.columns.map((column) => (
            <th key={column.key} scope="col" class={column.align === "right" ? "cell-right" : undefined}>
              {column.head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {props.rows.map((row) => (
          <tr key={props.rowKey(row)}>
            {props.columns.map((column) => (
              <TableCell key={column.key} column={column} row={row} />
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function TableCell<Row>(props: { readonly column: Column<Row>; readonly row: Row }) {
  const { column, row } = props;
  const dress = column.align === "right" ? "cell-right" : undefined;
  if (column.names) {
    return (
      <th scope="row" class={dress}>
        {column.cell(row)}
      </th>
    );
  }
  return (
    <td class={dress} data-head={column.head}>
      {column.cell(row)}
    </td>
  );
}
