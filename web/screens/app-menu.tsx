/** The menu: the rooms of the program that the role may enter, sound, dark or light, and the way out. */
import { useState } from "preact/hooks";
import type { Role } from "../../server/domain/register/account.ts";
import { Button } from "../look/buttons.tsx";
import { Choice } from "../look/choice.tsx";
import { ListRows } from "../look/list-rows.tsx";
import { MenuPanel } from "../look/panel.tsx";
import type { Words } from "../look/words.ts";
import { EVENT_WORDS } from "../look/words-event.ts";
import { TRACING_WORDS } from "../look/words-tracing.ts";
import type { Sounds } from "../scan/sounds.ts";

export interface AppMenuProps {
  readonly open: boolean;
  readonly role: Role;
  readonly say: Words;
  readonly sounds: Sounds;
  readonly onClose: () => void;
  readonly onSignOut: () => void;
}

const BENCH: readonly Role[] = ["technician", "inspector", "program manager"];
const READS: readonly Role[] = [...BENCH, "company officer", "reader"];
const MANAGES: readonly Role[] = ["program manager"];

export function AppMenu(props: AppMenuProps) {
  const { say, role, sounds } = props;
  const [isMuted, setMuted] = useState(sounds.isMuted());
  const [theme, setTheme] = useState(document.documentElement.dataset["theme"] ?? "system");
  const rooms: readonly (readonly [string, string, (readonly Role[])?])[] = [
    ["/", say.bench],
    ["/find", say.find],
    ["/register", say.registerGear, BENCH],
    ["/import", say.bringIn, BENCH],
    ["/tags", say.printTags, BENCH],
    ["/cards", say.printCards, BENCH],
    ["/models", say.modelTable, BENCH],
    ["/places", say.places],
    ["/members", say.members],
    ["/machines", say.machines, [...BENCH, "reader"]],
    ["/events", EVENT_WORDS.events, READS],
    ["/bags", EVENT_WORDS.bags, READS],
    ["/property", say.foundProperty, BENCH],
    ["/traces", TRACING_WORDS.traces, [...BENCH, "reader"]],
    ["/parties", say.parties, [...BENCH, "reader"]],
    ["/people", say.people, MANAGES],
    ["/settings", say.settings, MANAGES],
    ["/own", say.ownSecrets],
  ];
  const rows = rooms
    .filter(([, , roles]) => !roles || roles.includes(role))
    .map(([href, main]) => ({ key: href, main, href, current: location.pathname === href }));
  return (
    <MenuPanel open={props.open} onClose={props.onClose} title={say.menu} closeLabel={say.close}>
      <nav aria-label={say.menu}>
        <ListRows rows={rows} />
      </nav>
      <Choice
        name="sound"
        legend={say.sound}
        value={isMuted ? "off" : "on"}
        options={[
          { value: "on", label: say.on },
          { value: "off", label: say.off },
        ]}
        onChange={(value) => {
          sounds.mute(value === "off");
          setMuted(value === "off");
        }}
      />
      <Choice
        name="theme"
        legend={say.darkOrLight}
        value={theme}
        options={[
          { value: "system", label: say.asSystem },
          { value: "light", label: say.light },
          { value: "dark", label: say.dark },
        ]}
        onChange={(value) => {
          setTheme(value);
          keepTheme(value);
        }}
      />
      <Button weight="quiet" wide onPress={props.onSignOut}>
        {say.signOut}
      </Button>
    </MenuPanel>
  );
}

const THEME = "layertrail.theme";

function keepTheme(theme: string): void {
  if (theme === "system") delete document.documentElement.dataset["theme"];
  else document.documentElement.dataset["theme"] = theme;
  try {
    localStorage.setItem(THEME, theme);
  } catch {
    // Where nothing may be kept, the choice holds for this page.
  }
}

/** Puts the theme that was chosen here before on the page. */
export function wearTheme(): void {
  try {
    const theme = localStorage.getItem(THEME);
    if (theme === "dark" || theme === "light") document.documentElement.dataset["theme"] = theme;
  } catch {
    // The system's theme it is.
  }
}
