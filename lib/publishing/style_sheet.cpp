// The look of reports.
#include "page.hpp"

namespace likelihet::publishing {

Markup style_sheet() {
  // Text colours are at least 4.5 : 1 on what is behind them (WCAG 2.2, 1.4.3).
  return literal(R"(
:root { --ink: #1d2326; --soft: #4d565b; --line: #c8cfd2; --paper: #fff; --shade: #f3f5f4; --link: #0b5a8a;
  --warn: #7a3b00; --warn-shade: #fff6e5; }
* { box-sizing: border-box; }
html { font: 100%/1.5 system-ui, sans-serif; color: var(--ink); background: var(--paper); }
body { margin: 0 auto; padding: 1rem; max-width: 62rem; overflow-wrap: anywhere; }
h1 { font-size: 1.7rem; line-height: 1.2; margin: .5rem 0; }
h2 { font-size: 1.3rem; margin: 2.2rem 0 .6rem; padding-top: .6rem; border-top: 3px solid var(--ink); }
h3 { font-size: 1.05rem; margin: 1.4rem 0 .4rem; }
p, li, dd { max-width: 44rem; }
a { color: var(--link); }
a:focus-visible, summary:focus-visible, .scroll:focus-visible, main:focus-visible {
  outline: 3px solid var(--link); outline-offset: 2px; }
main:focus { outline: none; }
.skip { position: absolute; left: -999rem; padding: .8rem; background: var(--paper); }
.skip:focus { left: 1rem; }
header p, footer, figcaption span, .none { color: var(--soft); }
.lead { font-size: 1.15rem; }
nav ol { display: flex; flex-wrap: wrap; gap: .2rem 1.2rem; padding: 0; list-style: none; }
nav a { display: inline-block; padding: .45rem 0; }
.warnings { border: 1px solid var(--warn); border-left-width: 8px; background: var(--warn-shade); padding: .2rem 1rem; }
.warnings h3 { color: var(--warn); margin-top: .6rem; }
.flow { list-style: none; display: flex; flex-wrap: wrap; gap: .6rem 2rem; padding: 0; }
.flow .box { position: relative; border: 1px solid var(--ink); padding: .5rem .8rem; min-width: 8rem; flex: 0 1 auto; }
.flow .box + .box::before { content: "\2192" / ""; position: absolute; left: -1.6rem; top: .8rem; font-size: 1.2rem; }
.flow .title { display: block; font-size: .9rem; }
.flow .number { font-size: 1.5rem; font-weight: 600; }
.flow ul { margin: .2rem 0 0; padding-left: 1.1rem; font-size: .9rem; }
.left-out { border-left: 3px dashed var(--soft); padding-left: .9rem; }
.scroll { overflow-x: auto; max-width: 100%; margin: .6rem 0 1rem; }
table { border-collapse: collapse; font-size: .9rem; overflow-wrap: normal; }
caption { text-align: left; font-weight: 600; padding: .3rem 0; }
th, td { text-align: left; vertical-align: top; padding: .3rem .7rem .3rem 0; border-bottom: 1px solid var(--line); }
thead th { border-bottom: 2px solid var(--ink); vertical-align: bottom; }
tbody th { font-weight: 500; min-width: 7rem; }
.figure { text-align: right; padding-left: .7rem; font-variant-numeric: tabular-nums; }
.short { white-space: nowrap; }
.figure.long { min-width: 7rem; }
td.words.long:last-child { min-width: 12rem; }
time { white-space: nowrap; }
.charts { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 27rem), 1fr)); gap: 1.2rem;
  align-items: start; margin: 1.6rem 0; }
figure { margin: 0; min-width: 0; padding: .8rem; border: 1px solid var(--line); }
figcaption { margin-bottom: .6rem; max-width: 44rem; }
.drawing { width: 100%; overflow: hidden; margin-bottom: .8rem; }
.drawing svg { display: block; max-width: 100%; height: auto; }
details { margin: .4rem 0; }
summary { cursor: pointer; padding: .5rem 0; color: var(--link); }
.marker { border-bottom: 1px solid var(--line); }
.verdict { border: 1px solid currentColor; border-radius: .3rem; padding: .05rem .5rem; font-weight: 500;
  background: var(--shade); }
dt { font-weight: 600; margin-top: .7rem; }
dd { margin-left: 1rem; }
footer { margin-top: 3rem; border-top: 1px solid var(--line); font-size: .9rem; }
@media (max-width: 40rem) {
  .flow { flex-direction: column; gap: 1.6rem; }
  .flow .box + .box::before { content: "\2193" / ""; left: 1rem; top: -1.6rem; }
  figure { padding: .5rem; }
}
@media print {
  @page { size: A4; margin: 16mm 14mm;
    @bottom-right { content: counter(page) " / " counter(pages); font: 8pt system-ui, sans-serif; } }
  html { font-size: 10pt; }
  body { max-width: none; padding: 0; }
  nav, .skip, summary { display: none; }
  details::details-content { content-visibility: visible; display: block; }
  h2, h3, figcaption, caption, thead { break-after: avoid; }
  h2 { margin-top: 1.4rem; }
  .flow { flex-wrap: nowrap; gap: 1.8rem; }
  .flow .box { min-width: 0; padding: .3rem .4rem; }
  .charts { display: block; }
  figure { margin: 1rem 0; }
  .drawing { break-before: avoid; }
  figcaption, .drawing, tr, .box, .warnings, .marker > p { break-inside: avoid; }
  .scroll { overflow: visible; }
  table { font-size: 8pt; width: 100%; }
  .figure.short { white-space: normal; }
  td.words.long:last-child { min-width: 0; }
  thead { display: table-header-group; }
  .verdict, .warnings { background: none; }
  a { color: inherit; text-decoration: none; }
}
)");
}

}  // namespace likelihet::publishing
