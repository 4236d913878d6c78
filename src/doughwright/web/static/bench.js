// What the page needs beside htmx: keep what is typed, the focus and the place while parts are replaced.
"use strict";
(() => {
  const form = document.getElementById("work");
  if (!form) return;
  const fields = () => form.querySelectorAll("input.in, select.in");
  const value = (field) => field.value;
  const complete = (row) => {
    const [item, ...amounts] = [...row.querySelectorAll("input")].map(value);
    return item.trim() && amounts.some((one) => one.trim());
  };
  const first = (row) => row.querySelector("input").name;
  let sent = new Map();
  let added = new Set();
  let kept = null;
  // What is worked out apart asks for itself, and must not be taken for a change of the document.
  const isChange = (event) => (event.detail.requestConfig || event.detail).elt === form;

  // A field that is replaced while it is written in is not finished, though the browser says it has changed;
  // once it is left it is, though the browser does not say so.
  let owed = null;
  let late = false;
  const settle = () => {
    if (owed && owed.isConnected) form.dispatchEvent(new Event("change"));
    owed = null;
  };
  window.addEventListener("change", (event) => {
    if (kept) event.stopPropagation();
    else if (event.target === owed) owed = null;
  }, true);
  form.addEventListener("focusout", (event) => { if (!kept && event.target === owed) settle(); });

  // A button's wish goes the way of every change: in its turn, after what was typed before it. A press of
  // Enter in a field is no wish: its change is on its way already.
  form.addEventListener("submit", (event) => {
    if (!window.htmx) return;
    event.preventDefault();
    settle();
    if (!event.submitter || event.submitter.classList.contains("plain")) return;
    form.dispatchEvent(new CustomEvent("wish", { detail: event.submitter }));
  });
  document.body.addEventListener("htmx:configRequest", (event) => {
    const { parameters, triggeringEvent: why } = event.detail;
    // htmx sends the button that has the focus with every change: nobody has pressed it again.
    delete parameters["do"];
    delete parameters["go"];
    if (why && why.type === "wish") parameters[why.detail.name] = why.detail.value;
  });

  // A wide window needs no pictures for phones; one that becomes narrow asks for them.
  const wide = window.matchMedia("(min-width: 641px)");
  document.body.addEventListener("htmx:configRequest", (event) => {
    event.detail.parameters["wide"] = wide.matches ? "1" : "";
  });
  wide.addEventListener("change", () => {
    const empty = [...form.querySelectorAll(".narrow")].some((one) => !one.firstElementChild);
    if (!wide.matches && empty) form.dispatchEvent(new Event("change"));
  });

  document.body.addEventListener("htmx:beforeRequest", (event) => {
    if (!isChange(event)) return;
    sent = new Map([...fields()].map((field) => [field.name, value(field)]));
    added = new Set([...form.querySelectorAll(".blank")].filter(complete).map(first));
  });

  document.body.addEventListener("htmx:beforeSwap", (event) => {
    if (!isChange(event)) {
      // The page has moved on while it was worked out.
      if (!event.detail.requestConfig.elt.isConnected) event.detail.shouldSwap = false;
      return;
    }
    const active = document.activeElement;
    const typed = new Map();
    for (const field of fields()) {
      // A new item waits for its amount, and an amount for its item; also where the other came too late to be sent.
      const row = field.closest(".blank");
      if (field.value && row && !added.has(first(row))) typed.set(field.name, value(field));
      if (sent.has(field.name) && sent.get(field.name) !== value(field)) typed.set(field.name, value(field));
    }
    const caret = active && "selectionStart" in active ? [active.selectionStart, active.selectionEnd] : null;
    kept = { id: active ? active.id : "", top: active ? active.getBoundingClientRect().top : 0, caret, typed };
  });

  document.body.addEventListener("htmx:afterOnLoad", (event) => {
    if (!kept || !isChange(event)) return;
    for (const field of fields()) {
      if (kept.typed.has(field.name)) field.value = kept.typed.get(field.name);
    }
    late = kept.typed.size > 0;
    const again = kept.id ? document.getElementById(kept.id) : null;
    owed = again && kept.typed.has(again.name) ? again : null;
    if (again) {
      if (again !== document.activeElement) again.focus({ preventScroll: true });
      if (kept.caret && "setSelectionRange" in again && again.type !== "hidden") again.setSelectionRange(...kept.caret);
      window.scrollBy(0, again.getBoundingClientRect().top - kept.top);
    }
    kept = null;
    numbered();
  });

  // The text: as high as its lines, with their numbers.
  const numbered = () => {
    const text = document.getElementById("text");
    const numbers = document.getElementById("numbers");
    if (!text || !numbers) return;
    const count = text.value.split("\n").length;
    if (text.rows !== count) text.rows = count;
    const shown = Array.from({ length: count }, (_, index) => index + 1).join("\n");
    if (numbers.textContent !== shown) numbers.textContent = shown;
  };
  let pause = 0;
  form.addEventListener("input", (event) => {
    if (event.target.id !== "text") return;
    numbered();
    clearTimeout(pause);
    pause = setTimeout(() => form.dispatchEvent(new Event("typed")), 500);
  });
  numbered();

  // A fault's line: put the caret there.
  document.addEventListener("click", (event) => {
    const link = event.target.closest("a[data-line]");
    const text = document.getElementById("text");
    if (!link || !text) return;
    event.preventDefault();
    const lines = text.value.split("\n");
    const line = Math.min(Number(link.dataset.line), lines.length);
    const start = lines.slice(0, line - 1).join("\n").length + (line > 1 ? 1 : 0);
    text.focus({ preventScroll: true });
    text.setSelectionRange(start, start + lines[line - 1].length);
    const height = text.getBoundingClientRect().height / lines.length;
    window.scrollTo({ top: window.scrollY + text.getBoundingClientRect().top + height * (line - 1) - window.innerHeight / 3 });
  });

  // What could not be kept is said where the last change stands.
  const trouble = (words) => {
    form.querySelector(".strip").classList.toggle("trouble", Boolean(words));
    if (words) document.getElementById("said").textContent = words;
  };
  document.body.addEventListener("htmx:sendError", (event) => {
    if (isChange(event)) trouble("The bench does not answer, so the last change is not kept yet. Is it still running?");
  });
  document.body.addEventListener("htmx:responseError", (event) => {
    if (isChange(event)) trouble(`The bench refused the last change (${event.detail.xhr.status}); it is not kept. Load the page again.`);
  });
  document.body.addEventListener("htmx:afterOnLoad", (event) => { if (event.detail.successful && isChange(event)) trouble(""); });

  // What was typed and not sent yet goes out when the page is left.
  let pending = false;
  form.addEventListener("input", () => { pending = true; });
  document.body.addEventListener("htmx:afterOnLoad", (event) => {
    if (event.detail.successful && isChange(event)) pending = late;
  });
  window.addEventListener("pagehide", () => {
    if (pending) fetch(form.action, { method: "POST", body: new URLSearchParams(new FormData(form)), keepalive: true });
  });
})();
