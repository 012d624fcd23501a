/** The whole program in the browser: who is signed in, which screen is open, the menu, and the lists that screens share. */
import { useEffect, useMemo, useState } from "preact/hooks";
import type { BagShown } from "../../server/domain/custody/bag-views.ts";
import type { SettingsShown } from "../../server/domain/register/register-views.ts";
import type { MemberBrief, PlaceBrief } from "../../server/domain/scan-answer.ts";
import type { Client } from "../api/client.ts";
import type { MeOnWire } from "../api/wire.ts";
import { Page } from "../look/page.tsx";
import { Tape } from "../look/tape.tsx";
import { type Region, words } from "../look/words.ts";
import { openSounds } from "../scan/sounds.ts";
import { AppMenu } from "./app-menu.tsx";
import { AppScreens } from "./app-screens.tsx";
import { ask, load, loadList, symbolOf } from "./ask.ts";
import { BenchScreen } from "./bench/bench-screen.tsx";
import type { OtherParty } from "./bench/mode.ts";
import { LinkScreen } from "./link-screen.tsx";
import { PersonDialog } from "./person-dialog.tsx";
import type { Frame } from "./record/frame.ts";
import { serverBenchPort } from "./server-bench-port.ts";
import { SignInScreen } from "./sign-in-screen.tsx";
import { goTo, usePlace } from "./use-place.ts";

interface Shared {
  readonly places: readonly PlaceBrief[];
  readonly members: readonly MemberBrief[];
  readonly others: readonly OtherParty[];
  readonly region: Region;
  readonly timeZone: string;
}
const NOTHING_SHARED: Shared = { places: [], members: [], others: [], region: "US", timeZone: "UTC" };

export function App(props: { readonly client: Client }) {
  const { client } = props;
  const [me, setMe] = useState<MeOnWire | "unknown" | "nobody">("unknown");
  const [shared, setShared] = useState(NOTHING_SHARED);
  const place = usePlace();
  const say = words(shared.region);
  const who = async () => {
    const asked = await client.get("/api/me");
    setMe(asked.ok ? asked.answer : "nobody");
  };
  useEffect(() => {
    void who();
  }, []);
  useEffect(() => {
    if (typeof me === "object") void loadShared(client).then(setShared);
  }, [typeof me === "object" ? me.account : me]);
  const come = async () => {
    await who();
    if (place.screen === "link") goTo("/");
  };
  if (me === "unknown")
    return (
      <Page tape={<Tape verb="Layertrail" second="" writes={false} menuLabel={say.menu} slim />}>{null}</Page>
    );
  if (place.screen === "link") {
    return (
      <LinkScreen
        say={say}
        token={place.token}
        look={(token) => ask(client.post("/api/links/look", { body: { token } }))}
        send={(purpose, body) => useLink(client, purpose, body)}
        onSignedIn={() => void come()}
      />
    );
  }
  if (me === "nobody") {
    return (
      <SignInScreen
        say={say}
        signIn={(signInName, passphrase) =>
          ask(client.post("/api/sign-in", { body: { signInName, passphrase } }))
        }
        onSignedIn={() => void come()}
      />
    );
  }
  return (
    <SignedIn
      client={client}
      me={me}
      shared={shared}
      onPerson={who}
      onNobody={() => setMe("nobody")}
      onShared={() => void loadShared(client).then(setShared)}
    />
  );
}

interface SignedInProps {
  readonly client: Client;
  readonly me: MeOnWire;
  readonly shared: Shared;
  readonly onPerson: () => Promise<void>;
  readonly onNobody: () => void;
  readonly onShared: () => void;
}

