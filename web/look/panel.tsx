/** Panels over the page: the menu (from the left, under the tape) and the dialog. Esc closes both. */
import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { Button } from "./buttons.tsx";

export type PanelProps = {
  readonly open: boolean;
  readonly onClose: () => void;
  readonly title: string;
  readonly closeLabel: string;
  readonly children: ComponentChildren;
  readonly id?: string | undefined;
};

/** Draws the menu panel at the left edge; its rows are ListRows. */
export function MenuPanel(props: PanelProps) {
  return <Modal {...props} dress="menu-panel" />;
}

export type DialogProps = PanelProps & {
  /** Buttons of the dialog, the one that writes last. */
  readonly actions?: ComponentChildren | undefined;
};

/** Draws a question that must be answered first. */
export function Dialog(props: DialogProps) {
  return <Modal {...props} dress="dialog" />;
}

function Modal(props: DialogProps & { readonly dress: string }) {
  const ref = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const dialog = ref.current;
    if (dialog === null) return;
    if (props.open && !dialog.open) dialog.showModal();
    if (!props.open && dialog.open) dialog.close();
  }, [props.open]);
  return (
    <dialog
      ref={ref}
      id={props.id}
      class={`panel ${props.dress}`}
      aria-label={props.title}
      onClose={props.onClose}
    >
      {props.open ? (
        <div class="panel-inside">
          <div class="panel-top">
            <h2 class="panel-title">{props.title}</h2>
            <Button weight="quiet" keyHint="Esc" onPress={props.onClose}>
              {props.closeLabel}
            </Button>
          </div>
          <div class="panel-body">{props.children}</div>
          {props.actions ? <div class="panel-actions">{props.actions}</div> : null}
        </div>
      ) : null}
    </dialog>
  );
}
