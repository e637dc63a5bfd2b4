// The screen stays on where the browser lets a page ask for that (Screen Wake Lock); where not, the page says so.

const awake = (() => {
  let lock = null, asking = false, refused = false;

  function tell() {
    const note = document.getElementById("awake");
    const can = Boolean(navigator.wakeLock) && !refused;
    note.textContent = !can ? "This browser cannot keep the screen on: set the phone itself not to sleep."
      : lock ? "The screen is kept on while this page is open." : "Touch the page once, then the screen is kept on.";
    note.classList.toggle("warns", !can);
  }

  async function ask() {
    if (lock || asking || !navigator.wakeLock || document.visibilityState !== "visible") return;
    asking = true;
    try {
      lock = await navigator.wakeLock.request("screen");
      refused = false;
      lock.addEventListener("release", () => { lock = null; tell(); });
    } catch (no) {
      refused = true; // as when the battery is low; it is asked again with the next touch
    }
    asking = false;
    tell();
  }

  return { ask, tell };
})();
