import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { TAG_ALPHABET, withCheckSymbols } from "../../server/domain/tags/tag-number.ts";
import { play } from "../../test/kit/field-under-keys.ts";
import {
  aKey,
  altKeys,
  azertyLayout,
  cyrillicLayout,
  type Layout,
  qwertzLayout,
  typedKeys,
  usLayout,
  wedgeKeys,
} from "../../test/kit/wedge-keys.ts";

const NUMBER = "C7K3F92CXTKK";
const OTHER = "F1234567896F";
const SCANNED = { field: "", scans: [NUMBER], confirms: 0, page: "" };
const HOSTS: Readonly<Record<string, Layout>> = {
  US: usLayout,
  AZERTY: azertyLayout,
  QWERTZ: qwertzLayout,
  Cyrillic: cyrillicLayout,
};

describe("a US-configured scanner", () => {
  for (const [name, host] of Object.entries(HOSTS)) {
    for (const everyMs of [1, 8, 16, 24]) {
      test(`is read exactly on a ${name} host at ${everyMs} ms a key`, () => {
        expect(play(wedgeKeys(NUMBER, { host, everyMs }))).toEqual(SCANNED);
        expect(play(wedgeKeys(NUMBER, { host, everyMs, target: "page" }))).toEqual(SCANNED);
      });
    }
    test(`brings a maker's barcode of 13 digits through a ${name} host`, () => {
      expect(play(wedgeKeys("4006381333931", { host })).scans).toEqual(["4006381333931"]);
    });
    test(`brings a link through a ${name} host`, () => {
      const link = `HTTPS://T.EXAMPLE.ORG/${NUMBER}`;
      expect(play(wedgeKeys(link, { host }))).toEqual({ ...SCANNED, scans: [link] });
    });
    test(`brings a symbology identifier through a ${name} host`, () => {
      expect(play(wedgeKeys(`]d1${NUMBER}`, { host }))).toEqual({ ...SCANNED, scans: [`]d1${NUMBER}`] });
    });
  }
});

describe("a scanner configured as its host is", () => {
  for (const [name, host] of Object.entries({ AZERTY: azertyLayout, QWERTZ: qwertzLayout })) {
    test(`is read by what a ${name} host makes of its keys`, () => {
      expect(play(wedgeKeys(NUMBER, { scanner: host, host }))).toEqual(SCANNED);
    });
    test(`brings a maker's barcode of 13 digits through a ${name} host`, () => {
      expect(play(wedgeKeys("4006381333931", { scanner: host, host })).scans).toEqual(["4006381333931"]);
    });
  }
  test("that a tag has shown to be so is believed where a foreign code fits both readings", () => {
    const ambiguous = "ZQWA";
    const keys = (start: number) =>
      wedgeKeys(ambiguous.repeat(2), { scanner: azertyLayout, host: azertyLayout, start });
    expect(play(keys(1_000)).scans).toEqual(["WAZQWAZQ"]);
    const tagFirst = wedgeKeys(NUMBER, { scanner: azertyLayout, host: azertyLayout });
    expect(play([...tagFirst, ...keys(3_000)]).scans).toEqual([NUMBER, "ZQWAZQWA"]);
  });
});

test("a remote desktop that passes AZERTY characters and no physical key still brings the number", () => {
  const keys = wedgeKeys(NUMBER, { host: azertyLayout }).map((key) => ({ ...key, code: "" }));
  expect(play(keys).scans).toEqual([NUMBER]);
});

describe("the end of a scan", () => {
  test("is the twelfth symbol when its check holds, without waiting for Enter", () => {
    const keys = wedgeKeys(NUMBER, { end: "none" });
    const afterTwelve = play([...keys, aKey({ key: "x", code: "KeyX", time: 1_000 + 11 * 8 + 400 })]);
    expect(afterTwelve).toEqual({ ...SCANNED, field: "x" });
  });
  test("may be Tab", () => {
    expect(play(wedgeKeys(NUMBER, { end: "Tab" }))).toEqual(SCANNED);
  });
  test("may be 80 ms of silence", () => {
    expect(play(wedgeKeys("4006381333931", { end: "none" })).scans).toEqual(["4006381333931"]);
  });
  test("swallows Enter and a second Enter after it, so neither confirms", () => {
    const keys = [...wedgeKeys("4006381333931"), aKey({ code: "Enter", key: "Enter", time: 1_112 })];
    expect(play(keys)).toEqual({ ...SCANNED, scans: ["4006381333931"] });
  });
  test("swallows an Enter that comes 100 ms late", () => {
    const late = aKey({ code: "Enter", key: "Enter", time: 1_000 + 11 * 8 + 100 });
    expect(play([...wedgeKeys(NUMBER, { end: "none" }), late])).toEqual(SCANNED);
  });
  test("leaves an Enter that a person presses half a second later", () => {
    const own = aKey({ code: "Enter", key: "Enter", time: 1_600 });
    expect(play([...wedgeKeys(NUMBER), own])).toEqual({ ...SCANNED, confirms: 1 });
  });
});

