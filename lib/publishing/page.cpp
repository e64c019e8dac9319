#include "page.hpp"

#include "script.hpp"
#include "sections.hpp"

namespace likelihet::publishing {
namespace {

/// What is folded away on the screen is printed all the same.
constexpr std::string_view unfold_for_print = R"~(
addEventListener("beforeprint", () => {
  for (const each of document.querySelectorAll("details:not([open])")) {
    each.open = true;
    each.dataset.opened = "for print";
  }
});
addEventListener("afterprint", () => {
  for (const each of document.querySelectorAll("details[data-opened]")) {
    each.open = false;
    each.removeAttribute("data-opened");
  }
});
)~";

Markup head(const Markup& title, const Markup& scripts_allowed, const Markup& extra_style,
            const Markup& data) {
  return filled(
      "<head>\n<meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
      "'unsafe-inline'; "
      "{}base-uri 'none'; form-action 'none'\">\n"
      "<meta name=\"color-scheme\" content=\"light\">\n"
      "<title>{}</title>\n<style>{}{}</style>\n{}</head>\n",
      {scripts_allowed, title, style_sheet(), extra_style, data});
}

Markup head(const Page& page) {
  return head(literal(page.title), literal("script-src 'unsafe-inline'; "), {}, {});
}

Markup contents_list(const Page& page) {
  Markup items;
  for (const ContentsEntry& entry : page.contents) {
    items +=
        filled("<li><a href=\"#{}\">{}</a></li>\n", {literal(entry.id), literal(entry.heading)});
  }
  return filled("<nav aria-label=\"Contents\"><ol>\n{}</ol></nav>\n", {items});
}

}  // namespace

Markup section(Literal id, Literal heading, const Markup& content) {
  return filled(
      "<section id=\"{}\" aria-labelledby=\"{}-heading\">\n<h2 "
      "id=\"{}-heading\">{}</h2>\n{}</section>\n",
      {literal(id), literal(id), literal(id), literal(heading), content});
}

Markup static_page(const StaticPage& page) {
  return filled("<!DOCTYPE html>\n<html lang=\"en\">\n{}<body>\n{}</body>\n</html>\n",
                {head(page.title, {}, page.extra_style, page.data), page.body});
}

Markup html_page(const Page& page) {
  Markup scripts = filled("<script>{}</script>\n", {Script::program(unfold_for_print)});
  if (!page.scripts.empty())
    scripts += filled("<script>{}</script>\n", {Script::program(page.scripts)});
  return filled(
      "<!DOCTYPE html>\n<html lang=\"en\">\n{}<body>\n"
      "<a class=\"skip\" href=\"#content\">Skip to the content</a>\n"
      "<header><h1>{}</h1>\n{}</header>\n{}<main id=\"content\" tabindex=\"-1\">\n{}</main>\n"
      "<footer><p>Made by likelihet from a keeper’s own records. An estimate, not a "
      "guarantee.</p></footer>\n"
      "{}</body>\n</html>\n",
      {head(page), literal(page.title), page.subtitle, contents_list(page), page.body, scripts});
}

}  // namespace likelihet::publishing
