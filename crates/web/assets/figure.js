// Pictures: a cross-hair that reads the table of numbers, and saving as PNG.
// @ts-check

const SVG = "http://www.w3.org/2000/svg";

export function figures() {
  for (const picture of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("figure.picture:not([data-ready])"))) {
    picture.dataset.ready = "";
    const drawing = picture.querySelector("svg.figure");
    if (drawing instanceof SVGSVGElement) {
      crossHair(picture, drawing);
      png(picture, drawing);
    }
  }
}

/**
 * @param {HTMLElement} picture
 * @param {SVGSVGElement} drawing
 */
function crossHair(picture, drawing) {
  const table = document.getElementById(picture.dataset.numbers ?? "");
  if (!table || !drawing.dataset.lie) return;
  const rows = /** @type {HTMLTableRowElement[]} */ ([...table.querySelectorAll("tbody tr")]);
  const heads = [...table.querySelectorAll("thead th")].map((head) => head.textContent ?? "");
  const [top, bottom, left, right, low, high] = ["top", "bottom", "left", "right", "low", "high"].map((name) =>
    Number(drawing.dataset[name]),
  );
  // Depth runs downward, all else to the right.
  const down = drawing.dataset.lie === "down";
  const [from, to] = down ? [top, bottom] : [left, right];
  const hair = document.createElementNS(SVG, "line");
  hair.setAttribute("class", "hair");
  const reading = document.createElement("div");
  reading.className = "reading";
  reading.hidden = true;
  picture.append(reading);

  /** @param {PointerEvent} event */
  function read(event) {
    const matrix = drawing.getScreenCTM();
    if (!matrix) return;
    const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
    const at = down ? point.y : point.x;
    if (at < from || at > to || rows.length === 0) return hide();
    const along = low + ((at - from) / (to - from)) * (high - low);
    let near = rows[0];
    for (const row of rows) {
      if (Math.abs(Number(row.dataset.down) - along) < Math.abs(Number(near.dataset.down) - along)) near = row;
    }
    const place = String(from + ((Number(near.dataset.down) - low) / (high - low)) * (to - from));
    const ends = down ? { x1: left, x2: right, y1: place, y2: place } : { x1: place, x2: place, y1: top, y2: bottom };
    for (const [name, value] of Object.entries(ends)) hair.setAttribute(name, String(value));
    drawing.append(hair);
    const list = document.createElement("table");
    [...near.cells].forEach((cell, column) => {
      if (cell.textContent?.trim() === "") return;
      const row = list.insertRow();
      row.insertCell().textContent = heads[column];
      row.insertCell().textContent = cell.textContent;
    });
    reading.replaceChildren(list);
    reading.hidden = false;
  }

  function hide() {
    hair.remove();
    reading.hidden = true;
  }

  drawing.addEventListener("pointermove", read);
  drawing.addEventListener("pointerdown", read);
  drawing.addEventListener("pointerleave", hide);
}

/**
 * Draws the picture, with the look it has on the page, on a canvas.
 * @param {HTMLElement} picture
 * @param {SVGSVGElement} drawing
 */
function png(picture, drawing) {
  const button = picture.querySelector("button[data-png]");
  if (!(button instanceof HTMLButtonElement)) return;
  button.hidden = false;
  button.addEventListener("click", async () => {
    const copy = /** @type {SVGSVGElement} */ (drawing.cloneNode(true));
    const [originals, copies] = [drawing.querySelectorAll("*"), copy.querySelectorAll("*")];
    originals.forEach((original, index) => {
      const look = getComputedStyle(original);
      for (const name of ["fill", "fill-opacity", "stroke", "stroke-width", "stroke-dasharray", "font", "text-anchor"]) {
        copies[index].setAttribute(name, look.getPropertyValue(name));
      }
      if (original.tagName === "text") {
        copies[index].setAttribute("font-family", look.fontFamily);
        copies[index].setAttribute("font-size", look.fontSize);
        copies[index].setAttribute("font-weight", look.fontWeight);
      }
    });
    const { width, height } = drawing.viewBox.baseVal;
    copy.setAttribute("width", String(width * 2));
    copy.setAttribute("height", String(height * 2));
    const url = URL.createObjectURL(new Blob([new XMLSerializer().serializeToString(copy)], { type: "image/svg+xml" }));
    const image = new Image();
    image.src = url;
    await image.decode();
    const canvas = document.createElement("canvas");
    [canvas.width, canvas.height] = [width * 2, height * 2];
    canvas.getContext("2d")?.drawImage(image, 0, 0);
    URL.revokeObjectURL(url);
    canvas.toBlob((blob) => {
      if (!blob) return;
      const link = document.createElement("a");
      link.href = URL.createObjectURL(blob);
      link.download = `${button.dataset.png}.png`;
      link.click();
      setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
    }, "image/png");
  });
}