test("a page that gets its keys 60 ms late reports a scan once", () => {
  expect(play(wedgeKeys(NUMBER), 60)).toEqual(SCANNED);
});

describe("a page that gets its keys late", () => {
  for (const lagMs of [60, 100, 300]) {
    test(`by ${lagMs} ms ends with the whole scan and leaves nothing in the field`, () => {
      for (const text of [NUMBER, "4006381333931"]) {
        const { field, scans, confirms } = play(wedgeKeys(text), lagMs);
        expect({ field, last: scans.at(-1), confirms }).toEqual({ field: "", last: text, confirms: 0 });
      }
    });
    test(`by ${lagMs} ms loses nothing that a person types`, () => {
      const text = "the quick brown fox jumps over it";
      expect(play(typedKeys(text, 1_000, [12, 31, 44, 90, 20, 35, 41, 48, 49, 120]), lagMs).field).toBe(text);
    });
  }
});

describe("several scans", () => {
  test("150 ms apart are two scans", () => {
    const first = wedgeKeys(NUMBER);
    const second = wedgeKeys(OTHER, { start: (first.at(-1)?.time ?? 0) + 150 });
    expect(play([...first, ...second])).toEqual({ ...SCANNED, scans: [NUMBER, OTHER] });
  });
  test("150 ms apart without Enter are two scans, of the same tag as well", () => {
    const first = wedgeKeys(NUMBER, { end: "none" });
    const second = wedgeKeys(NUMBER, { start: (first.at(-1)?.time ?? 0) + 150, end: "none" });
    expect(play([...first, ...second])).toEqual({ ...SCANNED, scans: [NUMBER, NUMBER] });
  });
});

describe("a foreign code", () => {
  test("of 60 characters comes whole and leaves nothing in the field", () => {
    const long = "ABCDEFGHIJ-0123456789/abcdefghij.ABCDEFGHIJ+0123456789$abcde".slice(0, 60);
    expect(long).toHaveLength(60);
    expect(play(wedgeKeys(long))).toEqual({ ...SCANNED, scans: [long] });
  });
  test("that begins with a whole tag number is reported again, whole, as one longer code", () => {
    const long = `${NUMBER}00042`;
    expect(play(wedgeKeys(long))).toEqual({ ...SCANNED, scans: [NUMBER, long] });
  });
  test("of 6 characters is a scan on the page but typed text in a field", () => {
    expect(play(wedgeKeys("K10442", { target: "page" }))).toEqual({ ...SCANNED, scans: ["K10442"] });
    expect(play(wedgeKeys("K10442"))).toEqual({ field: "K10442", scans: [], confirms: 1, page: "" });
  });
  test("keeps its group separators, sent as Control and a key", () => {
    const control = aKey({ code: "BracketRight", key: "]", ctrlKey: true, time: 1_080 });
    const keys = [
      ...wedgeKeys("0104006381", { end: "none" }),
      control,
      ...wedgeKeys("21ABC", { start: 1_088 }),
    ];
    expect(play(keys).scans).toEqual(["0104006381\u001d21ABC"]);
  });
});

describe("Alt + keypad codes", () => {
  for (const target of ["text", "page"] as const) {
    test(`are decoded and leave nothing behind (${target})`, () => {
      const keys = altKeys(NUMBER, 1_000, 4, target);
      const end = aKey({ code: "Enter", key: "Enter", target, time: (keys.at(-1)?.time ?? 0) + 4 });
      expect(play([...keys, end])).toEqual(SCANNED);
    });
  }
  test("of a person, slowly, stay the person's", () => {
    expect(play(altKeys("@", 1_000, 120))).toEqual({ field: "@", scans: [], confirms: 0, page: "" });
  });
});

