"use strict";
// What the phone remembers of this plan: ticks and timers, and how the page is looked at. Where nothing may be
// stored, the page works on and forgets when it is closed.

const sheet = JSON.parse(document.getElementById("sheet").textContent);

const keep = (() => {
  // order: what was ticked off together, the last one last; ended: timers that a tick ended, to come back with undo
  const empty = () => ({
    plating: sheet.plating, ticks: {}, order: [], ended: {}, timers: [], who: sheet.cook, made: sheet.cook, look: "",
  });
  const FAR = 14 * 24 * 3600 * 1000; // a plan that is put off so far is cooked anew: ms
  const isTime = (value) => Number.isFinite(value);
  let lasting = true;
  let held = empty();
  try {
    const found = JSON.parse(localStorage.getItem(sheet.key) || "null");
    if (found && typeof found === "object") held = taken(found);
    localStorage.setItem(sheet.key, JSON.stringify(held));
  } catch (nothing) {
    lasting = false;
  }

  // Another version of the page may have written it: take only what is of the kind that is wanted.
  function taken(found) {
    const now = empty();
    if (["", "light", "dark"].includes(found.look)) now.look = found.look;
    if (!isTime(found.plating) || Math.abs(found.plating - sheet.plating) > FAR) return now;
    const known = new Set(sheet.lines.map((line) => line.mark));
    for (const [mark, at] of Object.entries(found.ticks || {})) if (known.has(mark) && isTime(at)) now.ticks[mark] = at;
    if (Array.isArray(found.order)) {
      now.order = found.order
        .map((marks) => (Array.isArray(marks) ? marks : [marks]).filter((mark) => mark in now.ticks))
        .filter((marks) => marks.length);
    }
    for (const [mark, timers] of Object.entries(found.ended || {})) {
      if (mark in now.ticks && Array.isArray(timers)) now.ended[mark] = timers.filter(isTimer);
    }
    if (Array.isArray(found.timers)) now.timers = found.timers.filter(isTimer);
    // a page made for one cook begins with that cook's lines, whatever an older one showed
    if (typeof found.who === "string" && found.made === sheet.cook) now.who = found.who;
    return now;
  }

  function isTimer(each) {
    const words = ["mark", "of", "does", "place", "over"];
    return Boolean(each) && isTime(each.end) && isTime(each.tone) && words.every((word) => typeof each[word] === "string");
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
