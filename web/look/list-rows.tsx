/** Rows of a list, 56 to 68 high: each leads somewhere or does one thing. */
import type { ComponentChildren } from "preact";

export type ListRow = {
  readonly key: string;
  readonly main: ComponentChildren;
  readonly second?: ComponentChildren | undefined;
  /** Stands at the right end: a number, a holder, a verdict line. */
  readonly end?: ComponentChildren | undefined;
  readonly href?: string | undefined;
  readonly onPress?: (() => void) | undefined;
  readonly current?: boolean | undefined;
};

/** Draws the rows; a row with `href` is a link, with `onPress` a button, else plain text. */
export function ListRows(props: { readonly label?: string | undefined; readonly rows: readonly ListRow[] }) {
  return (
    <ul class="list-rows" aria-label={props.label}>
      {props.rows.map((row) => (
        <li key={row.key}>
          <RowFrame row={row}>
            <span class="list-row-words">
              <span class="list-row-main">{row.main}</span>
              {row.second ? <span class="list-row-second">{row.second}</span> : null}
            </span>
            {row.end ? <span class="list-row-end">{row.end}</span> : null}
          </RowFrame>
        </li>
      ))}
    </ul>
  );
}

function RowFrame(props: { readonly row: ListRow; readonly children: ComponentChildren }) {
  const { row } = props;
  if (row.href !== undefined) {
    return (
      <a class="list-row" href={row.href} aria-current={row.current ? "page" : undefined}>
        {props.children}
      </a>
    );
  }
  if (row.onPress !== undefined) {
    return (
      <button
        class="list-row"
        type="button"
        aria-current={row.current ? "true" : undefined}
        onClick={row.onPress}
      >
        {props.children}
      </button>
    );
  }
  return <div class="list-row">{props.children}</div>;
}
