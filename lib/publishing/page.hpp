// The frame of a report: what stands around its parts. Private to the layer.
#pragma once

#include <string_view>
#include <vector>

#include "markup.hpp"

namespace likelihet::publishing {

/// A heading of the page's list of contents: the id of its section and what it says.
struct ContentsEntry {
  Literal id;
  Literal heading;
};

struct Page {
  Literal title;
  Markup subtitle;
  std::vector<ContentsEntry> contents;
  Markup body;
  /// The program that draws charts; empty for none.
  std::string_view scripts;
};

/// A page without any script: nothing in it can be one, and its policy forbids them all.
struct StaticPage {
  Markup title;
  Markup extra_style;  ///< after the style sheet
  Markup data;         ///< data blocks in the head (JSON-LD), which browsers do not run
  Markup body;         ///< all of it
};

Markup static_page(const StaticPage& page);

/// A whole HTML document that fetches nothing: its style and scripts are in it, and its policy
/// forbids everything else (Content Security Policy level 3).
Markup html_page(const Page& page);

/// The style sheet, for screens from 320 pixels on and for A4 paper.
Markup style_sheet();

}  // namespace likelihet::publishing
