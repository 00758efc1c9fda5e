(function () {
  "use strict";
  var store;
  try { store = window.localStorage; store.getItem("x"); } catch (e) { return; }
  var boxes = document.querySelectorAll("[data-keep] input");
  var counts = {}, set = document.body.getAttribute("data-set");
  boxes.forEach(function (box) {
    var part = box.closest("[data-keep]").getAttribute("data-keep");
    counts[part] = (counts[part] || 0) + 1;
    var key = "stripesong:" + set + ":" + part + ":" + counts[part];
    var kept = store.getItem(key);
    if (kept !== null) {
      if (box.type === "checkbox") { box.checked = true; } else { box.value = kept; }
    }
    box.setAttribute("data-key", key);
    box.addEventListener("change", function () {
      var value = box.type === "checkbox" ? (box.checked ? "1" : "") : box.value;
      try {
        if (value) { store.setItem(key, value); } else { store.removeItem(key); }
      } catch (e) { /* full: the page still works */ }
    });
  });
  var clear = document.getElementById("clear");
  clear.hidden = false;
  clear.addEventListener("click", function () {
    if (!window.confirm("Clear every tick and everything typed on this page?")) { return; }
    boxes.forEach(function (box) {
      store.removeItem(box.getAttribute("data-key"));
      if (box.type === "checkbox") { box.checked = false; } else { box.value = ""; }
    });
  });
})();