describe("a person", () => {
  test("who types at 60 ms a key loses nothing, a tag number included", () => {
    const typed = play([
      ...typedKeys(NUMBER, 1_000, [60]),
      aKey({ code: "Enter", key: "Enter", time: 2_000 }),
    ]);
    expect(typed).toEqual({ field: NUMBER, scans: [], confirms: 1, page: "" });
  });
  test("whose fingers roll over keys gets everything back in order", () => {
    const text = "the quick brown fox jumps over it";
    const keys = typedKeys(text, 1_000, [12, 31, 44, 90, 20, 35, 41, 48, 49, 120]);
    expect(play(keys)).toEqual({ field: text, scans: [], confirms: 0, page: "" });
  });
  test("who is steadily quick (40 ms a key) is not taken for a scanner", () => {
    const text = "steadily quick typing over a line";
    expect(play(typedKeys(text, 1_000, [40])).field).toBe(text);
  });
  test("who holds a key down sees it repeat at once", () => {
    const keys = Array.from({ length: 20 }, (_, index) =>
      aKey({ code: "KeyA", key: "a", repeat: index > 0, time: 1_000 + index * 33 }),
    );
    expect(play(keys).field).toBe("a".repeat(20));
  });
  test("who presses Backspace in a quick run deletes the right letter", () => {
    const keys = [
      ...typedKeys("abcde", 1_000, [30]),
      aKey({ code: "Backspace", key: "Backspace", time: 1_150 }),
      ...typedKeys("f", 1_180, [30]),
    ];
    expect(play(keys).field).toBe("abcdf");
  });
  test("who presses Enter right after quick keys has the keys in the field before Enter acts", () => {
    const keys = [...typedKeys("abcde", 1_000, [30]), aKey({ code: "Enter", key: "Enter", time: 1_150 })];
    expect(play(keys)).toEqual({ field: "abcde", scans: [], confirms: 1, page: "" });
  });
  test("who presses shortcuts outside fields is given each of them", () => {
    expect(play(typedKeys("otp", 1_000, [300], "page")).page).toBe("otp");
  });
  test("who composes (accents, East Asian text) is left alone", () => {
    const keys = typedKeys("nihao", 1_000, [10]).map((key) => ({ ...key, isComposing: true }));
    expect(play(keys)).toEqual({ field: "nihao", scans: [], confirms: 0, page: "" });
  });
});

const aNumber = fc
  .tuple(
    fc.constantFrom(...TAG_ALPHABET.slice(10)),
    fc.array(fc.constantFrom(...TAG_ALPHABET), { minLength: 9, maxLength: 9 }),
  )
  .map(([first, rest]) => withCheckSymbols(first + rest.join("")) ?? "");
const aForeignCode = fc
  .stringMatching(/^[0-9]{8,20}$/)
  .filter((text) => text.length !== 12 && text.length !== 15);
const aScan = fc.record({
  act: fc.constant("scan" as const),
  text: fc.oneof(aNumber, aForeignCode),
  everyMs: fc.integer({ min: 1, max: 20 }),
  end: fc.constantFrom("Enter" as const, "Tab" as const, "none" as const),
});
/** A person's pauses: some quick pairs, never eight keys at a scanner's pace. */
const someTyping = fc.record({
  act: fc.constant("type" as const),
  text: fc.stringMatching(/^[a-z0-9 ]{1,40}$/),
  pausesMs: fc
    .array(fc.integer({ min: 5, max: 200 }), { minLength: 3, maxLength: 9 })
    .filter((pauses) => pauses.filter((pause) => pause >= 30).length * 2 > pauses.length + 2),
});

test("typed text never vanishes and scans come out once, in order, however they alternate", () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.integer({ min: 155, max: 500 }), fc.oneof(aScan, someTyping)), { maxLength: 8 }),
      (acts) => {
        let time = 1_000;
        const keys = acts.flatMap(([pause, act]) => {
          const made =
            act.act === "scan"
              ? wedgeKeys(act.text, { start: time, everyMs: act.everyMs, end: act.end })
              : typedKeys(act.text, time, act.pausesMs);
          time = (made.at(-1)?.time ?? time) + pause;
          return made;
        });
        const typed = acts.flatMap(([, act]) => (act.act === "type" ? [act.text] : [])).join("");
        const scanned = acts.flatMap(([, act]) => (act.act === "scan" ? [act.text] : []));
        expect(play(keys)).toEqual({ field: typed, scans: scanned, confirms: 0, page: "" });
      },
    ),
    { numRuns: 1_000 },
  );
});

test("any noise of keys ends with every character in the field or in a scan", () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.integer({ min: 0, max: 120 }), fc.constantFrom(..."abc123C7K")), {
        maxLength: 60,
      }),
      (noise) => {
        let time = 1_000;
        const keys = noise.map(([pause, char]) => {
          time += pause;
          return typedKeys(char, time, [0])[0] ?? aKey({ key: char, time });
        });
        const all = noise.map(([, char]) => char).join("");
        const { field, scans } = play(keys);
        expect(isInterleaving(all, field, scans.join(""))).toBe(true);
      },
    ),
    { numRuns: 1_000 },
  );
});

/** Whether a text is two others shuffled together with the order of each kept. */
function isInterleaving(all: string, one: string, two: string): boolean {
  if (all.length !== one.length + two.length) return false;
  let reachable = new Set([0]);
  for (let index = 0; index < all.length; index += 1) {
    const next = new Set<number>();
    for (const taken of reachable) {
      if (one[taken] === all[index]) next.add(taken + 1);
      if (two[index - taken] === all[index]) next.add(taken);
    }
    reachable = next;
  }
  return reachable.has(one.length);
}
