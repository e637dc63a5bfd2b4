// Timers: they begin where something that goes on by itself is ticked off, count down, ring, and then count up.

const timers = (() => {
  const AGAIN = 6000; // ms between two rings
  const NAMED = 2;    // names on the bar that rings
  const list = document.getElementById("timers");
  const bar = document.getElementById("ringing");
  let rang = 0;
  let heard = false; // whether the last ring could sound

  const over = (at) => keep.held.timers.filter((each) => each.end <= at && !each.quiet);

  // about: `of` and `does`, what the timer is called; `place` where it cooks; `over` how it ends ("out"); `tone`
  function begin(mark, about, end, planned = null) {
    stop(mark);
    const { of, does, place, over: word, tone } = about;
    put({ mark, of, does, place, over: word, tone, end, planned, quiet: false });
  }

  function put(...more) {
    keep.held.timers.push(...more);
    keep.held.timers.sort((one, other) => one.end - other.end);
  }

  // Returns the timers that it stopped.
  function stop(mark) {
    const stopped = keep.held.timers.filter((each) => each.mark === mark);
    keep.held.timers = keep.held.timers.filter((each) => each.mark !== mark);
    return stopped;
  }

  function restore(stopped) {
    const there = new Set(keep.held.timers.map((each) => each.mark));
    put(...stopped.filter((each) => !there.has(each.mark)));
  }

  function item(each) {
    const row = document.createElement("li"), left = document.createElement("b"), name = document.createElement("div");
    row.dataset.timer = each.mark;
    left.className = "left";
    left.setAttribute("role", "timer");
    name.className = "name";
    name.append(bidi(each.of));
    for (const words of [each.does, each.place]) if (words) name.append(small(words));
    name.append(small(`${each.over} at ${clock.wall(each.end)}${plannedWords(each)}`, "until"));
    const buttons = document.createElement("div");
    buttons.className = "changes";
    buttons.append(
      button("−5", "less", each.mark, `5 min less: ${called(each)}`),
      button("+5", "more", each.mark, `5 min more: ${called(each)}`),
      button("End", "end", each.mark, `End the timer: ${called(each)}`),
    );
    row.append(left, buttons, name);
    return row;
  }

  // What went in late is out late, by its length; what the plan meant stands beside it.
  function plannedWords(each) {
    const apart = Number.isFinite(each.planned) && Math.abs(each.end - each.planned) >= 2 * MINUTE;
    return apart ? `, planned ${clock.wall(each.planned)}` : "";
  }

  function button(words, does, mark, said) {
    const found = document.createElement("button");
    found.type = "button";
    found.textContent = words;
    found.dataset[does] = mark;
    found.setAttribute("aria-label", said);
    return found;
  }

  function small(text, kind = "") {
    const found = document.createElement("span");
    if (kind) found.className = kind;
    found.append(bidi(text));
    return found;
  }

  const called = (each) => (each.does ? `${each.of}, ${each.does}` : each.of);

  // The list is made anew only when a timer comes, goes or moves: what has the focus stays where it is.
  function draw(at) {
    const shape = JSON.stringify(keep.held.timers.map((each) => [each.mark, each.end]));
    if (list.dataset.shape !== shape) {
      const focus = document.activeElement && document.activeElement.closest("#timers button");
      const [does, mark] = focus ? Object.entries(focus.dataset)[0] : [];
      list.replaceChildren(...keep.held.timers.map(item));
      list.dataset.shape = shape;
      if (focus) (list.querySelector(`[data-${does}="${CSS.escape(mark)}"]`) || document.getElementById("done")).focus();
    }
    document.getElementById("no-timers").hidden = keep.held.timers.length > 0;
    keep.held.timers.forEach((each, index) => {
      const left = list.children[index].firstChild;
      left.textContent = clock.countdown(each.end, at);
      left.classList.toggle("over", each.end <= at);
    });
    drawBar(at);
  }

  function drawBar(at) {
    const found = over(at);
    bar.hidden = found.length === 0;
    if (!found.length) {
      rang = 0;
      return;
    }
    const more = found.length - NAMED;
    const said = found.slice(0, NAMED).map((each) => `${called(each)}: time is over`).join("; ")
      + (more > 0 ? `; and ${more} more` : "");
    const line = document.getElementById("rings");
    if (line.textContent !== said) line.textContent = said;
    document.getElementById("rings-up").textContent = clock.countdown(found[0].end, at);
    document.getElementById("mute").hidden = sound.ready();
    // as soon as a touch lets the page sound, it makes up for the ring that could not be heard
    if (at - rang >= AGAIN || (!heard && sound.ready())) {
      rang = at;
      heard = sound.ready();
      found.slice(0, 3).forEach((each, index) => setTimeout(() => sound.ring(each.tone), index * 1200));
    }
  }

  return {
    begin,
    stop,
    restore,
    draw,
    silence(at) {
      over(at).forEach((each) => { each.quiet = true; });
    },
    change(mark, minutes) {
      for (const each of keep.held.timers) {
        if (each.mark === mark) Object.assign(each, { end: each.end + minutes * MINUTE, quiet: false });
      }
      put();
    },
    longer(at) {
      over(at).forEach((each) => { each.end = at + 2 * MINUTE; });
      put();
    },
    ringing: (at) => over(at).length > 0,
  };
})();

function bidi(text) {
  const found = document.createElement("bdi");
  found.textContent = text;
  return found;
}
