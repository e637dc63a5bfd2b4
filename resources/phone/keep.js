"use strict";
// What the phone remembers of this plan: ticks and timers, and how the page is looked at. Where nothing may be
// stored, the page works on and forgets when it is closed.

const sheet = JSON.parse(document.getElementById("sheet").textContent);

const keep = (() => {
  const empty = () => ({ ticks: {}, order: [], timers: [], who: "", look: "" });
  let lasting = true;
  let held = empty();
  try {
    const found = JSON.parse(localStorage.getItem(sheet.key) || "null");
    if (found && typeof found === "object") held = sound(found);
    localStorage.setItem(sheet.key, JSON.stringify(held));
  } catch (nothing) {
    lasting = false;
  }

  // Another version of the page may have written it: take only what is of the kind that is wanted.
  function sound(found) {
    const now = empty();
    const isTime = (value) => Number.isFinite(value);
    const known = new Set(sheet.lines.map((line) => line.mark));
    for (const [mark, at] of Object.entries(found.ticks || {})) if (known.has(mark) && isTime(at)) now.ticks[mark] = at;
    if (Array.isArray(found.order)) now.order = found.order.filter((mark) => mark in now.ticks);
    if (Array.isArray(found.timers)) {
      now.timers = found.timers.filter((each) => each && typeof each.of === "string" && typeof each.mark === "string" && isTime(each.end));
    }
    if (typeof found.who === "string") now.who = found.who;
    if (["", "light", "dark"].includes(found.look)) now.look = found.look;
    return now;
  }

  return {
    get held() { return held; },
    get lasting() { return lasting; },
    save() {
      try {
        localStorage.setItem(sheet.key, JSON.stringify(held));
      } catch (full) {
        lasting = false;
      }
    },
    forget() {
      const { who, look } = held;
      held = { ...empty(), who, look };
      this.save();
    },
  };
})();
