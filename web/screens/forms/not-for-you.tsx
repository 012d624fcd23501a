import { Notice } from "../../look/notice.tsx";
import { Sheet } from "../../look/page.tsx";
import { FORM_WORDS } from "../../look/words-forms.ts";

/** Says that a page is not for the role of whoever is signed in. */
export function NotForYou() {
  return (
    <Sheet>
      <Notice kind="empty" head={FORM_WORDS.mayNot}>
        {FORM_WORDS.mayNotNext}
      </Notice>
    </Sheet>
  );
}
