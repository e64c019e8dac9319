// Reads the model document, object by object, in the order of the model description.
#include <utility>
#include <vector>

#include <likelihet/documents/model_document.hpp>
#include <likelihet/documents/object_reader.hpp>

namespace likelihet::documents {

namespace {

using colony::Named;

std::vector<std::string> texts(ObjectReader& object, std::string_view field, Presence presence) {
  std::vector<std::string> list;
  object.elements(field, presence,
                  [&](const Node& node) { list.push_back(id_of(node).value_or(std::string())); });
  return list;
}

std::vector<double> numbers(ObjectReader& object, std::string_view field) {
  std::vector<double> list;
  object.elements(field, Presence::required,
                  [&](const Node& node) { list.push_back(number_of(node).value_or(0)); });
  return list;
}

Named<double> named_numbers(const Node& node) {
  Named<double> list;
  ObjectReader::members_of(node, [&](const std::string& key, const Node& value) {
    list.emplace_back(key, number_of(value).value_or(0));
  });
  return list;
}

// A bare word is an appearance with probability 1.
Named<double> appearance(const Node& node) {
  if (node.value.is_object()) return named_numbers(node);
  if (!node.value.is_string()) {
    refuse(node, "an appearance, or an object of appearances with their probabilities");
    return {};
  }
  const std::optional<std::string> word = id_of(node);
  return word ? Named<double>{{*word, 1.0}} : Named<double>{};
}

colony::LocusDescription read_locus(const Node& node) {
  using genetics::Chromosome;
  ObjectReader object(node, "a locus");
  colony::LocusDescription locus;
  locus.id = object.required("id", id_of);
  locus.on =
      object
          .word<Chromosome>(
              "on", Presence::optional,
              {{"autosome", Chromosome::autosome}, {"X", Chromosome::x}, {"Z", Chromosome::z}})
          .value_or(Chromosome::autosome);
  locus.alleles = texts(object, "alleles", Presence::required);
  object.members("appearance", Presence::optional, [&](const std::string& key, const Node& value) {
    locus.appearance.emplace_back(key, appearance(value));
  });
  object.members("viability", Presence::optional, [&](const std::string& key, const Node& value) {
    locus.viability.emplace_back(key, number_of(value).value_or(0));
  });
  locus.caution = object.optional("caution", text_of).value_or(std::string());
  object.finish();
  return locus;
}

colony::OriginDescription read_origin(const Node& node) {
  ObjectReader object(node, "an origin");
  colony::OriginDescription origin;
  origin.id = object.required("id", id_of);
  object.members("frequencies", Presence::optional,
                 [&](const std::string& locus, const Node& alleles) {
                   origin.frequencies.emplace_back(locus, named_numbers(alleles));
                 });
  origin.worth = object.optional("worth", number_of);
  object.finish();
  return origin;
}

colony::RowDescription read_row(const Node& node) {
  ObjectReader object(node, "a marker row");
  colony::RowDescription row;
  object.members("at", Presence::required, [&](const std::string& locus, const Node& genotype) {
    row.at.emplace_back(locus, id_of(genotype).value_or(std::string()));
  });
  row.expect = numbers(object, "expect");
  row.worth = object.optional("worth", number_of);
  object.finish();
  return row;
}

std::vector<colony::RowDescription> read_rows(ObjectReader& object) {
  std::vector<colony::RowDescription> rows;
  object.elements("rows", Presence::required,
                  [&](const Node& node) { read_into(rows, node, read_row); });
  return rows;
}

// {"locus", "shows"} or {"line"}, never both.
void read_when(const Node& node, colony::ContextDescription& context) {
  ObjectReader object(node, "the condition of a context");
  if (object.has("line")) {
    context.line = object.optional("line", id_of);
    for (const std::string_view field : {"locus", "shows"}) {
      if (!object.has(field)) continue;
      node.fault("'" + std::string(field) + "' stands beside 'line'",
                 "name a locus and what it shows, or a line: give two contexts for both");
    }
  } else {
    context.locus = object.required("locus", id_of);
    context.shows = object.required("shows", id_of);
  }
  object.finish();
}

colony::ContextDescription read_context(const Node& node) {
  ObjectReader object(node, "a context");
  colony::ContextDescription context;
  if (const Json* when = object.find("when", Presence::required)) {
    read_when(node.member("when", *when), context);
  }
  const std::optional<bool> ignore =
      object.word<bool>("use", Presence::required, {{"ignore", true}, {"rows", false}});
  context.ignore = ignore.value_or(false);
  if (context.ignore && object.has("rows")) {
    node.fault("rows stand beside \"use\": \"ignore\"",
               "write \"use\": \"rows\", or remove the rows");
  }
  if (!ignore) object.has("rows");  // whether it may have rows is not known
  if (ignore && !context.ignore) context.rows = read_rows(object);
  object.finish();
  return context;
}

colony::MarkerDescription read_marker(const Node& node) {
  ObjectReader object(node, "a marker");
  colony::MarkerDescription marker;
  marker.id = object.required("id", id_of);
  marker.levels = texts(object, "levels", Presence::required);
  marker.weight = object.optional("weight", number_of);
  marker.rows = read_rows(object);
  object.elements("contexts", Presence::optional,
                  [&](const Node& context) { read_into(marker.contexts, context, read_context); });
  object.finish();
  return marker;
}

colony::AssayRowDescription read_assay_row(const Node& node) {
  ObjectReader object(node, "an assay row");
  colony::AssayRowDescription row;
  row.at = object.required("at", id_of);
  row.expect = numbers(object, "expect");
  object.finish();
  return row;
}

colony::AssayDescription read_assay(const Node& node) {
  ObjectReader object(node, "an assay");
  colony::AssayDescription assay;
  assay.id = object.required("id", id_of);
  assay.locus = object.required("locus", id_of);
  assay.reports = texts(object, "reports", Presence::required);
  object.elements("rows", Presence::required,
                  [&](const Node& row) { read_into(assay.rows, row, read_assay_row); });
  assay.mix_up = object.optional("mix_up", number_of);
  assay.price = object.optional("price", number_of);
  object.finish();
  return assay;
}

colony::ScorerDescription read_scorer(const Node& node) {
  ObjectReader object(node, "a scorer");
  colony::ScorerDescription scorer;
  scorer.id = object.required("id", id_of);
  scorer.sure = object.optional("sure", number_of);
  object.finish();
  return scorer;
}

colony::TogetherDescription read_together(const Node& node) {
  ObjectReader object(node, "a group of markers that come together");
  colony::TogetherDescription together;
  together.id = object.required("id", id_of);
  together.markers = texts(object, "markers", Presence::required);
  together.common_loading =
      object.word<bool>("loading", Presence::optional, {{"common", true}, {"each", false}});
  together.spread = object.optional("spread", number_of);
  object.finish();
  return together;
}

colony::ModelDescription read_description(const Node& node) {
  using genetics::SexSystem;
  ObjectReader object(node, "a model document");
  colony::ModelDescription model;
  if (!read_heading(object, node, "likelihet-model")) return model;
  model.name = object.optional("name", text_of).value_or(std::string());
  model.sex_chromosomes =
      object
          .word<SexSystem>(
              "sex_chromosomes", Presence::optional,
              {{"XY", SexSystem::xy}, {"ZW", SexSystem::zw}, {"none", SexSystem::none}})
          .value_or(SexSystem::none);
  object.elements("loci", Presence::required,
                  [&](const Node& locus) { read_into(model.loci, locus, read_locus); });
  object.elements("origins", Presence::optional,
                  [&](const Node& origin) { read_into(model.origins, origin, read_origin); });
  object.elements("markers", Presence::optional,
                  [&](const Node& marker) { read_into(model.markers, marker, read_marker); });
  object.elements("assays", Presence::optional,
                  [&](const Node& assay) { read_into(model.assays, assay, read_assay); });
  object.elements("scorers", Presence::optional,
                  [&](const Node& scorer) { read_into(model.scorers, scorer, read_scorer); });
  object.elements("together", Presence::optional,
                  [&](const Node& group) { read_into(model.together, group, read_together); });
  object.finish();
  return model;
}

}  // namespace

std::variant<colony::ModelDescription, colony::Faults> read_model(std::string_view text) {
  FaultList faults;
  const std::optional<Json> json = parse_json(text, faults);
  if (!json) return faults.take();
  colony::ModelDescription model = read_description({*json, {}, faults});
  if (!faults.empty()) return faults.take();
  return model;
}

}  // namespace likelihet::documents
