/** Puts the focus on the first field with a problem, once it is drawn: its problem is then spoken with it. */
export function focusFirstWrong(form: HTMLElement | null): void {
  requestAnimationFrame(() => form?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus());
}
