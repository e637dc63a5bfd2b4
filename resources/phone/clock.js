// Times: the phone's own clock against the plan's instants, shown as the kitchen's clock shows them.

const MINUTE = 60000;

const clock = (() => {
  const form = (() => {
    try {
      return new Intl.DateTimeFormat("en-GB", { timeZone: sheet.zone, hour: "2-digit", minute: "2-digit", hourCycle: "h23" });
    } catch (unknown) {
      return null; // a zone that this phone does not know: the plan's own distance from UTC does
    }
  })();
  const two = (number) => String(number).padStart(2, "0");

  function wall(at) {
    if (form) return form.format(new Date(at));
    const there = new Date(at + sheet.gap * MINUTE);
    return `${two(there.getUTCHours())}:${two(there.getUTCMinutes())}`;
  }

  function length(minutes) {
    const days = Math.floor(minutes / 1440), hours = Math.floor((minutes % 1440) / 60), rest = minutes % 60;
    if (days) return `${days} d ${hours} h`;
    if (hours) return `${hours} h ${two(rest)} min`;
    return `${rest} min`;
  }

  function seconds(ms) {
    const all = Math.floor(Math.abs(ms) / 1000);
    const hours = Math.floor(all / 3600), minutes = Math.floor((all % 3600) / 60);
    if (hours >= 48) return `${Math.floor(hours / 24)} d ${hours % 24} h`;
    return hours ? `${hours}:${two(minutes)}:${two(all % 60)}` : `${minutes}:${two(all % 60)}`;
  }

  return {
    now: () => Date.now(),
    wall,
    length,
    hour: (at) => Number(wall(at).slice(0, 2)),
    // what is left begins at its full minutes: 12:00 means twelve minutes
    countdown: (end, at) => (end > at ? seconds(Math.ceil((end - at) / 1000) * 1000) : `+${seconds(at - end)}`),
    // whole minutes until something, begun ones counted; 0 from its minute on
    until: (at, now) => Math.max(0, Math.ceil((at - now) / MINUTE)),
    since: (at, now) => Math.max(0, Math.floor((now - at) / MINUTE)),
    // how this phone's own clock stands to the kitchen's at serving, in minutes
    apart: () => {
      const own = new Date(sheet.plating);
      return -own.getTimezoneOffset() - sheet.gap;
    },
    own: (at) => { const there = new Date(at); return `${two(there.getHours())}:${two(there.getMinutes())}`; },
  };
})();
