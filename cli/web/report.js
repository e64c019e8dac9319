// Draws the charts of a report. The page is whole without this script: every chart has its table.
//
// A drawing (class "drawing") names the JSON script that holds its Vega-Lite specification. Its
// widest width is in the specification; on a narrow screen it is made to fit, and drawn again when
// the room changes. Vega's expressions are interpreted, so that the page's security policy can
// forbid eval.
import { parse, View, Warn } from "vega";
import { expressionInterpreter } from "vega-interpreter";
import { compile } from "vega-lite";

// What the axis of a square chart takes beside and below the square, in pixels.
const AXIS_ROOM = 64;

// The names of rows have their part of the width, and no more; on a phone a legend is a list.
function fitted(given, room) {
  const names = { labelLimit: Math.round(Math.min(given.width, room) * 0.4) };
  const legend = { ...given.config.legend, columns: room < 420 ? 1 : 2, labelLimit: room - 100 };
  const specification = { ...given, config: { ...given.config, axisY: names, legend } };
  if (specification.usermeta.square) {
    const side = Math.min(specification.width, room - AXIS_ROOM);
    return { ...specification, width: side, height: side };
  }
  return { ...specification, width: Math.min(specification.width, room) };
}

async function draw(drawing) {
  const room = drawing.clientWidth;
  if (room === 0 || room === drawing.drawnFor) return;
  drawing.drawnFor = room;
  const specification = JSON.parse(document.getElementById(drawing.dataset.specification).text);
  const { spec } = compile(fitted(specification, room));
  drawing.view?.finalize();
  // Vega describes what it draws into; the drawing around it has a better description of its own.
  const canvas = document.createElement("div");
  canvas.setAttribute("aria-hidden", "true");
  drawing.replaceChildren(canvas);
  drawing.view = new View(parse(spec, null, { ast: true }), {
    container: canvas,
    renderer: "svg",
    hover: false,
    logLevel: Warn,
    expr: expressionInterpreter,
  });
  await drawing.view.runAsync();
  drawing.dataset.drawn = "yes";
}

function drawAll() {
  for (const drawing of document.querySelectorAll(".drawing")) {
    draw(drawing).catch((problem) => {
      drawing.textContent = "This chart could not be drawn; its table has the figures.";
      console.error(problem);
    });
  }
}

drawAll();
let waiting;
addEventListener("resize", () => {
  clearTimeout(waiting);
  waiting = setTimeout(drawAll, 150);
});
// A chart inside a closed part of the page has no room until that is opened.
addEventListener("toggle", drawAll, true);
