likelihet_layer(publishing WORDS_ONLY
  HEADERS audit_report.hpp listing.hpp listing_sections.hpp listing_document.hpp listing_markdown.hpp
          listing_html.hpp sheet.hpp
          claim.hpp claim_state.hpp verification.hpp
  SOURCES audit_report.cpp page.cpp style_sheet.cpp markup.cpp script.cpp table.cpp fields.cpp figures.cpp
          score_kinds.cpp specification.cpp chart.cpp charts.cpp chart_reliability.cpp chart_roc.cpp
          chart_net_benefit.cpp chart_drift.cpp chart_listings.cpp chart_forest.cpp chart_agreement.cpp
          chart_waterfall.cpp section_summary.cpp section_flow.cpp section_scores.cpp section_markers.cpp
          section_scorers.cpp section_tested.cpp section_animals.cpp reading_guide.cpp limits_section.cpp
          reporting_section.cpp reporting_facts.cpp reporting_stard.cpp reporting_tripod.cpp
          listing.cpp rounding.cpp ground_odds.cpp standing.cpp kin.cpp standings.cpp reason.cpp non_visual_offspring.cpp
          result_shown.cpp statement_words.cpp listing_notes.cpp listing_sections.cpp listing_document.cpp
          listing_markdown.cpp listing_html.cpp qr_code.cpp records_named.cpp step_rows.cpp sheet.cpp sheet_evidence.cpp
          claim.cpp claim_code.cpp claim_state.cpp correction.cpp verification.cpp
  PUBLIC_USES colony book odds audit
  PRIVATE_USES genetics inference documents learning
  PUBLIC_LINKS nlohmann_json::nlohmann_json
  # Whoever links the installed archive names the library; here the one found is taken.
  PRIVATE_LINKS fmt::fmt $<BUILD_INTERFACE:${LIKELIHET_QRENCODE}> $<INSTALL_INTERFACE:qrencode>)
