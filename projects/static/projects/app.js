/* Small helps; every page works without them. */
(function () {
  "use strict";

  function focusMarked(root) {
    const marked = root.querySelector("[data-focus]");
    if (marked) marked.focus();
  }

  document.addEventListener("DOMContentLoaded", function () {
    focusMarked(document);
  });

  document.addEventListener("htmx:afterSwap", function (event) {
    focusMarked(event.target);
  });

  /* `/` goes to the search or first filter, `s` with Alt saves the form at hand. Never while typing. */
  document.addEventListener("keydown", function (event) {
    const typing = /^(INPUT|SELECT|TEXTAREA)$/.test(document.activeElement.tagName);
    if (event.key === "/" && !typing && !event.ctrlKey && !event.metaKey && !event.altKey) {
      const search = document.querySelector("[data-search], .filters input, .filters select");
      if (search) {
        event.preventDefault();
        search.focus();
      }
    }
    if (event.altKey && event.key.toLowerCase() === "s") {
      const form = document.activeElement.closest("form") || document.querySelector("main form.form");
      const button = form && form.querySelector(".btn--primary");
      if (button) {
        event.preventDefault();
        button.click();
      }
    }
  });

  /* Typed but not saved: ask before leaving. */
  let dirty = false;
  document.addEventListener("input", function (event) {
    if (event.target.closest("form[data-guard]")) dirty = true;
  });
  document.addEventListener("submit", function () {
    dirty = false;
  });
  window.addEventListener("beforeunload", function (event) {
    if (dirty) event.preventDefault();
  });

  /* A print button without an inline handler; traces open for paper. */
  document.addEventListener("click", function (event) {
    if (event.target.closest("[data-print]")) window.print();
  });
  window.addEventListener("beforeprint", function () {
    document.querySelectorAll("details.trace").forEach(function (d) {
      d.dataset.was = d.open ? "open" : "";
      d.open = true;
    });
  });
  window.addEventListener("afterprint", function () {
    document.querySelectorAll("details.trace").forEach(function (d) {
      d.open = d.dataset.was === "open";
    });
  });
})();