function SignedIn(props: SignedInProps) {
  const { client, me, shared } = props;
  const place = usePlace();
  const say = words(shared.region);
  const sounds = useMemo(openSounds, []);
  const [isMenuOpen, setMenuOpen] = useState(false);
  useEffect(() => setMenuOpen(false), [place]);
  const [waiting, setWaiting] = useState(0);
  const [badge, setBadge] = useState<{ number: string; name: string }>();
  const zone = { now: Date.now(), timeZone: shared.timeZone };
  const port = useMemo(() => serverBenchPort(client, () => shared.timeZone), [client, shared.timeZone]);
  const person = { name: me.name, role: me.strength === "badge" ? say.badgeOnly : me.role };
  const frame: Frame = (parts) => (
    <Page
      tape={
        <Tape
          verb={parts.verb}
          second={parts.second}
          writes={false}
          slim
          person={person}
          menuLabel={say.menu}
          menuOpen={isMenuOpen}
          onMenu={() => setMenuOpen(true)}
        />
      }
    >
      {parts.children}
    </Page>
  );
  const signOut = async () => {
    await client.post("/api/sign-out", { body: {} });
    props.onNobody();
  };
  return (
    <>
      <div class={place.screen === "bench" ? "screen" : "screen screen-away"}>
        <BenchScreen
          isOpen={place.screen === "bench"}
          port={port}
          sounds={sounds}
          say={say}
          person={person}
          me={me.account}
          isTurnInOnly={me.strength === "badge"}
          isChanging={badge !== undefined}
          onWaiting={setWaiting}
          role={me.role}
          clock={zone}
          places={shared.places}
          members={shared.members}
          packer={me.member ? { id: me.member, name: me.name } : undefined}
          loadBags={() =>
            me.strength === "badge" ? Promise.resolve([]) : loadList<BagShown>(client, "bags")
          }
          others={shared.others}
          menuOpen={isMenuOpen}
          onMenu={() => setMenuOpen(true)}
          onChangePerson={(number, name) => setBadge({ number, name })}
          onPrintRecord={(piece) => goTo(`/pieces/${piece}`)}
          symbolOf={(number) => symbolOf(client, number)}
          onTaken={() => place.screen !== "bench" && goTo("/")}
        />
      </div>
      {place.screen === "bench" ? null : (
        <AppScreens
          client={client}
          me={me}
          place={place}
          frame={frame}
          say={say}
          clock={zone}
          places={shared.places}
          onShared={props.onShared}
        />
      )}
      <AppMenu
        open={isMenuOpen}
        role={me.role}
        say={say}
        sounds={sounds}
        onClose={() => setMenuOpen(false)}
        onSignOut={() => void signOut()}
      />
      <PersonDialog
        badge={badge}
        waiting={waiting}
        say={say}
        change={(number, pin) =>
          ask(client.post("/api/bench/change-person", { body: { badge: number, ...(pin ? { pin } : {}) } }))
        }
        onChanged={async () => {
          await props.onPerson();
          setBadge(undefined);
        }}
        onClose={() => setBadge(undefined)}
      />
    </>
  );
}

function useLink(client: Client, purpose: "first manager" | "join" | "new passphrase", body: object) {
  const sent = { body: body as never };
  if (purpose === "first manager") return ask(client.post("/api/links/first-manager", sent));
  return purpose === "join"
    ? ask(client.post("/api/links/join", sent))
    : ask(client.post("/api/links/new-passphrase", sent));
}

type ListedParty = Omit<OtherParty, "kind"> & { readonly closed: boolean };
const inUse = (parties: readonly ListedParty[]) => parties.filter(({ closed }) => !closed);

/** Reads what several screens share: places and members for choosing, the department's words and time zone. */
async function loadShared(client: Client): Promise<Shared> {
  const [places, members, providers, outside, settings] = await Promise.all([
    loadList<PlaceBrief>(client, "places"),
    loadList<MemberBrief>(client, "members"),
    loadList<ListedParty>(client, "providers"),
    loadList<ListedParty>(client, "outside"),
    load<Partial<SettingsShown>>(client, "/api/settings"),
  ]);
  const set = "answer" in settings ? settings.answer : {};
  return {
    places,
    members,
    others: [
      ...inUse(providers).map(({ id, name }) => ({ kind: "provider" as const, id, name })),
      ...inUse(outside).map(({ id, name }) => ({ kind: "outside" as const, id, name })),
    ],
    region: set["screen words"] === "international" ? "international" : "US",
    timeZone: set["time zone"] ?? "UTC",
  };
}
